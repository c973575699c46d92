//! How warm the liquid should be, at the step that mixes.

use domain::formula::StepKind;
use domain::units::Moment;
use leptos::prelude::*;

use super::Shown;
use crate::reactive::Memo;
use crate::widgets::liquid::Liquid;
use crate::widgets::live;

/// A preferment warms while nobody mixes it in, and what is read mustn't change at every beat.
const EVERY_MS: i64 = 5 * 60_000;

/// The liquid of the dough that is mixed now.
pub(super) fn liquid(shown: Shown) -> Memo<Option<Liquid>> {
    Memo::new(move |_| {
        let beats = shown.view.read().at.epoch_ms().div_euclid(EVERY_MS);
        // The end of its five minutes, so that what has just been measured counts.
        let now = Moment::from_epoch_ms((beats + 1) * EVERY_MS);
        shown
            .with_step(|state, step| {
                if step.kind != StepKind::Mix {
                    return None;
                }
                let component = state.formula.component_of(step)?;
                Liquid::of(component, &state.liquid_question(component.id, now)?)
            })
            .flatten()
    })
}

/// How warm it should be: what the instruction means by "at its temperature".
pub(super) fn sentence(shown: Shown, liquid: Memo<Option<Liquid>>) -> AnyView {
    let text = live::text(move || {
        let degrees = shown.app.settings.read().degrees;
        let liquid = liquid.read();
        let sentence = liquid.as_ref().map(|liquid| liquid.sentence(degrees));
        sentence.unwrap_or_default()
    });
    let says = move || view! { <p class="liquid digits">{text}</p> }.into_any();
    live::when(move || liquid.read().is_some(), says)
}

/// What comes of it, and what else helps.
pub(super) fn card(shown: Shown, liquid: Memo<Option<Liquid>>) -> AnyView {
    let degrees = move || shown.app.settings.read().degrees;
    live::part(move || match liquid.get() {
        None => ().into_any(),
        Some(liquid) => liquid.card(None, degrees()),
    })
}
