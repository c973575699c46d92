//! Dangers, each as one sentence.

use domain::formula::Caution;
use leptos::prelude::*;

use crate::widgets::live::Rows;
use crate::words;

/// A list of dangers; nothing where there is none.
#[component]
pub(crate) fn Cautions(
    /// Which.
    cautions: Vec<Caution>,
) -> impl IntoView {
    (!cautions.is_empty()).then(|| {
        let items = cautions
            .into_iter()
            .map(|caution| view! { <li class="caution">{words::caution(caution)}</li> })
            .rows();
        view! { <ul class="cautions">{items}</ul> }
    })
}

/// What has stood out too long, under a title where it is to be thrown away; nothing where none has.
pub(crate) fn stood_out((is_lost, said): (bool, String)) -> AnyView {
    if said.is_empty() {
        return ().into_any();
    }
    let title = if is_lost { words::LOST } else { "" };
    view! {
        <p class="caution">
            <strong class="stood-title">{title}</strong>
            <span>{said}</span>
        </p>
    }
    .into_any()
}
