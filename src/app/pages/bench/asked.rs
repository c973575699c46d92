//! The one thing that is asked now: what to do, what to look for, and how.

use domain::bake::{Intent, State};
use domain::formula::{Length, Step, StepKind};
use domain::notebook::lessons;
use domain::schedule::Ask;
use domain::schedule::plan::{NOTABLE, table_of};
use domain::thermal::cooling;
use domain::thermal::oven::altitude::HIGH;
use domain::units::Celsius;
use leptos::prelude::*;

use super::Shown;
use super::bar::Whose;
use super::by_plan::{Moved, NextUp, oven_after, prompt};
use super::checklist::Checklist;
use super::mixing;
use super::readings::Readings;
use super::step_cautions::{BeforeList, MakeAnew, StepCautions, StoodOut};
use super::wait::{LeaveOut, can_be_left_out};
use super::weighing::Weighing;
use crate::reactive::{Memo, effect};
use crate::route::Route;
use crate::state::BakeView;
use crate::widgets::answer::told;
use crate::widgets::live::{self, Rows};
use crate::words;

/// An instruction of more letters is long.
const LONG: usize = 40;
/// So many notes on a step from earlier bakes are shown.
const MOST_LESSONS: usize = 3;

/// The one thing that is asked now.
#[component]
pub(super) fn Asked(shown: Shown) -> impl IntoView {
    let app = shown.app;
    let asked = shown.asked();
    let prompt = prompt(shown);
    let answer = move || {
        let degrees = app.settings.read().degrees;
        told(app.answer.read().as_ref(), degrees)
    };
    let spoils = move || {
        let view = shown.view.read();
        let left = view.by_plan.left_out;
        left.map_or_else(String::new, |left| {
            words::plan::left_out(view.bake.state(), left, view.at)
        })
    };
    // A long one is smaller where the clocks of several breads leave little room for it.
    let long = live::flag(move || prompt.read().instruction.len() > LONG);
    let liquid = mixing::liquid(shown);
    // Who asked for it wants to read it, and the next step begins at the top again.
    effect(move || {
        if app.answer.read().is_some() {
            platform::page::show("[data-scrolls] .answer");
        }
    });
    // Not beside the main action: three buttons there would take its room.
    let leave_fold_out = move || {
        let leave_out = move |_| {
            if let Ask::Fold(step) = asked.get_untracked() {
                shown.ask(Intent::SkipFold(step));
            }
        };
        view! {
            <button class="button" type="button" on:click=leave_out>
                {words::LEAVE_OUT}
            </button>
        }
        .into_any()
    };
    view! {
        // What runs meanwhile and what is pressed stay where they are while this scrolls, by keys as well.
        <section class="asked" tabindex="0" data-scrolls aria-labelledby="asked-instruction">
            <Whose shown=shown />
            <StoodOut shown=shown />
            <p class="asked-title">{live::text(move || prompt.read().title.clone())}</p>
            // What is to be put away is as much to be done as what is asked, and read from as far.
            <p class="asked-spoils">{live::text(spoils)}</p>
            <h1
                class="asked-instruction"
                data-long=long
                id="asked-instruction"
                tabindex="-1"
                aria-live="polite"
            >
                {live::text(move || prompt.read().instruction.clone())}
            </h1>
            <MakeAnew shown=shown />
            // What burns hurts before anybody has read on to the end; that, how warm the milk is to be and what spoils
            // come before any news of the plan.
            <StepCautions shown=shown burns=true />
            <p class="asked-cue">{live::text(move || oven_after(shown))}</p>
            {mixing::sentence(shown, liquid)}
            <BeforeList shown=shown />
            <p class="asked-planned">{live::text(move || planned(shown))}</p>
            <div role="status">
                {live::part(answer)}
                <Moved shown=shown />
            </div>
            {live::when(
                move || shown.is_paused(),
                || view! { <p class="answer">{words::PAUSED}</p> }.into_any(),
            )}
            {live::when(
                move || matches!(asked.get(), Ask::Fold(_)) && !shown.view.read().folds_too_late(),
                leave_fold_out,
            )}
            <Cue shown=shown />
            <NextUp shown=shown />
            <Remedies shown=shown />
            <Lessons shown=shown />
            {mixing::card(shown, liquid)}
            <Weighing shown=shown />
            <Readings shown=shown />
            {live::when(move || gathers(&shown.view.read()), to_gathering_list)}
            <Checklist shown=shown />
            {live::when(
                move || can_be_left_out(shown),
                move || view! { <LeaveOut shown=shown /> }.into_any(),
            )}
            <StepCautions shown=shown burns=false />
            <Drawers shown=shown />
        </section>
    }
}

/// Whether gathering is asked for, or is all that can be done while it rests.
fn gathers(view: &BakeView) -> bool {
    let step = view.own_ask().step();
    let step = step.and_then(|step| view.bake.state().formula.step(step));
    step.is_some_and(|step| step.kind == StepKind::Gather)
}

/// Drawn along with its step, so nothing moves by it.
fn to_gathering_list() -> AnyView {
    view! {
        <a class="button" href=Route::Gather.href()>
            {words::way(&Route::Gather)}
        </a>
    }
    .into_any()
}

