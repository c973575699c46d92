//! The search for ways out, and what can be pressed for each of them.

use std::pin::Pin;

use domain::bake::{Bake, BakeId, Intent, State};
use domain::schedule::plan::{Asks, Conflict, Nearest, Way, conflict, levers};
use leptos::prelude::*;
use leptos::task::spawn_local;
use platform::clock;

use super::{Found, Press};
use crate::reactive::RwSignal;
use crate::state::Oventide;
use crate::words::plan::ways as words;

/// Looks for the contradiction and the ways out of it, and shows what was found as it comes.
pub(super) fn search(
    app: Oventide,
    found: RwSignal<Option<Found>>,
    newest: StoredValue<u32>,
    number: u32,
) {
    let bakes: Vec<Bake> = {
        let bakes = app.bakes.read_untracked();
        let running = bakes.iter().filter(|bake| !bake.state().is_over());
        running.cloned().collect()
    };
    let degrees = app.settings.read_untracked().degrees;
    let now = clock::now();
    spawn_local(async move {
        let goes_on = move || newest.try_get_value() == Some(number);
        let rest = || -> Pin<Box<dyn Future<Output = bool>>> {
            Box::pin(async move {
                clock::turn().await;
                goes_on()
            })
        };
        let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
        let refs: Vec<&Bake> = bakes.iter().collect();
        let conflict = conflict(&states, now, &rest).await;
        if !goes_on() {
            return;
        }
        if let Some(conflict) = conflict {
            let (contradiction, instead) = instead(&conflict, &bakes, &states);
            found.update(|found| {
                if let Some(found) = found {
                    (found.contradiction, found.instead) = (Some(contradiction), instead);
                }
            });
        }
        let ways = levers(&refs, now, &rest).await.unwrap_or_default();
        if !goes_on() {
            return;
        }
        let ways = ways.into_iter();
        let ways = ways.map(|way| {
            let about = words::way(&way, &states, &yeast(&way, &bakes), now, degrees);
            press_of(way, about, &bakes)
        });
        let ways = ways.collect();
        found.update(|found| {
            if let Some(found) = found {
                (found.ways, found.is_done) = (ways, true);
            }
        });
    });
}

fn instead(conflict: &Conflict, bakes: &[Bake], states: &[&State]) -> (String, Vec<Press>) {
    let now = clock::now();
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
            presses.push(press(&safe, words::safely(at, now), bakes, states));
        }
    }
    (words::contradiction(&conflict.claims, states, now), presses)
}

fn press(nearest: &Nearest, says: String, bakes: &[Bake], states: &[&State]) -> Press {
    let intents = match nearest.asks(states) {
        Asks::Wishes(wishes) => {
            let wishes = wishes.into_iter();
            let asked = wishes.map(|(bake, wishes)| (bake, Intent::Wish(Box::new(wishes))));
            asked.collect()
        }
        Asks::Pin(bake, step, at) => vec![(bake, Intent::Pin(step, at))],
    };
    Press {
        says,
        about: None,
        asks: asked_of(intents, bakes),
    }
}

fn press_of(way: Way, about: String, bakes: &[Bake]) -> Press {
    let says = words::take(&way).to_owned();
    Press {
        says,
        about: Some(about),
        asks: asked_of(way.intents, bakes),
    }
}

fn asked_of(intents: Vec<(usize, Intent)>, bakes: &[Bake]) -> Vec<(BakeId, Intent)> {
    let asks = intents.into_iter();
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
