//! Starting a formula for a table: some times that it can be ready by, and any other.

use domain::formula::{Formula, Step};
use domain::schedule::if_started;
use domain::schedule::plan::tables;
use domain::sorted;
use domain::units::{Minutes, Moment, minutes};
use leptos::prelude::*;
use platform::clock;

use super::day_time::{DayTime, DayTimeFields, passed_alert};
use crate::reactive::{Memo, RwSignal};
use crate::state::plan::nights::{USUAL, works_asleep};
use crate::state::plan::running_states;
use crate::state::{Oventide, oventide};
use crate::widgets::live::{self, Rows};
use crate::widgets::sheet::Sheet;
use crate::words::plan as words;

/// When people eat, in minutes of the day.
const MEALS: [u32; 4] = [8 * 60, 12 * 60 + 30, 16 * 60, 19 * 60];
/// So many times are offered.
const MOST: usize = 5;

/// The sheet on a formula's page.
#[component]
pub(crate) fn TableSheet(
    open: RwSignal<bool>,
    /// What would be baked.
    formula: Memo<Formula>,
    /// Takes the table.
    #[prop(into)]
    on_choose: Callback<Moment>,
) -> impl IntoView {
    view! {
        <Sheet open=open title=words::ON_THE_TABLE_AT>
            {times(formula, open, on_choose)}
        </Sheet>
    }
}

fn times(formula: Memo<Formula>, open: RwSignal<bool>, on_choose: Callback<Moment>) -> AnyView {
    let app = oventide();
    let now = clock::now();
    let (offers, withheld) = untrack(|| offers(app, &formula.read_untracked(), now));
    let choose = move |at: Moment| {
        if at > clock::now() {
            open.set(false);
            on_choose.run(at);
        }
    };
    // Whoever types another hour means the first day on which it can be.
    let other = offers.iter().map(|(at, _)| *at).min().unwrap_or(now);
    let other = RwSignal::new(DayTime::of(other, now));
    let passed = Signal::derive(move || other.get().moment(now) <= now);
    // Once it is known when the baker sleeps, the plan keeps to that.
    let is_known = move || app.settings.read().asleep.is_some();
    let work = untrack(|| work(app, &formula.read_untracked(), now));
    let by_night = {
        let work = work.clone();
        move |at: Moment| !is_known() && needs_night(app, &work, at)
    };
    let any = {
        let (by_night, times): (_, Vec<Moment>) =
            (by_night.clone(), offers.iter().map(|(at, _)| *at).collect());
        move || times.iter().any(|&at| by_night(at)) || by_night(other.get().moment(now))
    };
    // An end that needs the night can be kept as long as nobody sleeps, and after that sometimes.
    let note = move |at: Signal<Moment>| {
        let by_night = by_night.clone();
        let work = work.clone();
        live::part(move || {
            let at = at.get();
            let said = if by_night(at) {
                words::NEEDS_NIGHT.to_owned()
            } else if needs_night(app, &work, at)
                && let Some(ready) = app.late_for(&formula.read_untracked(), at)
            {
                words::not_before(ready, now)
            } else {
                return ().into_any();
            };
            view! { <p class="soft">{said}</p> }.into_any()
        })
    };
    let another = note(Signal::derive(move || other.get().moment(now)));
    let buttons = offers.into_iter().map(|(at, said)| {
        view! {
            <li>
                <button class="button" type="button" on:click=move |_| choose(at)>
                    {said}
                </button>
                {note(Signal::derive(move || at))}
            </li>
        }
    });
    let sleep = move || {
        view! {
            <button class="button" type="button" on:click=move |_| app.sleep(USUAL)>
                {words::plan_sleep(USUAL)}
            </button>
        }
        .into_any()
    };
    view! {
        <p>{words::TABLE_NOTE}</p>
        <ul class="marks">{buttons.rows()}</ul>
        {(!withheld.is_empty()).then(|| view! { <p class="soft">{withheld.join(" ")}</p> })}
        {live::when(any, sleep)}
        <details>
            <summary>{words::ANOTHER_TIME}</summary>
            <div class="section">
                <p class="soft">{words::DAYS_AHEAD}</p>
                <DayTimeFields value=other now=now />
                {passed_alert(passed)}
                {another}
                <button
                    class="button button-main"
                    type="button"
                    on:click=move |_| choose(other.get_untracked().moment(now))
                >
                    {words::START_FOR}
                </button>
            </div>
        </details>
    }
    .into_any()
}

/// How long before its end each hands' work of a bake begins and ends, as its outline has it. Another start only
/// shifts that.
fn work(app: Oventide, formula: &Formula, now: Moment) -> Vec<[Minutes; 2]> {
    let kitchen = app.settings.read_untracked().kitchen;
    let outline = if_started(formula, &kitchen, now);
    let of_hands = outline.iter().flat_map(|outline| {
        let steps = outline.steps.iter();
        let hands = steps.filter(|planned| formula.step(planned.step).is_some_and(Step::is_hands));
        hands.map(|planned| [planned.start, planned.end].map(|at| outline.table.high() - at))
    });
    of_hands.collect()
}

fn needs_night(app: Oventide, work: &[[Minutes; 2]], table: Moment) -> bool {
    let asleep = app.asleep();
    work.iter()
        .any(|&[from, to]| works_asleep(asleep, table - from, table - to))
}

/// The tables that are offered, the likeliest meant first, with what each button says; and why those of other breads that
/// can't be kept aren't.
fn offers(app: Oventide, formula: &Formula, now: Moment) -> (Vec<(Moment, String)>, Vec<String>) {
    let (mut offers, mut withheld) = (Vec::new(), Vec::new());
    // When it is ready even if it is late.
    let soonest = app.table_with(formula).map_or(now, |table| table.high());
    let wished = app.wishes();
    for table in tables(&running_states(&app.bakes.read_untracked())) {
        // What is for that table comes first in the plan of one that is for none; of both for it the plan may keep it.
        let late = (table < soonest).then(|| app.late_for(formula, table));
        let with = wished
            .iter()
            .filter(|wished| wished.wishes.table == Some(table));
        let names: Vec<String> = with.map(|wished| wished.name.clone()).collect();
        let said = words::table_with(table, now, &crate::words::listed(&names));
        match late.flatten() {
            None => offers.push((table, said)),
            Some(ready) => withheld.push(words::with_not_before(&said, ready, now)),
        }
    }
    // Who sleeps until after that is offered what follows the night.
    let asleep = app.settings.read_untracked().asleep.is_some();
    let soonest = asleep
        .then(|| app.late_for(formula, half_hour(soonest)))
        .flatten()
        .unwrap_or(soonest);
    let mut times = vec![half_hour(soonest)];
    let mut meals: Vec<Moment> = MEALS
        .iter()
        .flat_map(|&meal| {
            let first = clock::next_time_of_day(meal, soonest);
            [first, clock::next_time_of_day(meal, first + minutes(1.0))]
        })
        .collect();
    sorted::by_key(&mut meals, |&meal| meal);
    times.append(&mut meals);
    for at in times {
        let known = offers.iter().any(|&(other, _)| other == at);
        if !known && offers.len() < MOST {
            offers.push((at, crate::words::when(at, now)));
        }
    }
    (offers, withheld)
}

/// The next half hour by the clock.
fn half_hour(at: Moment) -> Moment {
    let half = (0..2).map(|half| half * 30);
    let next = half.flat_map(|past| {
        let hour = clock::minute_of_day(at) / 60;
        [hour, (hour + 1) % 24].map(|hour| clock::next_time_of_day(hour * 60 + past, at))
    });
    next.min().unwrap_or(at)
}
