//! The main action, a quarter of the screen, and what stands beside it.

use domain::bake::{Intent, next_mark};
use domain::formula::{Step, StepKind};
use domain::kitchen::Place;
use domain::schedule::Ask;
use leptos::prelude::*;

use super::Shown;
use super::wait::{Delay, LOOK_AGAIN, is_oven_on};
use crate::reactive::Memo;
use crate::route::Route;
use crate::state::Back;
use crate::widgets::live;
use crate::widgets::presses::Presses;
use crate::widgets::undo::Undo;
use crate::words;

/// The main action and its neighbours.
#[component]
pub(super) fn Act(shown: Shown) -> impl IntoView {
    let asked = shown.asked();
    let prompt = super::by_plan::prompt(shown);
    let paused = Memo::new(move |_| shown.is_paused());
    let presses = Presses::new();
    let press = move |_| {
        if presses.is_new() {
            press(shown, asked.get_untracked(), paused.get_untracked());
        }
    };
    let due = live::flag(move || asked.get().is_due());
    let takes_temperature = Memo::new(move |_| {
        let takes = shown.with_step(|_, step| takes_temperature(step));
        takes.unwrap_or_default() && !paused.get()
    });
    let action = live::text(move || {
        if paused.get() {
            return words::RESUME.to_owned();
        }
        if takes_temperature.get() {
            // The number stands on the button, so that nothing is recorded that wasn't read.
            return words::reading(shown.entered.get(), shown.app.settings.read().degrees);
        }
        prompt.read().action.clone()
    });
    let nothing = Signal::derive(move || !paused.get() && prompt.read().action.is_empty());
    // Not disabled, which would drop the focus of whoever presses by keyboard.
    let missing = live::attr(move || {
        let missing = takes_temperature.get() && shown.entered.read().is_none();
        missing.then_some("true")
    });
    // Beside the main action: putting a look off, due or not, or leaving work out.
    let other = move || match asked.get() {
        Ask::Look(step) | Ask::OutOfFridge(step) => {
            let delay = shown.with_step(|_, step| Delay::of(step))?;
            Some((delay.not_yet, Intent::NotYet(step, delay.by)))
        }
        Ask::Wait(step) => {
            let delay = shown.with_step(|_, step| Delay::of(step))?;
            Some((delay.longer, Intent::NotYet(step, delay.by)))
        }
        Ask::Work(step) if shown.with_step(|_, step| is_oven_on(step)) == Some(true) => {
            Some((words::NOT_YET, Intent::NotYet(step, LOOK_AGAIN)))
        }
        Ask::IntoFridge(step) => {
            let not = Intent::PlanRetard(step, None);
            Some((words::plan::NOT_COLD, not))
        }
        Ask::Work(step) => Some((words::SKIP, Intent::Skip(step))),
        // What is better left out is the main action then.
        Ask::Fold(step) if shown.view.read().folds_too_late() => {
            Some((words::FOLDED_NOW, Intent::Folded(step)))
        }
        Ask::Fold(step) => Some((words::NOT_YET, Intent::FoldNotYet(step, LOOK_AGAIN))),
        // What rests can be turned to all the same.
        Ask::Idle => {
            let rests = shown.view.read().by_plan.rests?.step()?;
            Some((words::plan::STAY, Intent::Pick(rests)))
        }
        Ask::AllDone => None,
    };
    let press_other = move || {
        if let Some((_, intent)) = untrack(other).filter(|_| presses.is_new()) {
            shown.ask(intent);
        }
    };
    let undo = Memo::new(move |_| Back::undo(&shown.view.read().bake));
    view! {
        <div class="act">
            <super::honest::Honest />
            <div class="act-side">
                <Undo back=undo presses=presses />
                {live::when(
                    move || other().is_some(),
                    move || {
                        let text = live::text(move || other().map_or("", |(name, _)| name));
                        side(text, Callback::new(move |()| press_other()))
                    },
                )}
            </div>
            <button
                class="act-main"
                data-due=due
                disabled=nothing
                aria-disabled=missing
                on:click=press
            >
                {action}
            </button>
        </div>
    }
}

fn takes_temperature(step: &Step) -> bool {
    step.kind == StepKind::TakeTemperature
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
            let (by_piece, takes_temperature) = shown
                .with_step(|_, step| (step.is_by_piece(), takes_temperature(step)))
                .unwrap_or_default();
            let left = shown.with(|state| next_mark(state, step).is_some());
            if by_piece && left {
                shown.ask(Intent::MarkNext(step));
            } else if takes_temperature {
                super::readings::take(shown, step);
            } else {
                shown.ask(Intent::Done(step));
            }
        }
        Ask::Fold(step) if shown.view.read_untracked().folds_too_late() => {
            shown.ask(Intent::SkipFold(step));
        }
        Ask::Fold(step) => shown.ask(Intent::Folded(step)),
        Ask::IntoFridge(step) => shown.ask(Intent::Move(step, Place::Fridge)),
        Ask::OutOfFridge(step) => shown.ask(Intent::Move(step, Place::Kitchen)),
        Ask::Wait(step) if shown.with_step(words::comes_out) == Some(true) => {
            shown.ask(Intent::Move(step, Place::Kitchen));
        }
        Ask::Look(step) | Ask::Wait(step) => shown.ask(Intent::Done(step)),
        Ask::AllDone => {
            let bake = shown.view.read_untracked().bake.id.clone();
            shown.app.end_bake(&bake, Intent::Finish);
        }
        Ask::Idle => {
            let hands_at = shown.view.read_untracked().by_plan.hands_at.clone();
            if let Some((bake, _)) = hands_at {
                Route::Bench(Some(bake)).go();
            }
        }
    }
}
