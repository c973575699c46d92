//! Taking temperatures: of the dough when it is asked for and any time it
//! rises, and of the middle in the oven, on the rack and in the ice water.

use domain::bake::Intent;
use domain::formula::{ComponentId, Length, StepId, StepKind};
use domain::units::{Celsius, celsius};
use leptos::prelude::*;

use super::Shown;
use crate::reactive::{Memo, RwSignal};
use crate::widgets::live;
use crate::widgets::temperature::TemperatureStepper;
use crate::words;

/// Which thermometer a step asks for.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Probe {
    /// The dough, as what the step is for.
    DoughNow(Celsius),
    /// The dough, for whoever wants to know better.
    DoughAnyTime(ComponentId, Celsius),
    /// The middle of a piece or a filling.
    Core(StepId, Celsius),
}

/// What can be measured at the step that is asked about.
#[component]
pub(super) fn Readings(shown: Shown) -> impl IntoView {
    let probe = Memo::new(move |_| {
        shown
            .with_step(|state, step| {
                let target = state
                    .formula
                    .component_of(step)
                    .and_then(|component| component.target);
                match (&step.length, step.kind) {
                    (_, StepKind::TakeTemperature) => {
                        Some(Probe::DoughNow(target.unwrap_or(state.formula.reference)))
                    }
                    (Length::Ferment { .. }, _) => Some(Probe::DoughAnyTime(
                        step.component,
                        target.unwrap_or(state.formula.reference),
                    )),
                    (Length::Bake { core, .. }, _) => Some(Probe::Core(step.id, *core)),
                    (Length::Cool { to } | Length::Chill { to, .. }, _) => {
                        Some(Probe::Core(step.id, *to))
                    }
                    _ => None,
                }
            })
            .flatten()
    });
    view! {
        {live::part(move || match probe.get() {
            None => ().into_any(),
            Some(Probe::DoughNow(target)) => {
                shown.entered.set(target);
                view! {
                    <Degrees label=words::DOUGH_TEMPERATURE entered=shown.entered />
                }
                    .into_any()
            }
            Some(Probe::DoughAnyTime(component, target)) => {
                let ask = move |value| Intent::DoughIs(component, value);
                view! {
                    <Aside
                        shown=shown
                        label=words::DOUGH_TEMPERATURE
                        start=target
                        ask=Callback::new(ask)
                    />
                }
                    .into_any()
            }
            Some(Probe::Core(step, wanted)) => {
                let ask = move |value| Intent::CoreIs(step, value);
                view! {
                    <Aside
                        shown=shown
                        label=words::CORE_TEMPERATURE
                        start=wanted
                        ask=Callback::new(ask)
                    />
                }
                    .into_any()
            }
        })}
    }
}

/// A temperature to enter.
#[component]
fn Degrees(label: &'static str, entered: RwSignal<Celsius>) -> impl IntoView {
    view! {
        <TemperatureStepper
            label=label
            value=entered
            min=celsius(-20.0)
            max=celsius(130.0)
            on_change=Callback::new(move |value| entered.set(value))
        />
    }
}

/// A reading nobody is asked for, in a drawer.
#[component]
fn Aside(
    shown: Shown,
    label: &'static str,
    start: Celsius,
    ask: Callback<Celsius, Intent>,
) -> impl IntoView {
    let entered = RwSignal::new(start);
    let degrees = move || shown.app.settings.read().degrees;
    let text = live::text(move || words::reading(&words::temperature(entered.get(), degrees())));
    view! {
        <details>
            <summary>{label}</summary>
            <Degrees label=label entered=entered />
            <button
                class="button button-main"
                on:click=move |_| shown.ask(ask.run(entered.get_untracked()))
            >
                {text}
            </button>
        </details>
    }
}

/// Takes the entered dough temperature over and ends the step that asked for it, unless it can't be right.
pub(super) fn take(shown: Shown, step: StepId) {
    let component = shown.with_step(|_, step| step.component);
    if let Some(component) = component {
        let reading = Intent::DoughIs(component, shown.entered.get_untracked());
        shown.ask_in_turn(vec![reading, Intent::Done(step)]);
    }
}
