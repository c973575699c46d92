//! Where the baker is today: what bakes now, or what could.

use domain::bake::{BakeId, State};
use domain::schedule::Ask;
use domain::schedule::plan::table_of;
use domain::sorted;
use domain::units::Moment;
use leptos::prelude::*;

use super::formulas::FormulaCards;
use crate::reactive::Memo;
use crate::route::Route;
use crate::state::{BakeView, Oventide, Planned, oventide, states};
use crate::widgets::cautions::stood_out;
use crate::widgets::lesson::written;
use crate::widgets::live::{self, Rows};
use crate::widgets::phone::PhoneLines;
use crate::words;

/// What bakes now, or what could.
#[component]
pub(crate) fn TodayPage() -> impl IntoView {
    let app = oventide();
    let day = Memo::new(move |_| words::day(app.now.get()));
    let baking = Memo::new(move |_| app.is_baking());
    view! {
        <header class="page-head">
            <h1 tabindex="-1">{words::way(&Route::Today)}</h1>
            <p class="soft">{live::text(move || day.get())}</p>
        </header>
        <Notices />
        {live::part(move || {
            if baking.get() {
                view! { <Running /> }.into_any()
            } else {
                view! { <Inviting /> }.into_any()
            }
        })}
        <NextTime />
        <section class="section" aria-labelledby="this-phone">
            <h2 id="this-phone">{words::THIS_PHONE}</h2>
            <PhoneLines />
        </section>
    }
}

/// A version that waits, and records that can't be read.
#[component]
fn Notices() -> impl IntoView {
    let app = oventide();
    let can_update = move || app.update_ready.get() && app.can_update();
    let set_aside = move || {
        let count = app.set_aside.read().len();
        let line = (count > 0).then(|| {
            view! {
                <p class="caution">
                    <span>
                        {words::set_aside_count(count)} " "
                        <a href=Route::Kitchen.href()>{words::SEE_SET_ASIDE}</a>
                    </span>
                </p>
            }
        });
        line.into_any()
    };
    let update = move || {
        view! {
            <button class="button" type="button" on:click=move |_| app.update_now()>
                {words::UPDATE}
            </button>
        }
        .into_any()
    };
    view! {
        <div class="section" role="status">
            {live::when(can_update, update)}
            {live::part(set_aside)}
        </div>
    }
}

#[component]
fn Inviting() -> impl IntoView {
    view! {
        <section class="section" aria-labelledby="what-to-bake">
            <h2 id="what-to-bake">{words::WHAT_TO_BAKE}</h2>
            <FormulaCards />
        </section>
    }
}

/// The running bakes, the one that needs the baker most first.
#[component]
fn Running() -> impl IntoView {
    let app = oventide();
    let bakes = move || {
        let views = app.views.read();
        let mut views: Vec<&BakeView> = views.iter().collect();
        sorted::by_key(&mut views, |view| view.rank());
        let ids = views.into_iter().map(|view| view.bake.id.0.clone());
        ids.collect()
    };
    let card = |bake| view! { <RunningCard bake=BakeId(bake) /> }.into_any();
    view! { <div class="section">{live::list(bakes, card)}</div> }
}

/// One running bake. It changes in place, so that the focus stays where it is.
#[component]
fn RunningCard(bake: BakeId) -> impl IntoView {
    let app = oventide();
    let bench = Route::Bench(Some(bake.clone())).href();
    let card = Memo::new(move |_| {
        let plan = app.plan.read();
        let views = app.views.read();
        let view = views.iter().find(|view| view.bake.id == bake)?;
        let states = states(&views);
        let mut card = Card::of(view, &states);
        if let Some(plan) = plan.as_ref() {
            door()(&mut card, plan, view, app.beat.get());
        }
        Some(card)
    });
    let with = move |pick: fn(&Card) -> &str| {
        live::text(move || {
            card.read()
                .as_ref()
                .map_or_else(String::new, |card| pick(card).to_owned())
        })
    };
    let label = live::attr(move || {
        card.read()
            .as_ref()
            .map(|card| words::to_bench_of(&card.name))
    });
    let looks = move || {
        let card = card.read();
        let looks = card.iter().flat_map(|card| &card.looks);
        looks.map(|look| view! { <li>{look.clone()}</li> }).rows()
    };
    let stood = move || {
        let stood = card.read().as_ref().map(|card| card.stood.clone());
        stood_out(stood.unwrap_or_default())
    };
    view! {
        <section class="card">
            <h2>{with(|card| &card.name)}</h2>
            <div class="stood">{live::part(stood)}</div>
            <p class="soft">{with(|card| &card.title)}</p>
            <p class="now-asked">{with(|card| &card.instruction)}</p>
            <ul class="lines">{live::part(looks)}</ul>
            <p>{with(|card| &card.table)}</p>
            <a class="button button-main" href=bench aria-label=label>
                {words::TO_BENCH}
            </a>
        </section>
    }
}

