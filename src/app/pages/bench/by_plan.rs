//! What the plan has to say beside what is asked: where the hands are wanted now, and what has moved.
//!
//! Both come and go by themselves, so they stand above the buttons and grow away from them: nothing that is
//! read or pressed moves by it.

use leptos::prelude::*;

use super::Shown;
use crate::route::Route;
use crate::widgets::live;
use crate::words;

/// The lines of the plan.
#[component]
pub(super) fn ByPlan(shown: Shown) -> impl IntoView {
    let app = shown.app;
    let hands_at = move || {
        let view = shown.view.read();
        let Some((bake, formula, title)) = &view.by_plan.hands_at else {
            return ().into_any();
        };
        let href = Route::Bench(Some(bake.clone())).href();
        let text = words::plan::now_at(formula, title);
        view! {
            <a class="button plan-elsewhere" href=href>
                {text}
            </a>
        }
        .into_any()
    };
    let moved = live::text(move || {
        let changes = app.changes.read();
        let newest = changes.first().filter(|_| app.tells_change.get());
        newest.map_or_else(String::new, |change| {
            words::plan::what_moved(&change.moved, change.at, app.settings.read().degrees)
        })
    });
    view! {
        {live::part(hands_at)}
        <p class="plan-moved" role="status">
            {moved}
        </p>
    }
}
