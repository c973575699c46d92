//! The temperatures that every reckoning begins with.

use domain::kitchen::{COLDEST_AIR, MOST_FRIDGE_HOLDS, WARMEST_AIR};
use domain::units::celsius;
use leptos::prelude::*;
use platform::store::Degrees;

use super::change;
use crate::reactive::Memo;
use crate::state::oventide;
use crate::widgets::choices::Choices;
use crate::widgets::stepper::Stepper;
use crate::widgets::temperature::TemperatureStepper;
use crate::widgets::{answer, live};
use crate::words;

/// The ways to show a temperature, in the order of [`words::DEGREES_WAYS`].
const WAYS: [Degrees; 2] = [Degrees::Celsius, Degrees::Fahrenheit];

/// Air, flour and fridge, and the degrees they are shown in.
#[component]
pub(super) fn Temperatures() -> impl IntoView {
    let app = oventide();
    let kitchen = Memo::new(move |_| app.settings.read().kitchen);
    let degrees = move || {
        let degrees = app.settings.read().degrees;
        WAYS.iter().position(|&known| known == degrees)
    };
    // In the order of `words::FLOUR_WAYS`.
    let flour = Memo::new(move |_| Some(usize::from(kitchen.read().flour.is_some())));
    let choose_flour = move |place: usize| {
        change(app, move |to| {
            to.kitchen.flour = (place == 1).then(|| to.kitchen.flour_temperature());
        });
    };
    let flour_stepper = move || {
        view! {
            <TemperatureStepper
                label=words::FLOUR_TEMPERATURE
                value=Signal::derive(move || kitchen.read().flour_temperature())
                min=celsius(-25.0)
                max=celsius(50.0)
                on_change=Callback::new(move |flour| {
                    change(app, move |to| to.kitchen.flour = Some(flour));
                })
            />
        }
        .into_any()
    };
    // Below what is pressed most, so that nothing moves from under the finger.
    let told = move || answer::told(app.answer.read().as_ref(), app.settings.read().degrees);
    view! {
        <section class="section" aria-labelledby="temperatures">
            <h2 id="temperatures">{words::TEMPERATURES}</h2>
            <TemperatureStepper
                label=words::AIR
                value=Signal::derive(move || kitchen.read().air)
                min=COLDEST_AIR
                max=WARMEST_AIR
                on_change=Callback::new(move |air| app.kitchen_is(air))
            />
            <div role="status">
                {live::part(told)}
            </div>
            <Choices
                legend=words::FLOUR
                options=words::FLOUR_WAYS.map(str::to_owned).to_vec()
                chosen=flour
                on_choose=choose_flour
            />
            {live::when(move || flour.get() == Some(1), flour_stepper)}
            <TemperatureStepper
                label=words::FRIDGE
                value=Signal::derive(move || kitchen.read().fridge)
                min=celsius(-2.0)
                max=celsius(15.0)
                on_change=Callback::new(move |fridge| {
                    change(app, move |to| to.kitchen.fridge = fridge);
                })
            />
            <Stepper
                label=words::FRIDGE_HOLDS
                value=Signal::derive(move || f64::from(kitchen.read().fridge_holds))
                text=live::text(move || kitchen.read().fridge_holds.to_string())
                step=1.0
                min=1.0
                max=f64::from(MOST_FRIDGE_HOLDS)
                on_change=move |entered: f64| {
                    change(app, move |to| to.kitchen.fridge_holds = entered as u32);
                }
            />
            <Choices
                legend=words::DEGREES
                options=words::DEGREES_WAYS.map(str::to_owned).to_vec()
                chosen=Signal::derive(degrees)
                on_choose=move |place: usize| {
                    if let Some(&degrees) = WAYS.get(place) {
                        change(app, move |to| to.degrees = degrees);
                    }
                }
            />
        </section>
    }
}
