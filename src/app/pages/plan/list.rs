//! The plan as a list by time; on paper it stands for the drawing as well.

use domain::units::Moment;
use leptos::prelude::*;
use platform::clock;
use platform::rows::{Part, Row};

use crate::reactive::Memo;
use crate::state::plan::told::{AWAY, Entry, Told};
use crate::widgets::live;
use crate::words::plan as words;

/// What holds the rows.
const LIST: &str = "plan-rows";
/// What changes of a row.
const ROW: [Part; 4] = [
    Part::Text(".digits"),
    Part::Text(".row-title"),
    Part::Text(".row-detail"),
    Part::Attr("data-hangs"),
];

/// The list, each item a button.
#[component]
pub(super) fn List(
    told: Memo<Option<Told>>,
    /// Takes the key of the item that was pressed.
    #[prop(into)]
    on_press: Callback<String>,
) -> impl IntoView {
    let rows = Memo::new(move |_| {
        let told = told.read();
        told.as_ref().map_or_else(Vec::new, rows)
    });
    let row = move |(key, parts): &Row| {
        let [start, title, detail, hangs] = &parts[..] else {
            return ().into_any();
        };
        if let Some(day) = key.strip_prefix(DAY) {
            return view! {
                <li class="outline-day" data-key=key.clone()>
                    <h3>{day.to_owned()}</h3>
                </li>
            }
            .into_any();
        }
        let content = view! {
            <span class="digits">{start.clone()}</span>
            <span class="plan-row-text">
                <span class="row-title">{title.clone()}</span>
                <span class="row-detail">{detail.clone()}</span>
            </span>
        };
        if key.starts_with(AWAY) {
            return view! {
                <li class="plan-row plan-row-away" data-key=key.clone()>
                    {content}
                </li>
            }
            .into_any();
        }
        let pressed = key.clone();
        view! {
            <li data-key=key.clone() data-hangs=hangs.clone()>
                <button
                    class="plan-row"
                    type="button"
                    on:click=move |_| on_press.run(pressed.clone())
                >
                    {content}
                </button>
            </li>
        }
        .into_any()
    };
    view! {
        <div class="plan-listed">
            <ol class="plan-list" id=LIST>
                {live::rows_in_place(LIST, &ROW, rows, row)}
            </ol>
        </div>
    }
}

/// Before the name of a day among the keys.
const DAY: &str = "day/";

/// All rows, with the days between them.
fn rows(told: &Told) -> Vec<Row> {
    let mut rows = Vec::with_capacity(told.entries.len());
    let mut day: Moment = told.at;
    for entry in &told.entries {
        // What began yesterday needs no heading of its own.
        if entry.start > day && clock::day(entry.start) != clock::day(day) {
            day = entry.start;
            let key = [DAY, &crate::words::day(day)].concat();
            rows.push((key, vec![String::new(); ROW.len()]));
        }
        let parts = vec![
            clock::time_of_day(entry.start),
            words::item(entry),
            detail(entry, told.at),
            entry.hangs.to_string(),
        ];
        rows.push((entry.key.clone(), parts));
    }
    rows
}

/// "until 11:35; ◆ the table depends on it; waits for Knead".
fn detail(entry: &Entry, now: Moment) -> String {
    let mut said = words::until(entry, now);
    for part in words::marks(entry).into_iter().chain(words::waits(entry)) {
        said += "; ";
        said += &part;
    }
    said
}
