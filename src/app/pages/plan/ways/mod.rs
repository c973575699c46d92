//! What to do when a wish can't be kept, or what would make a kept one easier.
//!
//! It takes dozens of plans, each of which holds a phone up for some hundredths of a second. So
//! they are made one at a time with turns of the page between them, only while this is shown, and
//! all over again when something happens.

mod search;

use domain::bake::{BakeId, Intent};
use domain::schedule::plan::Margin;
use leptos::prelude::*;
use search::search;

use crate::reactive::{Memo, RwSignal};
use crate::state::{Oventide, oventide};
use crate::widgets::live::{self, Rows};
use crate::widgets::presses::Presses;
use crate::words::plan::ways as words;

/// Something that can be pressed, with what it asks for.
#[derive(Clone, PartialEq)]
struct Press {
    says: String,
    /// What it is about, where its own words don't say so.
    about: Option<String>,
    asks: Vec<(BakeId, Intent)>,
}

/// What was found so far.
#[derive(Clone, PartialEq, Default)]
struct Found {
    contradiction: Option<String>,
    instead: Vec<Press>,
    ways: Vec<Press>,
    is_done: bool,
}

/// The contradiction in what is wished, and the ways out of it.
#[component]
pub(crate) fn WaysOut() -> impl IntoView {
    let app = oventide();
    let found = RwSignal::new(None::<Found>);
    let asked = RwSignal::new(false);
    let is_amiss = Memo::new(move |_| is_amiss(app));
    // Each search is told by its number, and leaves off when another has begun or nobody looks any more.
    let newest = StoredValue::new(0_u32);
    Effect::new(move || {
        app.plan.read();
        let number = newest.get_value().wrapping_add(1);
        newest.set_value(number);
        if is_amiss.get() || asked.get() {
            found.set(Some(Found::default()));
            search(app, found, newest, number);
        } else {
            found.set(None);
        }
    });
    let presses = Presses::new();
    let ask = move |_| {
        if presses.is_new() {
            asked.set(true);
        }
    };
    let take = Callback::new(move |press: Press| {
        if presses.is_new() {
            take(app, press);
        }
    });
    let says = live::text(move || {
        let found = found.read();
        let Some(found) = &*found else {
            return String::new();
        };
        let nothing = found.contradiction.is_none() && found.ways.is_empty();
        match &found.contradiction {
            Some(contradiction) => contradiction.clone(),
            None if !found.is_done => words::WORKING_IT_OUT.to_owned(),
            None if nothing => words::NOTHING_HELPS.to_owned(),
            None => String::new(),
        }
    });
    let still = live::text(move || {
        let found = found.read();
        let goes_on = |found: &Found| !found.is_done && found.contradiction.is_some();
        let goes_on = found.as_ref().is_some_and(goes_on);
        if goes_on { words::WORKING_IT_OUT } else { "" }
    });
    let list = move |heading: &'static str, of: fn(&Found) -> &Vec<Press>| {
        let shown = Memo::new(move |_| {
            let found = found.read();
            found
                .as_ref()
                .map_or_else(Vec::new, |found| of(found).clone())
        });
        let rows = move || shown.get().into_iter().map(|press| row(press, take)).rows();
        live::when(
            move || !shown.read().is_empty(),
            move || {
                view! {
                    <h2>{heading}</h2>
                    <ul class="lines ways-out">{live::part(rows)}</ul>
                }
                .into_any()
            },
        )
    };
    view! {
        <section class="section" aria-label=words::WAYS_OUT>
            <p role="status">{says}</p>
            {list(words::INSTEAD, |found| &found.instead)}
            {list(words::OR, |found| &found.ways)}
            <p class="soft">{still}</p>
            {live::when(
                move || !is_amiss.get() && !asked.get(),
                move || {
                    view! {
                        <button class="button" type="button" on:click=ask>
                            {words::WHAT_WOULD_HELP}
                        </button>
                    }
                        .into_any()
                },
            )}
        </section>
    }
}

/// Whether the plan isn't as it is wished.
fn is_amiss(app: Oventide) -> bool {
    let plan = app.plan.read();
    let Some(planned) = &*plan else {
        return app.is_baking();
    };
    let timetable = &planned.timetable;
    let mut items = timetable.plan.items.iter();
    let is_late = timetable.margins.iter().any(Margin::is_late);
    is_late || items.any(|item| item.too_late_by.is_some())
}

fn row(press: Press, take: Callback<Press>) -> AnyView {
    let says = press.says.clone();
    match press.about.clone() {
        None => view! {
            <li>
                <button class="button" type="button" on:click=move |_| take.run(press.clone())>
                    {says}
                </button>
            </li>
        }
        .into_any(),
        // What has to be done when its time has come can't be pressed.
        Some(about) if press.asks.is_empty() => view! { <li>{about}</li> }.into_any(),
        Some(about) => {
            let id = crate::widgets::fresh_id("way");
            let of = id.clone();
            view! {
                <li>
                    <p id=id>{about}</p>
                    <button
                        class="button"
                        type="button"
                        aria-describedby=of
                        on:click=move |_| take.run(press.clone())
                    >
                        {says}
                    </button>
                </li>
            }
            .into_any()
        }
    }
}

fn take(app: Oventide, press: Press) {
    for (bake, intent) in press.asks {
        app.ask(&bake, intent);
    }
}
