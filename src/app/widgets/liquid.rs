//! How warm the liquid of a dough should be: reckoned and told in one way, wherever it stands.

use domain::formula::Component;
use domain::thermal::liquid::{LiquidAnswer, LiquidQuestion, liquid_temperature};
use domain::units::Celsius;
use leptos::prelude::*;
use platform::store::Degrees;

use super::live::Rows;
use crate::words;

/// The liquid of one dough; where there are several, all of them.
#[derive(Clone, PartialEq)]
pub(crate) struct Liquid {
    names: Vec<String>,
    target: Celsius,
    answer: LiquidAnswer,
}

impl Liquid {
    /// The answer to the question of a component.
    pub(crate) fn of(component: &Component, question: &LiquidQuestion) -> Option<Self> {
        let tempered = component.ingredients.iter().filter(|part| part.tempered);
        Some(Self {
            names: tempered.map(|part| part.name.clone()).collect(),
            target: question.target,
            answer: liquid_temperature(question)?,
        })
    }

    /// How warm each liquid should be.
    pub(crate) fn sentence(&self, degrees: Degrees) -> String {
        words::liquid_sentence(&self.names, &self.answer, degrees)
    }

    /// What follows from it. With the dough's name the card stands for itself: under a heading, with the sentence, and
    /// with what the trade's rule would say.
    pub(crate) fn card(&self, dough: Option<&str>, degrees: Degrees) -> AnyView {
        let Self { target, answer, .. } = self;
        let heading = dough.map(|dough| {
            let heading = words::liquid_for(dough, *target, degrees);
            view! {
                <h3>{heading}</h3>
                <p class="liquid digits">{self.sentence(degrees)}</p>
            }
        });
        let rule = dough
            .and(answer.rule_of_factors)
            .map(|rule| view! { <p class="soft">{words::rule_beside(rule, degrees)}</p> });
        let advice = answer
            .advice
            .iter()
            .map(|advice| view! { <li>{words::advice(advice, degrees)}</li> })
            .rows();
        view! {
            <div class="card">
                {heading} <p>{words::reach_sentence(answer, *target, degrees)}</p>
                <ul class="lines">{advice}</ul> {rule}
            </div>
        }
        .into_any()
    }
}
