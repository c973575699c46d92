//! The plan of everything that runs: when it is ready, what that depends on, and every item in time.

mod amiss;
mod away;
mod cold;
mod day_time;
mod drawing;
mod item;
mod lanes;
mod list;
mod moved;
mod names;
mod papers;
mod pen;
mod picture;
mod scale;
mod table;
mod ways;
mod wishes;

use domain::bake::CALLED;
use domain::sorted;
use domain::units::Moment;
use leptos::prelude::*;
use platform::clock;
use platform::store::Asleep;

use crate::reactive::{Memo, RwSignal};
use crate::route::Route;
use crate::state::oventide;
use crate::state::plan::nights::{is_asleep, works_asleep};
use crate::state::plan::told::{Entry, Lane, Told};
use crate::widgets::choices::Choices;
use crate::widgets::live::{self, Rows};
use crate::words::plan as words;
use item::ItemSheet;
use lanes::Lanes;
use list::List;
use moved::WhatMoved;
use papers::Papers;
pub(crate) use table::TableSheet;
use ways::WaysOut;
use wishes::WishBar;

/// The plan.
#[component]
pub(crate) fn PlanPage() -> impl IntoView {
    let app = oventide();
    // The next moment to which a step is fixed: when it passes, the plan is told otherwise.
    let next_pin = Memo::new(move |_| {
        let now = app.beat.get();
        let bakes = app.bakes.read_untracked();
        let pins = bakes.iter().flat_map(|bake| bake.state().pins.values());
        pins.filter(|&&pin| now - pin < CALLED).min().copied()
    });
    let told = Memo::new(move |_| {
        next_pin.read();
        // A log that grows is followed by a plan that knows of it.
        let bakes = app.bakes.read_untracked();
        let plan = app.plan.read();
        Told::of(plan.as_ref()?, &bakes, app.beat.get_untracked())
    });
    let baking = Memo::new(move |_| app.is_baking());
    let is_planned = Memo::new(move |_| told.read().is_some());
    let as_list = RwSignal::new(false);
    let (open, pressed) = (RwSignal::new(false), RwSignal::new(String::new()));
    let press = Callback::new(move |key| {
        pressed.set(key);
        open.set(true);
    });
    let shown = move || {
        if !is_planned.get() {
            return ().into_any();
        }
        if as_list.get() {
            return view! { <List told=told on_press=press /> }.into_any();
        }
        view! {
            // No drawing can be read on paper. On the screen its bars say all that the list does, so that is not there twice.
            <div class="print-only">
                <List told=told on_press=press />
            </div>
            <Lanes told=told on_press=press />
        }
        .into_any()
    };
    let page = move || {
        view! {
            <Head told=told on_press=press />
            <WishBar told=told />
            <WhatMoved />
            <WaysOut />
            <section class="section" aria-labelledby="hour-by-hour">
                <h2 class="visually-hidden" id="hour-by-hour">
                    {words::HOUR_BY_HOUR}
                </h2>
                <Choices
                    legend=words::SHOWN_AS
                    options=words::SHOWN.map(str::to_owned).to_vec()
                    chosen=Signal::derive(move || Some(usize::from(as_list.get())))
                    on_choose=move |place: usize| as_list.set(place == 1)
                />
                {live::part(shown)}
            </section>
            <Papers />
            <ItemSheet told=told open=open key=pressed />
        }
        .into_any()
    };
    let nothing = || {
        view! {
            <p>{words::NOTHING_TO_PLAN}</p>
            <a class="button button-main" href=Route::Formulas.href()>
                {crate::words::CHOOSE_FORMULA}
            </a>
        }
        .into_any()
    };
    view! {
        <header class="page-head">
            <h1 tabindex="-1">{crate::words::way(&Route::Plan)}</h1>
        </header>
        {live::part(move || if baking.get() { page() } else { nothing() })}
    }
}