/// The words of a running bake's card.
#[derive(Debug, Clone, PartialEq)]
struct Card {
    name: String,
    /// What has stood out too long, and whether it is lost.
    stood: (bool, String),
    title: String,
    instruction: String,
    looks: Vec<String>,
    table: String,
}

impl Card {
    fn of(view: &BakeView, all: &[&State]) -> Self {
        let state = view.bake.state();
        let prompt = words::prompt(state, view.own_ask(), all, view.at);
        let looks = view.running.iter().filter_map(|running| {
            let step = state.formula.step(running.step)?;
            let goes_in = state.goes_in(running.step);
            Some(words::next_look(&step.title, running, goes_in, view.at))
        });
        Self {
            name: words::full_name(state, all),
            stood: view.stood.clone(),
            title: prompt.title,
            instruction: prompt.instruction,
            looks: looks.collect(),
            table: if view.has_lost() {
                String::new()
            } else {
                words::its_table(table_of(state), view.table(), view.at)
            },
        }
    }
}

/// What puts the plan's words on a card, late as the plan itself.
fn door() -> fn(&mut Card, &Planned, &BakeView, Moment) {
    std::hint::black_box(tell_plan)
}

/// Of a bake that waits for its beginning, or whose work is left for later.
fn tell_plan(card: &mut Card, plan: &Planned, view: &BakeView, now: Moment) {
    let (state, by_plan) = (view.bake.state(), &view.by_plan);
    if let Some(instead) = words::instead_of(state, view.own_ask(), view.at) {
        instead.clone_into(&mut card.instruction);
    }
    let left_out = by_plan.left_out;
    if let Some(begins) = plan.begins(view, now) {
        card.title = words::PLANNED.to_owned();
        card.instruction = match left_out {
            Some(left) => words::plan::left_out(state, left, now),
            None => words::begins_at(begins, state.has_begun(), now),
        };
    } else if let (Some(Ask::Work(_)), Some(until)) = (by_plan.rests, by_plan.waits_until) {
        card.instruction = match left_out {
            Some(left) => words::plan::left_out(state, left, view.at),
            None => words::plan::no_hurry(until, by_plan.waits_too_long, view.at),
        };
    } else if let Some(leave) = view.own_ask().step().and_then(|step| view.leave_at(step)) {
        card.instruction += " ";
        card.instruction += &leave;
    }
}

/// What the baker wanted to do differently, newest first.
#[component]
fn NextTime() -> impl IntoView {
    let app = oventide();
    let lessons = Memo::new(move |_| newest_lessons(app));
    written(lessons)
}

/// More would bury what is new.
const MOST_LESSONS: usize = 3;

fn newest_lessons(app: Oventide) -> Vec<(String, String)> {
    let formulas = app.formulas.read();
    let notes = app.notes.read();
    let mut notes: Vec<_> = notes.iter().collect();
    sorted::by_key(&mut notes, |note| std::cmp::Reverse(note.at));
    let lessons = notes.into_iter().flat_map(|note| {
        let formula = formulas.iter().find(|known| known.id == note.formula);
        note.differently.iter().filter_map(move |(step, text)| {
            let formula = formula?;
            let of = words::lesson_of(&formula.name, &formula.step(*step)?.title);
            Some((of, text.clone()))
        })
    });
    lessons.take(MOST_LESSONS).collect()
}
