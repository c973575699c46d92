//! The plan as a list by time.

use domain::units::Moment;
use leptos::prelude::*;
use platform::clock;

use crate::reactive::Memo;
use crate::state::plan::told::{Entry, Told};
use crate::widgets::live;
use crate::words::plan as words;

/// The list, each item a button.
#[component]
pub(super) fn List(
    told: Memo<Option<Told>>,
    /// Takes the key of the item that was pressed.
    #[prop(into)]
    on_press: Callback<String>,
) -> impl IntoView {
    // Rows stay as long as their items do, so that the focus does.
    let keys = move || {
        let told = told.read();
        told.as_ref().map_or_else(Vec::new, rows)
    };
    let row = move |key: String| {
        if let Some(day) = key.strip_prefix(DAY) {
            return view! { <li class="outline-day">{day.to_owned()}</li> }.into_any();
        }
        let entry = entry_of(told, key.clone());
        let text = move |say: fn(&Entry) -> String| {
            live::text(move || entry.read().as_ref().map(say).unwrap_or_default())
        };
        let content = view! {
            <span class="digits">{text(|entry| clock::time_of_day(entry.start))}</span>
            <span class="plan-row-text">
                <span class="row-title">{text(words::item)}</span>
                <span>{text(detail)}</span>
            </span>
        };
        if entry
            .read_untracked()
            .as_ref()
            .is_none_or(|entry| entry.of.is_none())
        {
            return view! { <li class="plan-row plan-row-away">{content}</li> }.into_any();
        }
        view! {
            <li>
                <button
                    class="plan-row"
                    type="button"
                    data-hangs=live::flag(move || {
                        entry.read().as_ref().is_some_and(|entry| entry.hangs)
                    })
                    on:click=move |_| on_press.run(key.clone())
                >
                    {content}
                </button>
            </li>
        }
        .into_any()
    };
    view! { <ol class="plan-list">{live::list(keys, row)}</ol> }
}

/// The list for whoever can't see the drawing beside it. Its buttons are the drawing's bars.
#[component]
pub(super) fn Spoken(told: Memo<Option<Told>>) -> impl IntoView {
    let keys = move || {
        let told = told.read();
        let entries = told.iter().flat_map(|told| &told.entries);
        entries.map(|entry| entry.key.clone()).collect()
    };
    let row = move |key: String| {
        let entry = entry_of(told, key);
        let said = live::text(move || {
            let entry = entry.read();
            let said = |entry: &Entry| {
                let start = clock::time_of_day(entry.start);
                [&start, " ", &words::item(entry), ": ", &detail(entry)].concat()
            };
            entry.as_ref().map(said).unwrap_or_default()
        });
        view! { <li>{said}</li> }.into_any()
    };
    view! { <ol class="visually-hidden">{live::list(keys, row)}</ol> }
}

/// One item, or what it was last.
fn entry_of(told: Memo<Option<Told>>, key: String) -> Memo<Option<Entry>> {
    Memo::new(move |last: Option<&Option<Entry>>| {
        let told = told.read();
        let mut entries = told.iter().flat_map(|told| &told.entries);
        let now = entries.find(|entry| entry.key == key).cloned();
        now.or_else(|| last.cloned().flatten())
    })
}

/// Before the name of a day among the keys.
const DAY: &str = "day/";

/// The keys of all rows, with the days between them.
fn rows(told: &Told) -> Vec<String> {
    let mut rows = Vec::with_capacity(told.entries.len());
    let mut day: Moment = told.at;
    for entry in &told.entries {
        // What began yesterday needs no heading of its own.
        if entry.start > day && clock::day(entry.start) != clock::day(day) {
            day = entry.start;
            rows.push(format!("{DAY}{}", crate::words::day(day)));
        }
        rows.push(entry.key.clone());
    }
    rows
}

/// "until 11:35; ◆ the table depends on it; waits for Knead".
fn detail(entry: &Entry) -> String {
    let mut said = words::until(entry);
    for part in words::marks(entry).into_iter().chain(words::waits(entry)) {
        said += "; ";
        said += &part;
    }
    said
}
