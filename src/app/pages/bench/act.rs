//! The main action, a quarter of the screen, and what stands beside it.

use domain::bake::{Intent, Status, marks_of};
use domain::formula::{Checklist, Scope, StepKind};
use domain::schedule::Ask;
use domain::units::{Minutes, Moment, minutes};
use leptos::prelude::*;
use platform::clock;

use super::Shown;
use crate::reactive::Memo;
use crate::route::Route;
use crate::widgets::live;
use crate::words;

/// A second press sooner than this after the first is the same press.
const SAME_PRESS_MS: i64 = 400;
/// How long "not yet" puts a look off.
const LOOK_AGAIN: Minutes = minutes(10.0);
/// The same in the oven, where ten minutes would burn what three finish.
const LOOK_INTO_OVEN_AGAIN: Minutes = minutes(3.0);

/// The main action and its neighbours.
#[component]
pub(super) fn Act(shown: Shown) -> impl IntoView {
    let asked = shown.asked();
    let prompt = Memo::new(move |_| shown.with(|state| words::prompt(state, asked.get())));
    let paused =
        Memo::new(move |_| shown.with(|state| matches!(state.status, Status::Paused { .. })));
    let last_press = StoredValue::new(Moment::from_epoch_ms(0));
    let fresh = move || {
        let now = clock::now();
        let before = last_press.get_value();
        let again = (now.epoch_ms() - before.epoch_ms()).abs() < SAME_PRESS_MS;
        if !again {
            last_press.set_value(now);
        }
        !again
    };
    let press = move |_| {
        if fresh() {
            press(shown, asked.get_untracked(), paused.get_untracked());
        }
    };
    let due = live::flag(move || matches!(asked.get(), Ask::Look(_) | Ask::Fold(_)));
    let action = live::text(move || {
        if paused.get() {
            return words::RESUME.to_owned();
        }
        let takes_temperature = shown
            .with_step(|_, step| step.kind == StepKind::TakeTemperature)
            .unwrap_or_default();
        if takes_temperature {
            // The number stands on the button, so that nothing is recorded that wasn't read.
            let degrees = shown.app.settings.read().degrees;
            return words::reading(&words::temperature(shown.entered.get(), degrees));
        }
        prompt.read().action.clone()
    });
    let nothing = Signal::derive(move || !paused.get() && prompt.read().action.is_empty());
    // Beside the main action: putting a look off, or leaving work out.
    let other = move || match asked.get() {
        Ask::Look(step) => {
            let bakes = shown.with_step(|_, step| step.kind == StepKind::Bake);
            let (words, by) = if bakes.unwrap_or_default() {
                (words::NOT_YET_IN_OVEN, LOOK_INTO_OVEN_AGAIN)
            } else {
                (words::NOT_YET, LOOK_AGAIN)
            };
            Some((words, Intent::NotYet(step, by)))
        }
        Ask::Work(step) => Some((words::SKIP, Intent::Skip(step))),
        Ask::Fold(step) => Some((words::NOT_YET, Intent::FoldNotYet(step, LOOK_AGAIN))),
        // What is only waited for isn't due yet, so there is nothing to put off.
        Ask::Wait(_) | Ask::Idle | Ask::AllDone => None,
    };
    let press_other = move || {
        if let Some((_, intent)) = untrack(other).filter(|_| fresh()) {
            shown.ask(intent);
        }
    };
    let undo = Callback::new(move |()| {
        if fresh() {
            shown.ask(Intent::Undo);
        }
    });
    view! {
        <div class="act">
            <super::honest::Honest />
            <div class="act-side">
                {side(live::text(|| words::UNDO), undo)}
                {live::when(
                    move || other().is_some(),
                    move || {
                        let text = live::text(move || other().map_or("", |(name, _)| name));
                        side(text, Callback::new(move |()| press_other()))
                    },
                )}
            </div>
            <button class="act-main" data-due=due disabled=nothing on:click=press>
                {action}
            </button>
        </div>
    }
}

/// A button beside the main action.
fn side(text: Signal<String>, press: Callback<()>) -> AnyView {
    view! {
        <button class="button" on:click=move |_| press.run(())>
            {text}
        </button>
    }
    .into_any()
}

fn press(shown: Shown, asked: Ask, paused: bool) {
    if paused {
        return shown.ask(Intent::Resume);
    }
    match asked {
        Ask::Work(step) => {
            let (each_piece, takes_temperature) = shown
                .with_step(|_, step| {
                    let each = matches!(
                        step.checklist,
                        Some(Checklist::Marks {
                            scope: Scope::EachPiece,
                            ..
                        })
                    );
                    (each, step.kind == StepKind::TakeTemperature)
                })
                .unwrap_or_default();
            let left = shown.with(|state| {
                let marked = &state.progress(step).marks;
                marks_of(state, step)
                    .iter()
                    .any(|mark| !marked.contains(mark))
            });
            if each_piece && left {
                shown.ask(Intent::MarkNext(step));
            } else if takes_temperature {
                super::readings::take(shown, step);
            } else {
                shown.ask(Intent::Done(step));
            }
        }
        Ask::Fold(step) => shown.ask(Intent::Folded(step)),
        Ask::Look(step) | Ask::Wait(step) => shown.ask(Intent::Done(step)),
        Ask::AllDone => {
            let bake = shown.view.read_untracked().bake.id.clone();
            shown.ask(Intent::Finish);
            Route::Note(bake).go();
        }
        Ask::Idle => {}
    }
}
