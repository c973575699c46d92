//! How warm the liquid should be, in the kitchen as it is now.

use domain::formula::{Component, Formula};
use domain::kitchen::Kitchen;
use domain::thermal::liquid::{LiquidAnswer, liquid_temperature};
use domain::units::{Celsius, celsius};
use leptos::prelude::*;
use platform::store::Degrees;

use crate::reactive::Memo;
use crate::state::oventide;
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
            .filter_map(|component| Liquid::of(&formula, component, &kitchen))
            .map(|liquid| liquid.view(degrees))
            .rows()
    };
    view! {
        <section class="section" aria-labelledby="liquid">
            <h2 id="liquid">{words::LIQUID}</h2>
            <TemperatureStepper
                label=words::AIR
                value=Signal::derive(air)
                min=celsius(-10.0)
                max=celsius(50.0)
                on_change=Callback::new(move |air| app.kitchen_is(air))
            />
            <div class="section" role="status">
                {live::part(answers)}
            </div>
        </section>
    }
}

/// The liquid of one dough.
struct Liquid {
    dough: String,
    target: Celsius,
    name: String,
    answer: LiquidAnswer,
}

impl Liquid {
    fn of(formula: &Formula, component: &Component, kitchen: &Kitchen) -> Option<Self> {
        let tempered = component.ingredients.iter().find(|part| part.tempered)?;
        let question = formula.liquid_question(component.id, kitchen)?;
        Some(Self {
            dough: component.name.clone(),
            target: component.target?,
            name: words::capital(&tempered.name),
            answer: liquid_temperature(&question)?,
        })
    }

    fn view(self, degrees: Degrees) -> impl IntoView + use<> {
        let Self {
            dough,
            target,
            name,
            answer,
        } = self;
        let rule = answer
            .rule_of_factors
            .map(|rule| view! { <p class="soft">{words::rule_beside(rule, degrees)}</p> });
        let advice = answer
            .advice
            .iter()
            .map(|advice| view! { <li>{words::advice(advice, degrees)}</li> })
            .rows();
        view! {
            <div class="card">
                <h3>{words::liquid_for(&dough, target, degrees)}</h3>
                <p class="liquid digits">{words::liquid_sentence(&name, &answer, degrees)}</p>
                <p>{words::reach_sentence(&answer, target, degrees)}</p>
                <ul class="lines">{advice}</ul>
                {rule}
            </div>
        }
    }
}
