//! How warm the liquid of a dough should be: reckoned and told in one way, wherever it stands.

use domain::formula::{Component, Formula};
use domain::kitchen::Kitchen;
use domain::thermal::liquid::{LiquidAnswer, liquid_temperature};
use domain::units::Celsius;
use leptos::prelude::*;
use platform::store::Degrees;

use super::live::Rows;
use crate::words;

/// The liquid of one dough, in a kitchen.
#[derive(Clone, PartialEq)]
pub(crate) struct Liquid {
    name: String,
    target: Celsius,
    answer: LiquidAnswer,
}

impl Liquid {
    /// `None` where no liquid is tempered, or the dough has no temperature to come to.
    pub(crate) fn of(formula: &Formula, component: &Component, kitchen: &Kitchen) -> Option<Self> {
        let tempered = component.ingredients.iter().find(|part| part.tempered)?;
        let question = formula.liquid_question(component.id, kitchen)?;
        Some(Self {
            name: words::capital(&tempered.name),
            target: question.target,
            answer: liquid_temperature(&question)?,
        })
    }

    /// What it is for, where that isn't plain from what stands around it.
    pub(crate) fn heading(&self, dough: &str, degrees: Degrees) -> AnyView {
        let heading = words::liquid_for(dough, self.target, degrees);
        view! { <h3>{heading}</h3> }.into_any()
    }

    /// What the trade's rule would say, for whoever knows it.
    pub(crate) fn beside(&self, degrees: Degrees) -> Option<AnyView> {
        let rule = words::rule_beside(self.answer.rule_of_factors?, degrees);
        Some(view! { <p class="soft">{rule}</p> }.into_any())
    }

    /// The card, with what stands above and below.
    pub(crate) fn card(
        &self,
        above: Option<AnyView>,
        below: Option<AnyView>,
        degrees: Degrees,
    ) -> AnyView {
        let Self {
            name,
            target,
            answer,
        } = self;
        let advice = answer
            .advice
            .iter()
            .map(|advice| view! { <li>{words::advice(advice, degrees)}</li> })
            .rows();
        view! {
            <div class="card">
                {above} <p class="liquid digits">{words::liquid_sentence(name, answer, degrees)}</p>
                <p>{words::reach_sentence(answer, *target, degrees)}</p>
                <ul class="lines">{advice}</ul> {below}
            </div>
        }
        .into_any()
    }
}
