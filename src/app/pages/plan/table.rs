//! Starting a formula for a table: some times that it can be ready by, and any other.

use domain::formula::Formula;
use domain::schedule::plan::tables;
use domain::units::{Moment, minutes};
use leptos::prelude::*;
use platform::clock;

use super::day_time::{DayTime, DayTimeFields, passed_alert};
use crate::reactive::{Memo, RwSignal};
use crate::state::plan::running_states;
use crate::state::{Oventide, oventide};
use crate::widgets::live::Rows;
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
    let offers = untrack(|| offers(app, &formula.read_untracked(), now));
    let choose = move |at: Moment| {
        if at > clock::now() {
            open.set(false);
            on_choose.run(at);
        }
    };
    let other = offers.last().map_or(now, |(at, _)| *at);
    let other = RwSignal::new(DayTime::of(other, now));
    let passed = Signal::derive(move || other.get().moment(now) <= now);
    let buttons = offers.into_iter().map(|(at, said)| {
        view! {
            <li>
                <button class="button" type="button" on:click=move |_| choose(at)>
                    {said}
                </button>
            </li>
        }
    });
    view! {
        <p>{words::TABLE_NOTE}</p>
        <ul class="marks">{buttons.rows()}</ul>
        <details>
            <summary>{words::ANOTHER_TIME}</summary>
            <div class="section">
                <DayTimeFields value=other now=now />
                {passed_alert(passed)}
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

/// The tables that are offered, the likeliest meant first, with what each button says.
fn offers(app: Oventide, formula: &Formula, now: Moment) -> Vec<(Moment, String)> {
    let mut offers = Vec::new();
    // When it is ready even if it is late.
    let soonest = app.table_with(formula).map_or(now, |table| table.high());
    let wished = app.wishes();
    for table in tables(&running_states(&app.bakes.read_untracked())) {
        if table >= soonest {
            let with = wished
                .iter()
                .filter(|wished| wished.wishes.table == Some(table));
            let names: Vec<String> = with.map(|wished| wished.name.clone()).collect();
            offers.push((
                table,
                words::table_with(table, now, &crate::words::listed(&names)),
            ));
        }
    }
    let mut times = vec![half_hour(soonest)];
    let mut meals: Vec<Moment> = MEALS
        .iter()
        .flat_map(|&meal| {
            let first = clock::next_time_of_day(meal, soonest);
            [first, clock::next_time_of_day(meal, first + minutes(1.0))]
        })
        .collect();
    meals.sort();
    times.append(&mut meals);
    for at in times {
        let known = offers.iter().any(|&(other, _)| other == at);
        if !known && offers.len() < MOST {
            offers.push((at, crate::words::when(at, now)));
        }
    }
    offers
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