/// When a bake is to begin, until then; nothing where something spoils meanwhile or the hands are wanted elsewhere.
fn planned(shown: Shown) -> String {
    let (plan, now) = (shown.app.plan.read(), shown.app.beat.get());
    let view = shown.view.read();
    if view.by_plan.left_out.is_some() || view.by_plan.rests.is_some() {
        return String::new();
    }
    let state = view.bake.state();
    let asked = view.ask.step().and_then(|step| state.formula.step(step));
    let table = table_of(state).filter(|_| asked.is_some_and(|step| step.kind == StepKind::Serve));
    if let Some(table) = table.filter(|&table| table - now >= NOTABLE) {
        return words::served_at(table, now);
    }
    let begins = plan.as_ref().and_then(|plan| plan.begins(&view, now));
    let has_begun = view.bake.state().has_begun();
    begins.map_or_else(String::new, |begins| {
        words::planned_to_begin(begins, has_begun, now)
    })
}

/// What to look for, and what to set.
#[component]
fn Cue(shown: Shown) -> impl IntoView {
    let app = shown.app;
    let cue = Memo::new(move |_| {
        // What is due in the middle of a rise has the signs of its end mislead.
        let ask = shown.view.read().ask;
        let folds = ask.is_due() && !matches!(ask, Ask::Look(_));
        let cue = shown.with_step(|_, step| step.cue.clone());
        cue.filter(|cue| !cue.is_empty() && !folds)
    });
    let facts = Memo::new(move |_| {
        let degrees = app.settings.read().degrees;
        shown
            .with_step(|state, step| match (&step.length, step.kind) {
                (Length::Bake { core, .. }, _) => {
                    let core = state.core_wanted(*core);
                    Some(words::core_wanted(&words::temperature(core, degrees)))
                }
                (Length::OvenHeats { .. }, _) | (_, StepKind::OvenOn) => {
                    let oven = oven_of(state, step)?;
                    Some(words::set_oven(oven, &state.kitchen, degrees))
                }
                (Length::Ferment { .. }, _) if state.kitchen.altitude >= HIGH => {
                    Some(words::DOUBLE_IS_ENOUGH.to_owned())
                }
                (_, StepKind::Divide) => Some(words::piece_target(state)),
                _ => None,
            })
            .flatten()
    });
    view! {
        <p class="asked-cue digits">{live::text(move || facts.get().unwrap_or_default())}</p>
        <p class="asked-cue">
            {live::text(move || cue.get().map(|cue| words::ready_when(&cue)).unwrap_or_default())}
        </p>
    }
}

/// The temperature of the oven that a step is about, or of the formula's first.
fn oven_of(state: &State, step: &Step) -> Option<Celsius> {
    let mut ovens = std::iter::once(step).chain(&state.formula.steps);
    ovens.find_map(|step| match step.length {
        Length::OvenHeats { oven } => Some(oven),
        _ => None,
    })
}

/// What would cool a filling in time, where it doesn't cool so by itself.
#[component]
fn Remedies(shown: Shown) -> impl IntoView {
    let asked = shown.asked();
    let place = Memo::new(move |_| {
        let stands = |state: &State, step: &Step| (state.place_of(step.id), state.held_of(step.id));
        shown.with_step(stands).unwrap_or((None, None))
    });
    view! {
        {live::part(move || {
            // It takes long to reckon, so only another step, place or kitchen asks for it anew.
            drop(asked.read());
            drop(place.read());
            drop(shown.app.settings.read());
            let text = remedies(&shown.view.read_untracked());
            view! { <p class="asked-cue">{text}</p> }.into_any()
        })}
    }
}

fn remedies(view: &BakeView) -> String {
    let state = view.bake.state();
    let step = view.ask.step().and_then(|step| state.formula.step(step));
    let filling = step.and_then(|step| state.chills(step, view.at));
    filling.map_or_else(String::new, |filling| {
        words::remedies(&cooling::remedies(&filling))
    })
}

/// What earlier bakes of this formula say about this step.
#[component]
fn Lessons(shown: Shown) -> impl IntoView {
    let app = shown.app;
    let lessons = Memo::new(move |_| {
        shown
            .with_step(|state, step| {
                let notes = app.notes.read();
                let found = lessons(&notes, &state.formula, step).into_iter();
                found
                    .take(MOST_LESSONS)
                    .map(str::to_owned)
                    .collect::<Vec<_>>()
            })
            .unwrap_or_default()
    });
    let texts = move || {
        let texts = lessons.get().into_iter();
        texts.map(|text| view! { <li>{text}</li> }).rows()
    };
    let card = move || {
        view! {
            <div class="card">
                <h2>{words::LAST_TIMES}</h2>
                <ul class="lines">{live::part(texts)}</ul>
            </div>
        }
        .into_any()
    };
    live::when(move || !lessons.read().is_empty(), card)
}

/// How it is done and why, for whoever wants to know.
#[component]
fn Drawers(shown: Shown) -> impl IntoView {
    let text = move |which: fn(&domain::formula::Step) -> String| {
        Memo::new(move |_| shown.with_step(|_, step| which(step)).unwrap_or_default())
    };
    let detail = text(|step| words::tight(&step.detail));
    let why = text(|step| words::tight(&step.why));
    view! {
        <div class="asked-more">
            {drawer(words::HOW, detail)}
            {drawer(words::WHY, why)}
        </div>
    }
}

fn drawer(summary: &'static str, text: Memo<String>) -> AnyView {
    let draw = move || {
        view! {
            <details>
                <summary>{summary}</summary>
                <p>{live::text(move || text.get())}</p>
            </details>
        }
        .into_any()
    };
    live::when(move || !text.read().is_empty(), draw)
}
