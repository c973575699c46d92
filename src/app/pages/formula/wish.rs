//! The reverse question: a rise of the dough, wished ready at another time of day.

use domain::estimate::Estimate;
use domain::formula::{Formula, Length, StepId};
use domain::kitchen::Scales;
use domain::schedule::{
    Unsafe, filled, is_long_for_egg_or_milk, rise_if_started, rises_if_started, yeast_for,
};
use domain::thermal::constants::FRIDGE;
use domain::thermal::vessel::Surroundings;
use domain::units::{Grams, Minutes, Moment, minutes};
use leptos::prelude::*;
use leptos::web_sys::HtmlInputElement;
use platform::clock;

use super::fit::{Fitting, OWN_YEAST};
use crate::reactive::{Memo, RwSignal};
use crate::state::{Oventide, oventide};
use crate::widgets::choices::Choices;
use crate::widgets::live::{self, Rows};
use crate::widgets::presses::Presses;
use crate::words;

/// Nearer than this a forecast of a rise can't be told from the wish.
const NEAR: Minutes = minutes(7.5);
/// In less time than this a fridge does nothing that a baker would go to it for.
const WORTH_A_FRIDGE: Minutes = minutes(20.0);
/// Scales that show the yeast coarsely may bring it no nearer than this part of the way.
const WORTH_WEIGHING: f64 = 0.7;

/// What the section says.
#[derive(PartialEq, Default)]
struct Told {
    now: String,
    /// When it is ready, as the minute of a day.
    minute: f64,
    ways: Vec<String>,
    /// What the button says, and how many times its own yeast the formula then has.
    press: Option<(String, f64)>,
}

/// When a rise is ready, and what makes it ready at another time.
#[component]
pub(super) fn ReadyAt(fitting: Fitting) -> impl IntoView {
    let rises = rises(&fitting.own.read_untracked());
    if rises.is_empty() {
        return ().into_any();
    }
    let app = oventide();
    let titles = rises.iter().map(|rise| rise.1.clone()).collect();
    let chosen = RwSignal::new(0_usize);
    let wanted = RwSignal::new(None::<f64>);
    let told = Memo::new(move |_| {
        let step = rises[chosen.get()].0;
        tell(app, fitting, step, wanted.get()).unwrap_or_default()
    });
    let field = move || {
        let minute = wanted.get().unwrap_or_else(|| told.read().minute);
        words::clock_field(minute as u32)
    };
    let ways = move || {
        let told = told.read();
        told.ways
            .iter()
            .map(|way| view! { <p>{way.clone()}</p> })
            .rows()
    };
    let says = move || {
        let told = told.read();
        let press = told.press.as_ref();
        press.map_or_else(String::new, |press| press.0.clone())
    };
    let presses = Presses::new();
    let press = move |_| {
        if let Some((_, times)) = told.read_untracked().press
            && presses.is_new()
        {
            fitting.yeast.set(times);
        }
    };
    let take = move |event| {
        let input: HtmlInputElement = event_target(&event);
        // In ms since midnight, and not a number while it is incomplete.
        let minute = input.value_as_number() / 60_000.0;
        wanted.set(Some(minute).filter(|minute| minute.is_finite()));
    };
    view! {
        <section class="section" aria-labelledby="ready">
            <h2 id="ready">{words::WISH}</h2>
            <Choices
                legend=words::WHICH_RISE
                options=titles
                chosen=Signal::derive(move || Some(chosen.get()))
                on_choose=move |place: usize| chosen.set(place)
            />
            <p>{live::text(move || told.read().now.clone())}</p>
            <label class="field">
                <span class="label">{words::READY_AT}</span>
                <input class="digits" type="time" prop:value=live::text(field) on:change=take />
            </label>
            <div class="lines" role="status">
                {live::part(ways)}
            </div>
            // One button for there and back: the focus stays on it. Without a word on it it isn't shown.
            <button class="button" type="button" on:click=press>
                {live::text(says)}
            </button>
            <p class="soft">{words::DOSE_NOTE}</p>
        </section>
    }
    .into_any()
}

/// The rises of a dough that has yeast, by their names.
fn rises(formula: &Formula) -> Vec<(StepId, String)> {
    let mut rises = Vec::new();
    if formula.fresh_yeast() > Grams::MIN {
        for step in &formula.steps {
            if matches!(step.length, Length::Ferment { .. }) {
                rises.push((step.id, step.title.clone()));
            }
        }
    }
    rises
}

