//! What goes on meanwhile: a card each, with its own clock and a tide that rises to its window.

use domain::bake::{BakeId, Intent};
use domain::decimal;
use domain::formula::StepId;
use domain::sorted;
use domain::units::Moment;
use leptos::prelude::*;

use super::wait::WaitSheet;
use super::{BakeName, Shown};
use crate::reactive::{Memo, RwSignal};
use crate::route::Route;
use crate::state::states;
use crate::widgets::live;
use crate::words;

/// One card: of a step that goes on by itself, or of a timer the baker set.
#[derive(Debug, Clone, PartialEq)]
struct Card {
    key: String,
    bake: BakeId,
    step: Option<StepId>,
    name: String,
    /// Whose it is, where several bakes run.
    whose: Option<BakeName>,
    start: Moment,
    low: Moment,
    look: Moment,
    high: Moment,
    /// Whether it is never ready where it is: then nothing counts down.
    stalls: bool,
    /// What stands on the card, where room is short.
    window: String,
    /// The same with its likely moment, for whoever listens.
    whole_window: String,
}

/// The strip of cards, of all bakes.
#[component]
pub(super) fn RunningStrip(shown: Shown) -> impl IntoView {
    let cards = Memo::new(move |_| cards(shown));
    let (open, of) = (RwSignal::new(false), RwSignal::new(None));
    let look_into = Callback::new(move |(bake, step)| {
        of.set(Some((bake, step)));
        open.set(true);
    });
    view! {
        <section class="running" aria-label=words::RUNNING>
            {live::list(
                move || cards.read().iter().map(|card| card.key.clone()).collect(),
                move |key| {
                    let card = cards.read_untracked().iter().find(|card| card.key == key).cloned();
                    card.map_or_else(
                        || ().into_any(),
                        |card| {
                            view! {
                                <RunningCard
                                    shown=shown
                                    cards=cards
                                    card=card
                                    look_into=look_into
                                />
                            }
                                .into_any()
                        },
                    )
                },
            )}
        </section>
        <WaitSheet shown=shown open=open of=of />
    }
}

fn cards(shown: Shown) -> Vec<Card> {
    let views = shown.app.views.read();
    let states = states(&views);
    let names = words::distinct_names(&states);
    let mut cards = Vec::new();
    for (view, short) in views.iter().zip(names) {
        let state = view.bake.state();
        let whose = (states.len() > 1).then(|| BakeName {
            short,
            full: words::full_name(state, &states),
        });
        for running in &view.running {
            let step = state.formula.step(running.step);
            // A fold that comes sooner than the end is what the clock counts to.
            let fold = running.next_fold();
            let (folds_next, look) = (fold.is_some(), fold.unwrap_or(running.look));
            let title = step.map(|step| step.title.clone()).unwrap_or_default();
            let (window, whole_window) = if running.stalls {
                let never = words::stalls(running.reason).to_owned();
                (never.clone(), never)
            } else {
                let window = if folds_next {
                    words::at(look)
                } else {
                    words::short_window(&running.window)
                };
                (window, words::window(&running.window))
            };
            cards.push(Card {
                key: format!("{}/{}", view.bake.id.0, running.step.0),
                bake: view.bake.id.clone(),
                step: Some(running.step),
                name: if folds_next {
                    words::fold_in(&title)
                } else {
                    title
                },
                whose: whose.clone(),
                start: running.start,
                low: running.window.low(),
                look,
                high: running.window.high(),
                stalls: running.stalls,
                window,
                whole_window,
            });
        }
        for (id, timer) in &state.timers {
            cards.push(Card {
                key: format!("{}/timer/{}", view.bake.id.0, id.0),
                bake: view.bake.id.clone(),
                step: None,
                name: words::timer_name(&timer.name),
                whose: whose.clone(),
                start: timer.set,
                low: timer.due,
                look: timer.due,
                high: timer.due,
                stalls: false,
                window: words::at(timer.due),
                whole_window: words::at(timer.due),
            });
        }
    }
    sorted::by_key(&mut cards, |card| card.look);
    cards
}

