//! What something led to, or would.

use leptos::prelude::*;
use platform::store::Degrees;

use crate::state::Answer;
use crate::words;

/// An answer's sentences, if there is one.
pub(crate) fn told(answer: Option<&Answer>, degrees: Degrees) -> AnyView {
    let told = answer.map(|answer| {
        let text = words::answer(answer, degrees);
        view! { <p class="answer">{text}</p> }
    });
    told.into_any()
}
