//! What the baker wanted to do differently.

use leptos::prelude::*;

/// A line of a list: where it was written, and what.
pub(crate) fn lesson_line(at: String, text: String) -> AnyView {
    view! {
        <li>
            <span class="soft">{at}</span>
            " "
            {text}
        </li>
    }
    .into_any()
}
