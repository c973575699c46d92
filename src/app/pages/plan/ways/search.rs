//! The search for ways out, and what can be pressed for each of them.

use std::pin::Pin;

use domain::bake::{Bake, BakeId, Intent, State};
use domain::schedule::plan::{
    Asks, Conflict, Nearest, Way, conflict, levers, still_helps, still_kept,
};
use domain::units::Moment;
use leptos::task::spawn_local;
use platform::clock;

use super::again::{Look, Looks};
use super::{Found, Offer, Press};
use crate::words::plan::{NEEDS_NIGHT, ways as words};

/// Looks for the contradiction and the ways out of it, and tells what was found as it comes.
pub(super) fn search(looks: Looks, look: Look, number: u32) {
    let degrees = looks.app.settings.read_untracked().degrees;
    spawn_local(async move {
        let Look { at: now, bakes, .. } = look;
        let goes_on = move || looks.goes_on(number);
        let rest = || -> Pin<Box<dyn Future<Output = bool>>> {
            Box::pin(async move {
                clock::turn().await;
                goes_on()
            })
        };
        let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
        let refs: Vec<&Bake> = bakes.iter().collect();
        let mut found = Found {
            at: Some(now),
            of: bakes.clone(),
            ..Found::default()
        };
        let conflict = conflict(&states, now, &rest).await;
        if !goes_on() {
            return;
        }
        let gave_up = conflict.is_none();
        if let Some(conflict) = conflict.flatten() {
            let (contradiction, mut instead) = instead(&conflict, &bakes, &states, now);
            // What puts hands into the night says so, as where a table is chosen.
            for press in &mut instead {
                let is_table = matches!(press.offer, Offer::Instead(Nearest::Table { .. }));
                if is_table && rest().await && looks.app.needs_night(&bakes, &press.asks, now) {
                    press.about = Some(NEEDS_NIGHT.to_owned());
                }
            }
            (found.contradiction, found.instead) = (Some(contradiction), instead);
            looks.take_in(found.clone());
        } else {
            for later in looks.app.later_tables() {
                if still_kept(&later, &states, now, &rest).await == Some(true)
                    && let Nearest::Table { was, at, .. } = later
                {
                    let says = words::safely(was, at, &states, now);
                    found.instead.push(press(&later, says, &bakes, &states));
                }
            }
            if !goes_on() {
                return;
            }
        }
        let ways = levers(&refs, now, &rest).await;
        if !goes_on() {
            return;
        }
        found.gave_up = gave_up || ways.is_none();
        let ways = ways.into_iter().flatten();
        let plan = looks.app.plan.read_untracked();
        // As the page says it, which can be some minutes off what was looked for anew.
        let begins = |bake: &Bake| {
            let planned = plan.as_ref()?;
            let place = planned.place(&bake.id)?;
            planned.timetable.begins.get(place).copied().flatten()
        };
        let begins: Vec<_> = bakes.iter().map(begins).collect();
        drop(plan);
        let ways = ways.map(|way| {
            let yeast = yeast(&way, &bakes);
            let about = words::way(&way, &states, &begins, &yeast, now, degrees);
            press_of(way, about, &bakes)
        });
        (found.ways, found.is_done) = (ways.collect(), true);
        looks.take_in(found);
    });
}

/// Whether something that was found would still do what was said of it. What can't be proven in time isn't asked for.
pub(super) async fn still(offer: &Offer, look: &Look) -> bool {
    let rest = || -> Pin<Box<dyn Future<Output = bool>>> {
        Box::pin(async {
            clock::turn().await;
            true
        })
    };
    let (bakes, now) = (&look.bakes, look.at);
    let does = match offer {
        Offer::Instead(nearest) => {
            let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
            still_kept(nearest, &states, now, &rest).await
        }
        Offer::Way(way) => {
            let bakes: Vec<&Bake> = bakes.iter().collect();
            still_helps(way, &bakes, now, &rest).await
        }
    };
    does == Some(true)
}

fn instead(
    conflict: &Conflict,
    bakes: &[Bake],
    states: &[&State],
    now: Moment,
) -> (String, Vec<Press>) {
    let mut presses = Vec::new();
    for nearest in &conflict.nearest {
        presses.push(press(
            nearest,
            words::nearest(nearest, states, now),
            bakes,
            states,
        ));
        if let Nearest::Table {
            was,
            safely: Some(at),
            ..
        } = *nearest
        {
            let safely = None;
            let safe = Nearest::Table { was, at, safely };
            presses.push(press(
                &safe,
                words::safely(was, at, states, now),
                bakes,
                states,
            ));
        }
    }
    (words::contradiction(conflict, states, now), presses)
}

fn press(nearest: &Nearest, says: String, bakes: &[Bake], states: &[&State]) -> Press {
    let intents = match nearest.asks(states) {
        Asks::Wishes(wishes) => {
            let wishes = wishes.into_iter();
            let asked = wishes.map(|(bake, wishes)| (bake, Intent::Wish(Box::new(wishes))));
            asked.collect()
        }
        Asks::Pin(bake, step, at) => vec![(bake, Intent::Pin(step, at))],
        Asks::Retard(bake, step, stay) => vec![(bake, Intent::PlanRetard(step, stay))],
        // That is said of the kitchen.
        Asks::Room(_) => Vec::new(),
    };
    Press {
        says,
        about: None,
        offer: Offer::Instead(*nearest),
        asks: asked_of(&intents, bakes),
    }
}

fn press_of(way: Way, about: String, bakes: &[Bake]) -> Press {
    let says = words::take(&way).to_owned();
    Press {
        says,
        about: Some(about),
        asks: asked_of(&way.intents, bakes),
        offer: Offer::Way(Box::new(way)),
    }
}

fn asked_of(intents: &[(usize, Intent)], bakes: &[Bake]) -> Vec<(BakeId, Intent)> {
    let asks = intents.iter().cloned();
    let asks = asks.filter_map(|(bake, intent)| Some((bakes.get(bake)?.id.clone(), intent)));
    asks.collect()
}

/// The yeast of a way that changes it.
fn yeast(way: &Way, bakes: &[Bake]) -> String {
    let Some((bake, Intent::Refit(other))) = way.intents.first() else {
        return String::new();
    };
    let Some(state) = bakes.get(*bake).map(Bake::state) else {
        return String::new();
    };
    let scales = &state.kitchen.scales;
    let mass = |formula| crate::pages::formula::yeast_mass(formula, scales);
    words::yeast(mass(&state.formula), mass(other), scales)
}
