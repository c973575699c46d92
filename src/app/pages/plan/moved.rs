//! What moved in the plan lately, and why.

use leptos::prelude::*;
use platform::clock::time_of_day;

use crate::state::oventide;
use crate::widgets::live::{self, Rows};
use crate::words::plan as words;

/// The last changes with their times, newest first.
#[component]
pub(crate) fn WhatMoved() -> impl IntoView {
    let app = oventide();
    let changes = move || {
        let degrees = app.settings.read().degrees;
        let changes = app.changes.read();
        let line = |change: &crate::state::Change| {
            let said = words::what_moved(&change.moved, change.moved.end(), change.at, degrees);
            view! {
                <li>
                    <time class="digits">{time_of_day(change.at)}</time>
                    " "
                    {said}
                </li>
            }
        };
        changes.iter().map(line).rows()
    };
    let nothing = move || {
        let none = app.changes.read().is_empty();
        if app.planned_anew.get() {
            words::PLANNED_ANEW
        } else if none {
            words::NOTHING_MOVED
        } else {
            ""
        }
    };
    view! {
        // On paper it would be history.
        <section class="section no-print" aria-labelledby="what-moved">
            <h2 id="what-moved">{words::WHAT_MOVED}</h2>
            <p>{live::text(nothing)}</p>
            <ol class="lines">{live::part(changes)}</ol>
        </section>
    }
}
