//! The sheet of one item: its times, why it starts then, and fixing it to a moment.

use domain::bake::Intent;
use domain::units::{Minutes, Moment, minutes};
use leptos::prelude::*;
use platform::clock;

use super::cold;
use super::day_time::{DayTime, DayTimeFields};
use crate::reactive::{Memo, RwSignal};
use crate::route::Route;
use crate::state::oventide;
use crate::state::plan::told::{Entry, Told, Why};
use crate::widgets::live::{self, Rows};
use crate::widgets::sheet::Sheet;
use crate::words::plan as words;

/// The sheet.
#[component]
pub(super) fn ItemSheet(
    told: Memo<Option<Told>>,
    open: RwSignal<bool>,
    /// Which item.
    key: RwSignal<String>,
) -> impl IntoView {
    // While the sheet closes, what it was about may have gone already.
    let entry = Memo::new(move |last: Option<&Option<Entry>>| {
        let (told, key) = (told.read(), key.read());
        let mut entries = told.iter().flat_map(|told| &told.entries);
        let now = entries.find(|entry| entry.key == *key).cloned();
        now.or_else(|| last.cloned().flatten().filter(|last| last.key == *key))
    });
    let title = live::text(move || entry.read().as_ref().map(words::item).unwrap_or_default());
    view! {
        <Sheet open=open title=title>
            {about(entry, open)}
        </Sheet>
    }
}

fn about(entry: Memo<Option<Entry>>, open: RwSignal<bool>) -> AnyView {
    let app = oventide();
    let Some(first) = entry.get_untracked() else {
        return ().into_any();
    };
    let from_to = live::text(move || {
        let entry = entry.read();
        let from_to = |entry| words::from_to(entry, app.beat.get());
        entry.as_ref().map_or_else(String::new, from_to)
    });
    let marks = move || {
        let marks = entry.read().as_ref().map(words::marks);
        let marks = marks.into_iter().flatten();
        marks.map(|mark| view! { <li>{mark}</li> }).rows()
    };
    // Of what is gathered it is told what stays in the fridge; of a night in there, how long it may last.
    let why = live::text(move || {
        let entry = entry.read();
        let Some(entry) = entry.as_ref() else {
            return String::new();
        };
        let mut said = words::why(entry, app.beat.get());
        let of = entry.of.as_ref();
        let beside = of.and_then(|(bake, step)| {
            let view = app.view(bake)?;
            let night = words::night(view.bake.state(), *step);
            night.or_else(|| view.leave_at(*step))
        });
        if let Some(beside) = beside {
            said.push(' ');
            said += &beside;
        }
        said
    });
    let bench = first.of.as_ref().map(|(bake, _)| {
        let href = Route::Bench(Some(bake.clone())).href();
        view! {
            <a class="button" href=href>
                {crate::words::TO_BENCH}
            </a>
        }
    });
    let fix = if first.can_fix {
        fixing(entry, &first, open)
    } else if first.why == Why::GoesOn || first.cold.is_some() || first.is_cold {
        ().into_any()
    } else {
        view! { <p>{words::FOLLOWS_RISE}</p> }.into_any()
    };
    view! {
        <p class="digits">{from_to}</p>
        <p>{why}</p>
        <ul class="lines">{live::part(marks)}</ul>
        {fix}
        {cold::of(&first, open)}
        {bench}
    }
    .into_any()
}

/// So much ahead something can be fixed at the soonest, by a baker who has yet to read it.
const SOON: Minutes = minutes(10.0);

/// Fixes when it starts, or no longer.
fn fixing(entry: Memo<Option<Entry>>, first: &Entry, open: RwSignal<bool>) -> AnyView {
    let app = oventide();
    let now = clock::now();
    // Where a time has passed, one is offered that hasn't, and at which it can be.
    let start = if first.passed.is_some() || first.start <= now {
        let soon = first.start.max(now + SOON).up_to_five();
        let of = first.of.as_ref();
        of.and_then(|(bake, step)| app.soonest_for(bake, *step, soon))
            .unwrap_or(soon)
    } else {
        first.start
    };
    let chosen = RwSignal::new(DayTime::of(first.pinned.unwrap_or(start), now));
    // A time that has passed on that day is meant on the next one on which it hasn't.
    let at = move || {
        let (at, now) = (chosen.get().moment(now), clock::now());
        if at < now {
            clock::next_time_of_day(chosen.get().minute, now)
        } else {
            at
        }
    };
    let ask = move |at: Option<Moment>| {
        if let Some((bake, step)) = entry.get_untracked().and_then(|entry| entry.of) {
            app.ask(&bake, Intent::Pin(step, at));
        }
        open.set(false);
    };
    // The moment at which it can't be, and the soonest at which it can.
    let refused = RwSignal::new(None::<(Moment, Moment)>);
    let fix = move |to: Moment| {
        let of = entry.get_untracked().and_then(|entry| entry.of);
        match of.and_then(|(bake, step)| app.soonest_for(&bake, step, to)) {
            Some(soonest) => refused.set(Some((to, soonest))),
            None => ask(Some(to)),
        }
    };
    let name = words::item(first);
    let error = move || {
        let error = refused.get().map(|(at, soonest)| {
            view! { <span>{words::cant_be_at(&name, at, soonest, clock::now())}</span> }
        });
        error.into_any()
    };
    let at_soonest = move || {
        let soonest = move || refused.get().map(|(_, soonest)| soonest);
        let says = live::text(move || {
            let fix_at = |soonest| words::fix_at(soonest, clock::now());
            soonest().map_or_else(String::new, fix_at)
        });
        let press = move |_| {
            if let Some(soonest) = untrack(soonest) {
                fix(soonest);
            }
        };
        view! {
            <button class="button" type="button" on:click=press>
                {says}
            </button>
        }
        .into_any()
    };
    let says = live::text(move || words::starts_at(at(), clock::now()));
    let is_fixed = move || {
        entry
            .read()
            .as_ref()
            .is_some_and(|entry| entry.pinned.or(entry.passed).is_some())
    };
    view! {
        <DayTimeFields value=chosen now=now label=words::START_AT />
        <p role="status">{says}</p>
        <p class="field-error" role="alert">
            {live::part(error)}
        </p>
        <div class="sheet-actions">
            <button
                class="button button-main"
                type="button"
                on:click=move |_| fix(untrack(at))
            >
                {words::FIX}
            </button>
            {live::when(move || refused.read().is_some(), at_soonest)}
            {live::when(
                is_fixed,
                move || {
                    view! {
                        <button class="button" type="button" on:click=move |_| ask(None)>
                            {words::FREE}
                        </button>
                    }
                        .into_any()
                },
            )}
        </div>
    }
    .into_any()
}
