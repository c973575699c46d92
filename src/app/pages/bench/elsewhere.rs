//! What else can be said of what rises or cools: where it stands, and how far it has come.

use domain::bake::{BakeId, Intent};
use domain::formula::{Held, Length, Step, StepId};
use domain::kitchen::{COLDEST_PLACE, Place, WARMEST_PLACE};
use domain::schedule::bears_way_back;
use domain::units::{Celsius, celsius, minutes, share};
use leptos::prelude::*;

use super::Shown;
use crate::reactive::{Memo, RwSignal};
use crate::state::BakeView;
use crate::widgets::live::{self, Rows};
use crate::widgets::stepper::Stepper;
use crate::widgets::temperature::TemperatureStepper;
use crate::words;

/// A step of a bake, where it is known which.
type Of = RwSignal<Option<(BakeId, StepId)>>;

/// What a button says of a step, with the temperature that was entered.
type Say = fn(StepId, Celsius) -> Intent;

/// Where the first press of a button lands. ASSUMPTION: judgement, what proofers are set to.
const LIKELY_WARM: Celsius = celsius(28.0);
fn look<T>(shown: Shown, of: Of, look: impl FnOnce(&BakeView, &Step) -> T) -> Option<T> {
    let of = of.read();
    let (bake, step) = of.as_ref()?;
    let view = shown.app.view(bake)?;
    let step = view.bake.state().formula.step(*step)?;
    Some(look(&view, step))
}

/// Where it stands, and the places it could be put in.
#[component]
pub(super) fn Elsewhere(
    shown: Shown,
    of: Of,
    /// Asks it of the bake that the step belongs to.
    ask: Callback<Intent>,
) -> impl IntoView {
    let degrees = move || shown.app.settings.read().degrees;
    let stands = Memo::new(move |_| {
        let stands = look(shown, of, |view, step| {
            let state = view.bake.state();
            (state.place_of(step.id), state.held_of(step.id))
        });
        stands.unwrap_or((None, None))
    });
    let chills = move || {
        let chills = |_: &BakeView, step: &Step| matches!(step.length, Length::Chill { .. });
        look(shown, of, chills) == Some(true)
    };
    let placed = move || stands.get().0.is_some();
    let entered = RwSignal::new(None);
    let put = move |to: Say, at: Option<Celsius>| {
        if let (Some((_, step)), Some(at)) = (of.get_untracked(), at) {
            ask.run(to(step, at));
        }
    };
    let button = move |name: Signal<String>, needs_entry: bool, to: Say| {
        // Not disabled, which would drop the focus of whoever presses by keyboard.
        let missing = move || (needs_entry && entered.read().is_none()).then_some("true");
        let at = move || {
            let always = (!needs_entry).then_some(LIKELY_WARM);
            entered.get_untracked().or(always)
        };
        view! {
            <button
                class="button"
                type="button"
                aria-disabled=live::attr(missing)
                on:click=move |_| put(to, at())
            >
                {name}
            </button>
        }
        .into_any()
    };
    let always = move |name: &'static str, to| button(live::text(move || name), false, to);
    let in_dish = move || stands.get().1.is_some_and(Held::is_whole);
    let in_water = move || {
        let name = live::text(move || words::put_in(words::WATER_THERE, entered.get(), degrees()));
        button(name, true, |step, at| Intent::Move(step, Place::Water(at)))
    };
    let warm = move || {
        view! {
            <TemperatureStepper
                label=words::TEMPERATURE_THERE
                value=Signal::derive(move || entered.get().unwrap_or(LIKELY_WARM))
                empty=Signal::derive(move || entered.read().is_none())
                min=COLDEST_PLACE
                max=WARMEST_PLACE
                on_change=Callback::new(move |value| entered.set(Some(value)))
            />
            <p class="soft">{words::WARM_NOTE}</p>
            <div class="sheet-actions">
                {button(
                    live::text(move || words::put_in(words::AIR_THERE, entered.get(), degrees())),
                    true,
                    |step, at| Intent::Move(step, Place::Warm(at)),
                )}
                {live::when(in_dish, in_water)}
            </div>
        }
        .into_any()
    };
    let ice_water = move || {
        always(words::IN_ICE_WATER, |step, _| {
            Intent::Move(step, Place::ICE_WATER)
        })
    };
    let drawer = move || {
        let stands = move || {
            let (place, held) = stands.get();
            words::stands(place, held, degrees())
        };
        let vessels = move || {
            view! {
                <div class="sheet-actions">
                    {always(words::IN_BOWL, |step, _| Intent::Pour(step, Held::Bowl))}
                    {always(words::IN_JAR, |step, _| Intent::Pour(step, Held::Jar))}
                    {button(
                        live::text(words::in_bag),
                        false,
                        |step, _| Intent::Pour(step, Held::Bag),
                    )}
                </div>
            }
            .into_any()
        };
        let places = move || {
            view! {
                <div class="sheet-actions">
                    {live::when(chills, ice_water)}
                    {always(words::IN_FRIDGE, |step, _| Intent::Move(step, Place::Fridge))}
                    {always(words::IN_KITCHEN, |step, _| Intent::Move(step, Place::Kitchen))}
                </div>
            }
            .into_any()
        };
        let warms = move || placed() && !chills();
        view! {
            <details>
                <summary>{live::text(stands)}</summary>
                {live::when(warms, warm)}
                {live::when(placed, places)}
                {live::when(in_dish, vessels)}
            </details>
        }
        .into_any()
    };
    live::when(move || placed() || in_dish(), drawer)
}

