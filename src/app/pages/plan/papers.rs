//! What the plan can be taken along as: entries of a calendar, a printed page, a list for the shop.

use leptos::prelude::*;
use leptos::task::spawn_local;
use platform::calendar::{self, Event};
use platform::clock;

use crate::reactive::RwSignal;
use crate::route::Route;
use crate::state::{Oventide, oventide};
use crate::widgets::live;
use crate::widgets::presses::Presses;
use crate::widgets::print::{MadeAt, PrintButton};
use crate::words;
use crate::words::plan::{
    CALENDAR_FILE, CALENDAR_NOTE, PAPER_NOTE, PAPERS, TO_CALENDAR, calendar_events,
    calendar_outcome,
};

/// The calendar, the printer and the gathering list; and on paper, when that was made.
#[component]
pub(crate) fn Papers() -> impl IntoView {
    let app = oventide();
    let told = RwSignal::new(None::<String>);
    let no_print = RwSignal::new(false);
    let presses = Presses::new();
    let to_calendar = move |_| {
        let Some(events) = events(app).filter(|_| presses.is_new()) else {
            return;
        };
        no_print.set(false);
        // Nobody waits for how long the share sheet stays open.
        spawn_local(async move {
            let saved = calendar::hand_over(CALENDAR_FILE, words::NAME, &events).await;
            told.set(Some(calendar_outcome(&saved, events.first())));
        });
    };
    let outcome = move || {
        let told = if no_print.get() {
            Some(words::NO_PRINT.to_owned())
        } else {
            told.get()
        };
        told.map(|told| view! { <p class="answer">{told}</p> })
            .into_any()
    };
    view! {
        <MadeAt />
        <p class="print-only">{PAPER_NOTE}</p>
        <section class="section no-print" aria-labelledby="papers">
            <h2 id="papers">{PAPERS}</h2>
            <div class="row">
                <button
                    class="button"
                    type="button"
                    disabled=Signal::derive(move || app.plan.read().is_none())
                    on:click=to_calendar
                >
                    {TO_CALENDAR}
                </button>
                <PrintButton failed=no_print />
                <a class="button" href=Route::Gather.href()>
                    {words::way(&Route::Gather)}
                </a>
            </div>
            <div role="status">{live::part(outcome)}</div>
            <p class="soft">{CALENDAR_NOTE}</p>
        </section>
    }
}

/// What of the plan is still to come, as entries of a calendar.
fn events(app: Oventide) -> Option<Vec<Event>> {
    let planned = app.plan.get_untracked()?;
    let bakes = app.bakes.get_untracked();
    let states = planned.states(&bakes)?;
    Some(calendar_events(&planned, &states, clock::now()))
}
