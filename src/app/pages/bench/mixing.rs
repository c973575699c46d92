//! How warm the liquid should be, at the step that mixes.

use domain::formula::StepKind;
use leptos::prelude::*;

use super::Shown;
use crate::reactive::Memo;
use crate::widgets::liquid::Liquid;
use crate::widgets::live;

/// The liquid of the dough that is mixed now.
#[component]
pub(super) fn Mixing(shown: Shown) -> impl IntoView {
    let liquid = Memo::new(move |_| {
        shown
            .with_step(|state, step| {
                if step.kind != StepKind::Mix {
                    return None;
                }
                let component = state.formula.component_of(step)?;
                Liquid::of(&state.formula, component, &state.kitchen)
            })
            .flatten()
    });
    let degrees = move || shown.app.settings.read().degrees;
    live::part(move || match liquid.get() {
        None => ().into_any(),
        Some(liquid) => liquid.card(None, degrees()),
    })
}