#[component]
fn RunningCard(
    shown: Shown,
    cards: Memo<Vec<Card>>,
    card: Card,
    /// Opens what can be said of a step of a bake.
    look_into: Callback<(BakeId, StepId)>,
) -> impl IntoView {
    let app = shown.app;
    let key = card.key.clone();
    // The card stays while its numbers change; once it has gone it shows its last ones.
    let card = Memo::new(move |last: Option<&Card>| {
        let found = cards.read().iter().find(|now| now.key == key).cloned();
        found
            .or_else(|| last.cloned())
            .unwrap_or_else(|| card.clone())
    });
    let left = move || card.read().look - app.now.get();
    let due = live::flag(move || left().get() <= 0.0);
    let face = move || {
        if card.read().stalls {
            (words::NEVER.to_owned(), "")
        } else {
            words::clock_face(left())
        }
    };
    let digits = live::text(move || face().0);
    let unit = live::text(move || face().1);
    let name = live::text(move || {
        let card = card.read();
        match &card.whose {
            Some(whose) => format!("{}: {}", whose.short, card.name),
            None => card.name.clone(),
        }
    });
    let window = live::text(move || card.read().window.clone());
    // For the eye only once a minute, for the ear only when asked: no live region here.
    let label = live::attr(move || {
        let card = card.read();
        let now = app.beat.get();
        let left = (!card.stalls).then(|| card.look - now);
        let whose = card.whose.as_ref().map(|whose| whose.full.as_str());
        Some(words::running_label(
            &card.name,
            whose,
            left,
            &card.whole_window,
        ))
    });
    let press = move |_| {
        let Card {
            bake, step, look, ..
        } = card.get_untracked();
        let Some(step) = step else {
            return;
        };
        let view = shown.view.read_untracked();
        let here = view.bake.id == bake;
        let is_asked = here && view.ask.step() == Some(step);
        // What is due is turned to. Of anything else, and of what stands there already, something can be said.
        if look > app.now.get_untracked() || is_asked {
            return look_into.run((bake, step));
        }
        app.ask(&bake, Intent::Pick(step));
        if !here {
            Route::Bench(Some(bake)).go();
        }
    };
    view! {
        <button class="runs" data-due=due aria-label=label on:click=press>
            <Tide card=card now=app.beat />
            <span class="runs-name">{name}</span>
            <span class="runs-clock digits">
                {digits} <span class="runs-unit">{unit}</span>
            </span>
            <span class="runs-when">{window}</span>
        </button>
    }
}

/// How far it has got, as water that rises from the bottom; the window is the
/// darker band at the top, from its earliest moment to its latest.
#[component]
fn Tide(card: Memo<Card>, now: RwSignal<Moment>) -> impl IntoView {
    let height = move |moment: Moment| {
        let card = card.read();
        let whole = (card.high - card.start).get().max(1e-6);
        (100.0 * (moment - card.start).get() / whole).clamp(0.0, 100.0)
    };
    let tenths = |height: f64| decimal::fixed(height, 1);
    let band = live::attr(move || Some(tenths(100.0 - height(card.read().low))));
    let water = live::attr(move || {
        let level = 100.0 - height(now.get());
        let (level, crest) = (tenths(level), tenths(level - 3.0));
        let surface = format!("M0 {level} Q25 {crest} 50 {level} T100 {level}");
        Some(format!("{surface} V100 H0 Z"))
    });
    view! {
        <svg class="tide" viewBox="0 0 100 100" preserveAspectRatio="none" aria-hidden="true">
            <rect
                class="tide-window"
                x="0"
                y="0"
                width="100"
                height=band
            ></rect>
            <path class="tide-water" d=water></path>
        </svg>
    }
}
