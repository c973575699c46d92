//! What the plan has to say beside what is asked: where the hands are wanted now, and what has moved.
//!
//! Where the hands are wanted comes and goes by itself, so it stands above the buttons and grows away from them:
//! nothing that is read or pressed moves by it. What has moved by something that was done stands below the answer
//! to that; what moves while time goes by stands on the page of the plan.

use domain::bake::Intent;
use domain::kitchen::Place;
use leptos::prelude::*;

use super::Shown;
use crate::route::Route;
use crate::widgets::live;
use crate::words;

/// The lines of the plan.
#[component]
pub(super) fn ByPlan(shown: Shown) -> impl IntoView {
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
    let moves = move || {
        let view = shown.view.read();
        let state = view.bake.state();
        let Some((step, place, _)) = state.to_be_moved(view.at) else {
            return ().into_any();
        };
        let goes_in = place == Place::Fridge;
        let text = words::plan::moved_by_plan(state.formula.title(step), goes_in);
        view! {
            <button
                class="button plan-elsewhere"
                type="button"
                on:click=move |_| shown.ask(Intent::Move(step, place))
            >
                {text}
            </button>
        }
        .into_any()
    };
    view! {
        {live::part(moves)}
        {live::part(hands_at)}
    }
}

/// What has moved in the plan by what was done last.
#[component]
pub(super) fn Moved(shown: Shown) -> impl IntoView {
    let app = shown.app;
    let moved = live::text(move || {
        let changes = app.changes.read();
        let newest = changes.first().filter(|_| app.tells_change.get());
        let done = newest.filter(|change| !change.moved.why.is_passing());
        done.map_or_else(String::new, |change| {
            words::plan::what_moved(&change.moved, change.at, app.settings.read().degrees)
        })
    });
    view! { <p class="plan-moved">{moved}</p> }
}
