//! When nobody is in the kitchen.

use domain::sorted;
use domain::units::{Moment, minutes};
use leptos::prelude::*;
use platform::clock;
use platform::store::Asleep;

use super::day_time::{DayTime, DayTimeFields, TimeField};
use crate::reactive::{Memo, RwSignal};
use crate::state::plan::told::Told;
use crate::state::{Oventide, oventide};
use crate::widgets::live::{self, Rows};
use crate::widgets::sheet::Sheet;
use crate::words::plan as words;

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
        sorted::by_key(known, |&away| away);
    }));
}

/// One time of one day.
#[component]
fn OneTime() -> impl IntoView {
    let app = oventide();
    let now = clock::now();
    // Of this day as long as there is one: an hour later it might be the next, which nobody looks for.
    let from = RwSignal::new(DayTime::of(now.up_to_five(), now));
    let to = RwSignal::new(clock::minute_of_day(now.up_to_five() + minutes(60.0)));
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

/// Every night until the table, and until those of later plans.
#[component]
fn Nights(told: Memo<Option<Told>>) -> impl IntoView {
    let app = oventide();
    let usual = untrack(|| app.asleep());
    let (bed, up) = (RwSignal::new(usual.bed), RwSignal::new(usual.up));
    let add = move |_| {
        let (bed, up) = (bed.get_untracked(), up.get_untracked());
        if bed != up {
            app.sleep(Asleep { bed, up });
        }
    };
    let remembered = move || app.settings.read().asleep;
    let habit = move || {
        let says = live::text(move || remembered().map_or_else(String::new, words::habit));
        view! {
            <p>{says}</p>
            <button class="button" type="button" on:click=move |_| app.remember_asleep(None)>
                {words::NO_HABIT}
            </button>
        }
        .into_any()
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
        {live::when(move || remembered().is_some(), habit)}
    }
}
