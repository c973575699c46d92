//! A temperature between two large buttons, in the baker's degrees.

use domain::units::Celsius;
use leptos::prelude::*;
use platform::store::Degrees;

use super::stepper::Stepper;
use crate::state::oventide;
use crate::widgets::live;
use crate::words;

/// A temperature: half a degree Celsius at a press, or a whole one Fahrenheit.
#[component]
pub(crate) fn TemperatureStepper(
    /// What the temperature is of.
    label: &'static str,
    /// The temperature.
    #[prop(into)]
    value: Signal<Celsius>,
    /// Whether nobody has said it yet. Then `value` is what is expected.
    #[prop(optional)]
    empty: Signal<bool>,
    /// The least it can be.
    min: Celsius,
    /// The most it can be.
    max: Celsius,
    /// Takes the new one.
    on_change: Callback<Celsius>,
) -> impl IntoView {
    let app = oventide();
    let degrees = move || app.settings.read().degrees;
    let shown = move |value: Celsius| match degrees() {
        Degrees::Celsius => value.get(),
        Degrees::Fahrenheit => value.to_fahrenheit(),
    };
    let take = move |number: f64| {
        let entered = match app.settings.read_untracked().degrees {
            Degrees::Celsius => Celsius::new(number),
            Degrees::Fahrenheit => Celsius::from_fahrenheit(number),
        };
        // The stepper keeps it between `min` and `max`, which lie in the range of a temperature.
        if let Ok(entered) = entered {
            on_change.run(entered);
        }
    };
    view! {
        <Stepper
            label=label
            value=Signal::derive(move || shown(value.get()))
            text=live::text(move || {
                if empty.get() {
                    String::new()
                } else {
                    words::temperature(value.get(), degrees())
                }
            })
            empty=empty
            step=Signal::derive(move || match degrees() {
                Degrees::Celsius => 0.5,
                Degrees::Fahrenheit => 1.0,
            })
            min=Signal::derive(move || shown(min))
            max=Signal::derive(move || shown(max))
            on_change=Callback::new(take)
        />
    }
}
