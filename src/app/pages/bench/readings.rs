//! Taking temperatures: of the dough when it is asked for and any time it
//! rises, and of the middle in the oven, on the rack and in the ice water.

use domain::bake::{BakeId, Intent};
use domain::formula::{ComponentId, Length, StepId, StepKind};
use domain::units::{Celsius, celsius};
use leptos::prelude::*;

use super::Shown;
use crate::reactive::{Memo, RwSignal};
use crate::widgets::live;
use crate::widgets::temperature::TemperatureStepper;
use crate::words;

/// Which thermometer a step asks for, and what it should show.
#[derive(Debug, Clone, PartialEq)]
enum Probe {
    /// The dough, as what the step is for.
    DoughNow(BakeId, StepId, Celsius),
    /// The dough, for whoever wants to know better.
    DoughAnyTime(ComponentId, Celsius),
    /// The middle of a piece or a filling.
    Core(StepId, Celsius),
}

/// What can be measured at the step that is asked about.
#[component]
pub(super) fn Readings(shown: Shown) -> impl IntoView {
    let probe = Memo::new(move |_| {
        let bake = shown.view.read().bake.id.clone();
        shown
            .with_step(|state, step| {
                let dough = state
                    .formula
                    .component_of(step)
                    .and_then(|component| component.target)
                    .unwrap_or(state.formula.reference);
                match (&step.length, step.kind) {
                    (_, StepKind::TakeTemperature) => Some(Probe::DoughNow(bake, step.id, dough)),
                    (Length::Ferment { .. }, _) => Some(Probe::DoughAnyTime(step.component, dough)),
                    (Length::Bake { core, .. }, _) => {
                        Some(Probe::Core(step.id, state.core_wanted(*core)))
                    }
                    (Length::Cool { to } | Length::Chill { to, .. }, _) => {
                        Some(Probe::Core(step.id, *to))
                    }
                    _ => None,
                }
            })
            .flatten()
    });
    let aside = move |label, expected, ask| {
        view! { <Aside shown=shown label=label expected=expected ask=ask /> }.into_any()
    };
    view! {
        {live::part(move || match probe.get() {
            None => ().into_any(),
            Some(Probe::DoughNow(_, _, expected)) => {
                // What was entered was another dough's.
                shown.entered.set(None);
                view! {
                    <Degrees
                        label=words::DOUGH_TEMPERATURE
                        entered=shown.entered
                        expected=expected
                    />
                }
                    .into_any()
            }
            Some(Probe::DoughAnyTime(component, expected)) => {
                let ask = Callback::new(move |value| Intent::DoughIs(component, value));
                aside(words::DOUGH_TEMPERATURE, expected, ask)
            }
            Some(Probe::Core(step, expected)) => {
                let ask = Callback::new(move |value| Intent::CoreIs(step, value));
                aside(words::CORE_TEMPERATURE, expected, ask)
            }
        })}
    }
}

/// A temperature to enter. It shows no number until there is one: what stood there from the start
/// would be recorded by a careless press, and nobody had measured it.
#[component]
fn Degrees(
    label: &'static str,
    entered: RwSignal<Option<Celsius>>,
    expected: Celsius,
) -> impl IntoView {
    view! {
        <TemperatureStepper
            label=label
            value=Signal::derive(move || entered.get().unwrap_or(expected))
            empty=Signal::derive(move || entered.read().is_none())
            min=celsius(-20.0)
            max=celsius(130.0)
            on_change=Callback::new(move |value| entered.set(Some(value)))
        />
    }
}

/// A reading nobody is asked for, in a drawer.
#[component]
fn Aside(
    shown: Shown,
    label: &'static str,
    expected: Celsius,
    ask: Callback<Celsius, Intent>,
) -> impl IntoView {
    let entered = RwSignal::new(None);
    let degrees = move || shown.app.settings.read().degrees;
    let text = live::text(move || words::reading(entered.get(), degrees()));
    // Not disabled, which would drop the focus of whoever presses by keyboard.
    let empty = live::attr(move || entered.read().is_none().then_some("true"));
    let take = move |_| {
        if let Some(reading) = entered.get_untracked() {
            entered.set(None);
            shown.ask(ask.run(reading));
        }
    };
    view! {
        <details>
            <summary>{label}</summary>
            <Degrees label=label entered=entered expected=expected />
            <button class="button button-main" aria-disabled=empty on:click=take>
                {text}
            </button>
        </details>
    }
}

/// Takes the entered dough temperature over and ends the step that asked for it, unless it can't be right.
pub(super) fn take(shown: Shown, step: StepId) {
    let component = shown.with_step(|_, step| step.component);
    if let (Some(component), Some(reading)) = (component, shown.entered.get_untracked()) {
        let reading = Intent::DoughIs(component, reading);
        shown.ask_in_turn(vec![reading, Intent::Done(step)]);
    }
}
