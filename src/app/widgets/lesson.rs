//! What the baker wanted to do differently.

use leptos::prelude::*;

use super::live::{self, Rows};
use crate::reactive::Memo;
use crate::words;

/// What they wrote, each with where it was written; nothing where nothing was.
pub(crate) fn written(lessons: Memo<Vec<(String, String)>>) -> impl IntoView {
    let lines = move || {
        let lessons = lessons.get().into_iter();
        lessons.map(|(at, text)| lesson_line(at, text)).rows()
    };
    let section = move || {
        view! {
            <section class="section" aria-labelledby="next-time">
                <h2 id="next-time">{words::NEXT_TIME}</h2>
                <ul class="lines">{live::part(lines)}</ul>
            </section>
        }
        .into_any()
    };
    live::when(move || !lessons.read().is_empty(), section)
}

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
