//! The notebook: every bake that is over, newest first.

use domain::bake::{Bake, State, Status};
use domain::notebook::{Row, as_begun};
use domain::units::Minutes;
use leptos::prelude::*;

use crate::route::Route;
use crate::state::{Oventide, oventide};
use crate::widgets::live::{self, Rows};
use crate::words;

/// Every bake that is over.
#[component]
pub(crate) fn NotebookPage() -> impl IntoView {
    let app = oventide();
    let empty = move || {
        let bakes = app.bakes.read();
        !bakes.iter().any(|bake| is_noted(app, bake))
    };
    let cards = move || {
        let bakes = app.bakes.read();
        let over = bakes.iter().rev().filter(|bake| is_noted(app, bake));
        over.enumerate()
            .map(|(place, bake)| card(bake, place < COMPARED))
            .rows()
    };
    view! {
        <header class="page-head">
            <h1 tabindex="-1">{words::way(&Route::Notebook)}</h1>
        </header>
        {live::when(empty, no_notes)}
        <div class="section">{live::part(cards)}</div>
    }
}

/// Of a bake that was called off before a hand was put to it there is nothing to tell, but for what was written about it.
fn is_noted(app: Oventide, bake: &Bake) -> bool {
    let state = bake.state();
    let is_told = state.has_begun() || !matches!(state.status, Status::Abandoned { .. });
    let is_written = || app.notes.read().iter().any(|note| note.bake == bake.id);
    state.is_over() && (is_told || is_written())
}

fn no_notes() -> AnyView {
    view! {
        <p>{words::NO_NOTES}</p>
        <a class="button button-main" href=Route::Formulas.href()>
            {words::CHOOSE_FORMULA}
        </a>
    }
    .into_any()
}

/// How many bakes are held against their plans in the list; reckoning years of them would take a while.
const COMPARED: usize = 20;

fn card(bake: &Bake, compared: bool) -> impl IntoView + use<> {
    let state = bake.state();
    let against = match table_missed_by(state) {
        Some(late) => Some(words::against_table(late)),
        None if compared => late_by(&as_begun(bake)).map(words::against_plan),
        None => None,
    };
    view! {
        <a class="card" href=Route::Note(bake.id.clone()).href()>
            <h2>{state.formula.name.clone()}</h2>
            <p>{words::bake_day(state)}</p>
            <p class="digits">{words::ended(state)}</p>
            <p class="soft">{against}</p>
        </a>
    }
}

/// How much later than the table it was for it was ready, where there was one and the bake got that far.
fn table_missed_by(state: &State) -> Option<Minutes> {
    let (table, ready) = (state.wishes.table?, state.ready_at()?);
    Some(ready.clock_minute() - table.clock_minute())
}

/// How much later than planned at its start the last step ended, where the bake got that far.
fn late_by(rows: &[Row]) -> Option<Minutes> {
    let mut rows = rows.iter();
    let last = rows.clone().max_by_key(|row| row.planned)?;
    let all_ended = rows.all(|row| row.ended.is_some());
    last.late_by().filter(|_| all_ended)
}