/// What the plan comes to, a sentence a line.
#[component]
fn Head(
    told: Memo<Option<Told>>,
    /// Takes the key of an item that is to be fixed anew.
    #[prop(into)]
    on_press: Callback<String>,
) -> impl IntoView {
    let app = oventide();
    let now = app.beat;
    let ready = live::text(move || match &*told.read() {
        Some(told) if told.margins.iter().any(|(whose, _)| whose.is_some()) => {
            words::all_ready(&told.end, now.get())
        }
        Some(told) => words::ready(&told.end, now.get()),
        None => words::NO_PLAN.to_owned(),
    });
    let lines = Memo::new(move |_| {
        let told = told.read();
        told.as_ref()
            .map_or_else(Vec::new, |told| lines(told, now.get()))
    });
    let rows = live::part(move || {
        let lines = lines.get().into_iter();
        lines.map(|line| view! { <li>{line}</li> }).rows()
    });
    let at_night = Memo::new(move |_| {
        let told = told.read();
        hands_at_night(told.as_ref()?, app.asleep(), now.get())
    });
    let night = move || {
        let says = live::text(move || {
            let at_night = at_night.get();
            at_night.map_or_else(String::new, |(from, to)| {
                words::hands_at_night(from, to, now.get())
            })
        });
        let add = move |_| {
            app.sleep(app.asleep());
            platform::page::focus_heading();
        };
        view! {
            <div class="caution">
                <ul class="lines">
                    <li class="plan-passed">
                        <p>{says}</p>
                        <button class="button" type="button" on:click=add>
                            {words::plan_sleep(untrack(|| app.asleep()))}
                        </button>
                    </li>
                </ul>
            </div>
        }
        .into_any()
    };
    view! {
        <section class="section" aria-labelledby="comes-to">
            <h2 class="visually-hidden" id="comes-to">
                {words::COMES_TO}
            </h2>
            <p class="plan-ready-at digits">{ready}</p>
            <ul class="lines">{rows}</ul>
            {live::when(move || at_night.read().is_some(), night)}
            {amiss::cautions(told, on_press)}
        </section>
    }
}

/// From when to when hands are planned in the first night that has any. Who is up already isn't asked about this one.
fn hands_at_night(told: &Told, asleep: Asleep, now: Moment) -> Option<(Moment, Moment)> {
    let sleeps = |at: Moment| is_asleep(asleep, at);
    let this_night = if sleeps(now) {
        clock::next_time_of_day(asleep.up, now)
    } else {
        now
    };
    let mut at_night = told.entries.iter().filter(|entry| {
        entry.of.is_some()
            && entry.lane == Lane::Hands
            && entry.start > this_night
            && works_asleep(asleep, entry.start, entry.end)
    });
    let first = at_night.next()?;
    let wakes = clock::next_time_of_day(asleep.up, first.start);
    let ends = at_night
        .filter(|entry| entry.start < wakes)
        .map(|entry| entry.end);
    Some((first.start, ends.fold(first.end, Moment::max)))
}

fn lines(told: &Told, now: Moment) -> Vec<String> {
    let mut lines = Vec::new();
    let begins = told.begins.iter();
    lines.extend(begins.map(|(name, at)| words::begin(name, *at, now)));
    let margins = told.margins.iter().zip(&told.early);
    lines.extend(margins.map(|((whose, margin), early)| match whose {
        Some(whose) => words::beside_table_of(whose, margin, early, now),
        None => words::beside_table(margin, early, now),
    }));
    let before = told.before_away.iter();
    lines.extend(before.filter_map(|(before, why)| words::before_away(before, why, now)));
    if told.margins.len() > 1 {
        let margins = told.margins.iter();
        lines.extend(margins.filter_map(|(_, margin)| depends_on(told, Some(margin.table), now)));
    } else {
        lines.extend(depends_on(told, None, now));
    }
    // A table that is kept is as good as any, so only of a late or a soonest end does it matter.
    let mut margins = told.margins.iter();
    let waits = !told.margins.is_empty() && margins.all(|(_, margin)| !margin.is_late());
    let all = told.waits_least && told.proven == domain::schedule::plan::Proven::Soonest;
    // Where nothing is left there is no order.
    if !told.entries.is_empty() && (!waits || !all) {
        let tables = told.margins.len();
        lines.push(words::proven(
            told.proven,
            told.waits_least,
            told.given,
            tables,
        ));
    }
    lines
}

/// So many of its links tell enough of a chain.
const MOST_LINKS: usize = 4;

/// What the end hangs on, or one of several tables.
fn depends_on(told: &Told, table: Option<Moment>, now: Moment) -> Option<String> {
    let entries = told.entries.iter();
    let hangs = |entry: &&Entry| table.map_or(entry.hangs, |at| entry.tables.contains(&at));
    let chain: Vec<&Entry> = entries.filter(hangs).collect();
    let length = |entry: &Entry| entry.end.epoch_ms() - entry.start.epoch_ms();
    let mut lengths: Vec<i64> = chain.iter().map(|entry| length(entry)).collect();
    sorted::by_key(&mut lengths, |length| std::cmp::Reverse(*length));
    let least = lengths.get(MOST_LINKS - 1).copied().unwrap_or(0);
    let mut names: Vec<String> = Vec::new();
    for entry in &chain {
        if length(entry) >= least && names.len() < MOST_LINKS {
            names.push(match entry.of {
                Some(_) => words::item(entry),
                None => words::your_being_away(entry.end, now),
            });
        }
    }
    let shorter = chain.len() - names.len();
    let what = match table {
        Some(table) => words::table_depends(table, now),
        None if told.margins.is_empty() => words::END_DEPENDS_ON.to_owned(),
        None => words::TABLE_DEPENDS_ON.to_owned(),
    };
    words::depends_on(&what, &names, shorter)
}
