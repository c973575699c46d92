//! How warm the liquid should be, in the kitchen as it is now.

use domain::formula::Formula;
use domain::kitchen::{COLDEST_AIR, WARMEST_AIR};
use leptos::prelude::*;

use crate::reactive::Memo;
use crate::state::oventide;
use crate::widgets::liquid::Liquid;
use crate::widgets::live::{self, Rows};
use crate::widgets::temperature::TemperatureStepper;
use crate::words;

/// The kitchen's temperature, and what it means for each dough's liquid.
#[component]
pub(super) fn Liquids(formula: Memo<Formula>) -> impl IntoView {
    let app = oventide();
    let kitchen = Memo::new(move |_| app.settings.read().kitchen);
    let degrees = Memo::new(move |_| app.settings.read().degrees);
    let air = move || kitchen.read().air;
    let answers = move || {
        let (kitchen, degrees) = (kitchen.get(), degrees.get());
        let formula = formula.read();
        formula
            .components
            .iter()
            .filter_map(|component| {
                let question = formula.liquid_question(component.id, &kitchen)?;
                let liquid = Liquid::of(component, &question)?;
                Some(liquid.card(Some(&component.name), degrees))
            })
            .rows()
    };
    view! {
        <section class="section" aria-labelledby="liquid">
            <h2 id="liquid">{words::LIQUID}</h2>
            <TemperatureStepper
                label=words::AIR
                value=Signal::derive(air)
                min=COLDEST_AIR
                max=WARMEST_AIR
                on_change=Callback::new(move |air| app.kitchen_is(air))
            />
            <div class="section" role="status">
                {live::part(answers)}
            </div>
        </section>
    }
}
