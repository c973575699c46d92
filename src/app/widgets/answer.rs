//! What something led to, or would.

use leptos::prelude::*;
use platform::store::Degrees;

use crate::state::Answer;
use crate::words;

/// An answer's sentences, if there is one.
pub(crate) fn told(answer: Option<&Answer>, degrees: Degrees) -> AnyView {
    let told = answer.map(|answer| {
        let text = words::answer(answer, degrees);
        // It can have the focus, because over a long instruction only its beginning is in sight until it does.
        view! {
            <p class="answer" tabindex="0">
                <span>{text}</span>
            </p>
        }
    });
    told.into_any()
}