/// What there is to say of a rise that is wanted ready at a minute of the day; whoever asks is told of changes.
fn tell(app: Oventide, fitting: Fitting, step: StepId, wanted: Option<f64>) -> Option<Told> {
    let settings = app.settings.read();
    let (kitchen, degrees) = (&settings.kitchen, settings.degrees);
    let (own, today) = (fitting.own.read(), fitting.fitted.read());
    let (scales, now) = (&kitchen.scales, app.beat.get());
    let rise_of = |formula| rise_if_started(formula, kitchen, now, step);
    let rise = rise_of(&today)?;
    let window = rise.window();
    let (own_amount, amount) = (yeast_of(&own, scales), yeast_of(&today, scales));
    let title = &today.step(step)?.title;
    let said = words::rise_now(title, &window, now, &amount, kitchen.air, degrees);
    // Another amount, and how many times the formula's own that is.
    let mut change = (fitting.yeast.get() != OWN_YEAST).then(|| (own_amount.clone(), OWN_YEAST));
    let mut ways = Vec::new();
    if let Some(minute) = wanted {
        let ready = clock::next_time_of_day(minute as u32, rise.start);
        let off = |window: &Estimate<Moment>| (ready - window.likely()).get().abs();
        ways.push(words::wish_for(ready, now));
        if off(&window) < NEAR.get() {
            ways.push(words::NEAR_ENOUGH.to_owned());
        } else {
            let filled = filled(&today, kitchen, now, step);
            let (mut too_long, mut longest) = (false, Minutes::MIN);
            match yeast_for(&own, kitchen, now, step, ready) {
                Ok(times) => {
                    let other = own.with_yeast(times, Some(scales));
                    let then = rise_of(&other)?.window();
                    let rises = rises_if_started(&other, kitchen, now);
                    if off(&then) >= off(&window) * WORTH_WEIGHING {
                        ways.push(words::NO_NEARER.to_owned());
                    } else if rises.bears_its_filling {
                        let amount = yeast_of(&other, scales);
                        ways.push(words::by_yeast(&amount, &then, now));
                        change = Some((amount, times));
                        longest = rises.longest;
                    } else if filled.is_some() {
                        too_long = true;
                    } else {
                        ways.push(words::LATER_TOO_LONG.to_owned());
                    }
                }
                Err(why) => ways.push(words::not_by_yeast(why).to_owned()),
            }
            let length = ready - rise.start;
            let around = rise.temperature_for(ready);
            // To the late end of its window, which only a filled dough asks for.
            let bears = |since: Moment, around: Surroundings, air| {
                filled.map_or(Ok(()), |filled| {
                    let late = rise.around(around).window().high();
                    filled.bears(late - since, air)
                })
            };
            let warm = |air| bears(rise.start, Surroundings::constant(air), air);
            match around.map_or(Ok(()), warm) {
                Err(Unsafe::TooLong) => too_long = true,
                Err(Unsafe::TooWarm) => ways.push(words::too_warm(degrees)),
                Ok(()) => {
                    if around.is_ok_and(|air| air > FRIDGE) {
                        longest = longest.max(length);
                    }
                    ways.push(words::by_warmth(around, degrees));
                }
            }
            let out = rise.out_of_fridge_for(ready, kitchen.fridge);
            let out = out.ok().filter(|&out| {
                let around = rise.fridge_until(out, kitchen.fridge);
                out - rise.start > WORTH_A_FRIDGE && bears(out, around, kitchen.air).is_ok()
            });
            if too_long {
                ways.push(words::too_long(out.is_some()));
            }
            if let Some(out) = out {
                longest = longest.max(ready - out);
                ways.push(words::by_fridge(out - rise.start, out, now));
            }
            if is_long_for_egg_or_milk(&today, longest) {
                ways.push(words::LONG_FOR_EGG_OR_MILK.to_owned());
            }
        }
    }
    let press = change.map(|(amount, times)| {
        let (how, times) = if amount == own_amount {
            (words::BACK_TO_YEAST, OWN_YEAST)
        } else {
            (words::USE_YEAST, times)
        };
        (words::take_yeast(how, &amount), times)
    });
    Some(Told {
        now: said,
        minute: f64::from(clock::minute_of_day(window.likely()) / 5 * 5),
        ways,
        press,
    })
}

fn yeast_of(formula: &Formula, scales: &Scales) -> String {
    words::amount(yeast_mass(formula, scales), scales)
}

/// The yeast of the dough and its preferments, as the list of amounts has it.
pub(crate) fn yeast_mass(formula: &Formula, scales: &Scales) -> Grams {
    let mut all = Grams::MIN;
    for component in formula.components.iter().filter(|part| part.is_dough()) {
        let shown = component.amounts(*scales);
        for (part, mass) in component.ingredients.iter().zip(shown) {
            if part.fresh_yeast() > Grams::MIN {
                all += mass;
            }
        }
    }
    all
}
