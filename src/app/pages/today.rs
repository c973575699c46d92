//! Where the baker is today: what bakes now, or what could.

use domain::bake::BakeId;
use leptos::prelude::*;
use platform::clock;

use super::formulas::FormulaCards;
use crate::reactive::Memo;
use crate::route::Route;
use crate::state::{BakeView, Oventide, oventide};
use crate::widgets::phone::PhoneLines;
use crate::words;

/// What bakes now, or what could.
#[component]
pub(crate) fn TodayPage() -> impl IntoView {
    let app = oventide();
    let day = Memo::new(move |_| clock::day(app.now.get()));
    let baking = Memo::new(move |_| app.is_baking());
    view! {
        <header class="page-head">
            <h1 tabindex="-1">{words::way(&Route::Today)}</h1>
            <p class="soft">{move || day.get()}</p>
        </header>
        <Notices />
        <Show when=move || baking.get() fallback=Inviting>
            <Running />
        </Show>
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
    let can_update = move || app.update_ready.get() && !app.is_baking();
    let set_aside = move || {
        let count = app.set_aside.read().len();
        (count > 0).then(|| {
            view! {
                <p class="caution">
                    <span>
                        {words::set_aside_count(count)} " "
                        <a href=Route::Kitchen.href()>{words::SEE_SET_ASIDE}</a>
                    </span>
                </p>
            }
        })
    };
    view! {
        <div class="section" role="status">
            <Show when=can_update>
                <button class="button" type="button" on:click=move |_| app.update_now()>
                    {words::UPDATE}
                </button>
            </Show>
            {set_aside}
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
    let bakes = Memo::new(move |_| {
        let views = app.views.read();
        let mut views: Vec<&BakeView> = views.iter().collect();
        views.sort_by_key(|view| view.rank());
        let ids = views.into_iter().map(|view| view.bake.id.clone());
        ids.collect::<Vec<BakeId>>()
    });
    view! {
        <div class="section">
            <For each=move || bakes.get() key=BakeId::clone let:bake>
                <RunningCard bake=bake />
            </For>
        </div>
    }
}

/// One running bake. It changes in place, so that the focus stays where it is.
#[component]
fn RunningCard(bake: BakeId) -> impl IntoView {
    let app = oventide();
    let bench = Route::Bench(Some(bake.clone())).href();
    let card = Memo::new(move |_| app.view(&bake).as_ref().map(Card::of));
    let with =
        move |pick: fn(&Card) -> &str| card.read().as_ref().map(|card| pick(card).to_owned());
    let name = move || with(|card| &card.name);
    let looks = move || {
        let card = card.read();
        let looks = card.iter().flat_map(|card| &card.looks);
        looks
            .map(|look| view! { <li>{look.clone()}</li> })
            .collect_view()
    };
    view! {
        <section class="card">
            <h2>{name}</h2>
            <p class="soft">{move || with(|card| &card.title)}</p>
            <p class="now-asked">{move || with(|card| &card.instruction)}</p>
            <ul class="lines">{looks}</ul>
            <p>{move || with(|card| &card.table)}</p>
            <a
                class="button button-main"
                href=bench
                aria-label=move || name().map(|name| words::to_bench_of(&name))
            >
                {words::TO_BENCH}
            </a>
        </section>
    }
}

/// The words of a running bake's card.
#[derive(Debug, Clone, PartialEq)]
struct Card {
    name: String,
    title: String,
    instruction: String,
    looks: Vec<String>,
    table: String,
}

impl Card {
    fn of(view: &BakeView) -> Self {
        let state = view.bake.state();
        let prompt = words::prompt(state, view.ask);
        let looks = view.running.iter().filter_map(|running| {
            let step = state.formula.step(running.step)?;
            Some(words::next_look(&step.title, running, view.at))
        });
        Self {
            name: state.formula.name.clone(),
            title: prompt.title,
            instruction: prompt.instruction,
            looks: looks.collect(),
            table: words::table_window(&view.outline.table, view.at),
        }
    }
}

/// What the baker wanted to do differently, newest first.
#[component]
fn NextTime() -> impl IntoView {
    let app = oventide();
    let lessons = Memo::new(move |_| newest_lessons(app));
    let any = move || !lessons.read().is_empty();
    let items = move || {
        let lessons = lessons.get().into_iter();
        lessons
            .map(|(of, text)| {
                view! {
                    <li>
                        <span class="soft">{of}</span>
                        " "
                        {text}
                    </li>
                }
            })
            .collect_view()
    };
    view! {
        <Show when=any>
            <section class="section" aria-labelledby="next-time">
                <h2 id="next-time">{words::NEXT_TIME}</h2>
                <ul class="lines">{items}</ul>
            </section>
        </Show>
    }
}

/// More would bury what is new.
const MOST_LESSONS: usize = 3;

fn newest_lessons(app: Oventide) -> Vec<(String, String)> {
    let formulas = app.formulas.read();
    let notes = app.notes.read();
    let mut notes: Vec<_> = notes.iter().collect();
    notes.sort_by_key(|note| std::cmp::Reverse(note.at));
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
