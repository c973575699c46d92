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
