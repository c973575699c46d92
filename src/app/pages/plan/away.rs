//! When nobody is in the kitchen.

use domain::units::{Moment, minutes};
use leptos::prelude::*;
use platform::clock;

use super::day_time::{DayTime, DayTimeFields, TimeField};
use crate::reactive::{Memo, RwSignal};
use crate::state::plan::told::Told;
use crate::state::{Oventide, oventide};
use crate::widgets::live::{self, Rows};
use crate::widgets::sheet::Sheet;
use crate::words::plan as words;

/// When most people sleep, in minutes of the day.
const BED: u32 = 23 * 60;
const UP: u32 = 6 * 60 + 30;

/// The sheet of all such times.
#[component]
pub(super) fn AwaySheet(
    open: RwSignal<bool>,
    away: Memo<Vec<(Moment, Moment)>>,
    told: Memo<Option<Told>>,
) -> impl IntoView {
    view! {
        <Sheet open=open title=words::NOBODY>
            <p>{words::NOBODY_NOTE}</p>
            <Known away=away />
            <OneTime />
            <Nights told=told />
        </Sheet>
    }
}

/// Those that are known, each to be removed.
#[component]
fn Known(away: Memo<Vec<(Moment, Moment)>>) -> impl IntoView {
    let app = oventide();
    let rows = move || {
        let now = app.beat.get_untracked();
        let known = away.get().into_iter();
        known
            .map(|away| {
                let said = words::away(away.0, away.1, now);
                let remove = move |_| {
                    app.wish_away(Box::new(move |times: &mut Vec<_>| {
                        times.retain(|known| *known != away);
                    }));
                    // The row goes, and the focus must not go with it.
                    leptos::task::spawn_local(async {
                        leptos::task::tick().await;
                        let _ = platform::page::focus_on("dialog[open] h2");
                    });
                };
                view! {
                    <li>
                        <button class="button" type="button" on:click=remove>
                            {words::remove(&said)}
                        </button>
                    </li>
                }
            })
            .rows()
    };
    view! { <ul class="lines">{live::part(rows)}</ul> }
}

/// Adds times, whatever is known of them already.
fn add(app: Oventide, mut times: Vec<(Moment, Moment)>) {
    app.wish_away(Box::new(move |known: &mut Vec<_>| {
        times.retain(|time| !known.contains(time));
        known.append(&mut times);
        known.sort();
    }));
}

/// One time of one day.
#[component]
fn OneTime() -> impl IntoView {
    let app = oventide();
    let now = clock::now();
    let from = RwSignal::new(DayTime::of(now + minutes(60.0), now));
    let to = RwSignal::new(clock::minute_of_day(now + minutes(120.0)));
    let passed = RwSignal::new(false);
    let add = move |_| {
        let from = from.get_untracked().moment(now);
        let to = clock::next_time_of_day(to.get_untracked(), from + minutes(1.0));
        let has_passed = to <= clock::now();
        passed.set(has_passed);
        if !has_passed {
            add(app, vec![(from, to)]);
        }
    };
    let error = move || {
        let error = passed.get().then(|| view! { <span>{words::PASSED}</span> });
        error.into_any()
    };
    view! {
        <DayTimeFields value=from now=now label=words::FROM />
        <TimeField
            label=words::TO
            minute=Signal::derive(move || to.get())
            on_change=move |minute: u32| to.set(minute)
        />
        <p class="field-error" role="alert">
            {live::part(error)}
        </p>
        <button class="button" type="button" on:click=add>
            {words::ADD_AWAY}
        </button>
    }
}

/// Every night until the table.
#[component]
fn Nights(told: Memo<Option<Told>>) -> impl IntoView {
    let app = oventide();
    let (bed, up) = (RwSignal::new(BED), RwSignal::new(UP));
    let add = move |_| {
        let now = clock::now();
        let told = told.get_untracked();
        let tables = told.iter().flat_map(|told| &told.margins);
        let table = tables.map(|(_, margin)| margin.table).max();
        let end = told.as_ref().map(|told| told.end.high());
        // A night that is left out makes the end later, perhaps into the next one.
        let until = table.or(end.map(|end| end + minutes(24.0 * 60.0)));
        let (bed, up) = (bed.get_untracked(), up.get_untracked());
        add(app, nights(bed, up, now, until.unwrap_or(now)));
    };
    let says = live::text(move || {
        let told = told.read();
        let tables = told.as_ref().map_or(0, |told| told.margins.len());
        words::add_nights(tables).to_owned()
    });
    view! {
        <h3>{words::ASLEEP}</h3>
        <div class="plan-from-to">
            <TimeField
                label=words::FROM
                minute=Signal::derive(move || bed.get())
                on_change=move |minute: u32| bed.set(minute)
            />
            <TimeField
                label=words::TO
                minute=Signal::derive(move || up.get())
                on_change=move |minute: u32| up.set(minute)
            />
        </div>
        <button class="button" type="button" on:click=add>
            {says}
        </button>
    }
}

/// More would be a mistake.
const MOST_NIGHTS: usize = 14;

fn nights(bed: u32, up: u32, now: Moment, until: Moment) -> Vec<(Moment, Moment)> {
    let mut nights = Vec::new();
    let mut from = clock::next_time_of_day(bed, now);
    // In the night it is this one first.
    let wakes = clock::next_time_of_day(up, now);
    if wakes < from {
        nights.push((now, wakes));
    }
    while from < until && nights.len() < MOST_NIGHTS {
        let to = clock::next_time_of_day(up, from + minutes(1.0));
        nights.push((from, to));
        from = clock::next_time_of_day(bed, to);
    }
    nights
}