/// How far a dough was seen to have risen.
#[component]
pub(super) fn HowFar(
    shown: Shown,
    of: Of,
    /// Asks it of the bake that the step belongs to.
    ask: Callback<Intent>,
) -> impl IntoView {
    let rises = move || {
        let rises = |_: &BakeView, step: &Step| matches!(step.length, Length::Ferment { .. });
        look(shown, of, rises) == Some(true)
    };
    let most = move || {
        let since = look(shown, of, |view, step| {
            let since = view.bake.state().progress(step.id).open_since;
            since.map(|since| (view.at - since).get())
        });
        since.flatten().unwrap_or(0.0).floor()
    };
    let drawer = move || {
        let ago = RwSignal::new(0.0);
        let quarters = (1_u8..).zip(words::RISEN).map(|(quarters, name)| {
            let press = move |_| {
                if let Some((_, step)) = of.get_untracked() {
                    let share = share(f64::from(quarters) / 4.0);
                    ask.run(Intent::RiseIs(step, share, minutes(ago.get_untracked())));
                }
            };
            view! {
                <button class="button" type="button" on:click=press>
                    {name}
                </button>
            }
        });
        view! {
            <details>
                <summary>{words::HOW_FAR}</summary>
                <p class="soft">{words::HOW_FAR_NOTE}</p>
                <Stepper
                    label=live::text(|| words::SEEN_AGO)
                    value=ago
                    text=live::text(move || words::whole_minutes(ago.get()))
                    step=Signal::derive(|| 5.0)
                    min=Signal::derive(|| 0.0)
                    max=Signal::derive(most)
                    on_change=Callback::new(move |value| ago.set(value))
                />
                <div class="sheet-actions">{quarters.rows()}</div>
            </details>
        }
        .into_any()
    };
    live::when(rises, drawer)
}

/// What a dough in the fridge does there.
#[component]
pub(super) fn InFridge(shown: Shown, of: Of) -> impl IntoView {
    let text = move || {
        let degrees = shown.app.settings.read().degrees;
        let said = look(shown, of, |view, step| {
            if let Some(dough) = view.bake.state().retarding(step.id) {
                return Some(words::retarding(&dough, view.at, degrees));
            }
            let mut running = view.running.iter();
            let forecast = running.find(|running| running.step == step.id)?;
            let state = view.bake.state();
            let bears = bears_way_back(state, forecast);
            let is_planned = state.comes_out_as_planned(step.id);
            let out = forecast.out_by?;
            Some(words::in_fridge(forecast, out, bears, is_planned))
        });
        said.flatten().unwrap_or_default()
    };
    view! { <p>{live::text(text)}</p> }
}
