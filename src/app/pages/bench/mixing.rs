//! How warm the liquid should be, at the step that mixes.

use domain::formula::StepKind;
use domain::thermal::liquid::{LiquidAnswer, liquid_temperature};
use domain::units::Celsius;
use leptos::prelude::*;

use super::Shown;
use crate::reactive::Memo;
use crate::widgets::live::{self, Rows};
use crate::words;

/// The liquid of the dough that is mixed now.
#[component]
pub(super) fn Mixing(shown: Shown) -> impl IntoView {
    let answer = Memo::new(move |_| {
        shown
            .with_step(|state, step| {
                if step.kind != StepKind::Mix {
                    return None;
                }
                let component = state.formula.component_of(step)?;
                let liquid = component.ingredients.iter().find(|part| part.tempered)?;
                let question = state
                    .formula
                    .liquid_question(step.component, &state.kitchen)?;
                let answer = liquid_temperature(&question)?;
                Some((liquid.name.clone(), question.target, answer))
            })
            .flatten()
    });
    view! {
        {live::part(move || match answer.get() {
            None => ().into_any(),
            Some((name, target, answer)) => {
                view! { <Liquid shown=shown name=name target=target answer=answer /> }.into_any()
            }
        })}
    }
}

#[component]
fn Liquid(shown: Shown, name: String, target: Celsius, answer: LiquidAnswer) -> impl IntoView {
    let degrees = shown.app.settings.get_untracked().degrees;
    let advice = answer
        .advice
        .iter()
        .map(|advice| view! { <li>{words::advice(advice, degrees)}</li> })
        .rows();
    view! {
        <div class="card">
            <p class="liquid digits">{words::liquid_sentence(&name, &answer, degrees)}</p>
            <p>{words::reach_sentence(&answer, target, degrees)}</p>
            <ul>{advice}</ul>
        </div>
    }
}
