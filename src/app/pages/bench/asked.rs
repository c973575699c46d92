//! The one thing that is asked now: what to do, what to look for, and how.

use domain::bake::Intent;
use domain::formula::{Length, StepKind};
use domain::notebook::lessons;
use domain::schedule::Ask;
use domain::thermal::cooling;
use leptos::prelude::*;

use super::Shown;
use super::checklist::Checklist;
use super::mixing::Mixing;
use super::readings::Readings;
use super::wait::LeaveOut;
use super::weighing::Weighing;
use crate::reactive::Memo;
use crate::state::BakeView;
use crate::widgets::cautions::Cautions;
use crate::widgets::live;
use crate::words;

/// The one thing that is asked now.
#[component]
pub(super) fn Asked(shown: Shown) -> impl IntoView {
    let app = shown.app;
    let asked = shown.asked();
    let prompt = Memo::new(move |_| shown.with(|state| words::prompt(state, asked.get())));
    let is_wait = move || matches!(asked.get(), Ask::Wait(_));
    let answer = move || {
        let degrees = app.settings.read().degrees;
        let answer = app.answer.read();
        answer.as_ref().map_or_else(
            || ().into_any(),
            |answer| {
                let text = words::answer(answer, degrees);
                view! { <p class="answer">{text}</p> }.into_any()
            },
        )
    };
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
        <section class="asked" aria-labelledby="asked-instruction">
            <p class="asked-title">{live::text(move || prompt.read().title.clone())}</p>
            <h1
                class="asked-instruction"
                id="asked-instruction"
                tabindex="-1"
                aria-live="polite"
            >
                {live::text(move || prompt.read().instruction.clone())}
            </h1>
            <div role="status">
                {live::part(answer)}
            </div>
            {live::when(
                move || shown.is_paused(),
                || view! { <p class="answer">{words::PAUSED}</p> }.into_any(),
            )}
            {live::when(is_wait, move || view! { <NextUp shown=shown /> }.into_any())}
            {live::when(move || matches!(asked.get(), Ask::Fold(_)), leave_fold_out)}
            // What burns hurts before anybody has read on to the end.
            <StepCautions shown=shown burns=true />
            <Cue shown=shown />
            <Remedies shown=shown />
            <Lessons shown=shown />
            <Mixing shown=shown />
            <Weighing shown=shown />
            <Readings shown=shown />
            <Checklist shown=shown />
            {live::when(
                move || matches!(asked.get(), Ask::Wait(_) | Ask::Look(_)),
                move || view! { <LeaveOut shown=shown /> }.into_any(),
            )}
            <StepCautions shown=shown burns=false />
            <Drawers shown=shown />
        </section>
    }
}

/// What hands do next, and when, while there is nothing to do.
#[component]
fn NextUp(shown: Shown) -> impl IntoView {
    let next = move || {
        let view = shown.view.read();
        let formula = &view.bake.state().formula;
        view.outline
            .steps
            .iter()
            .filter(|planned| planned.start >= view.at)
            .find_map(|planned| {
                let step = formula.step(planned.step)?;
                step.is_hands()
                    .then(|| words::next_up(&step.title, planned.start))
            })
            .unwrap_or_default()
    };
    view! { <p class="asked-cue">{live::text(next)}</p> }
}

/// What to look for, and what to set.
#[component]
fn Cue(shown: Shown) -> impl IntoView {
    let app = shown.app;
    let cue = Memo::new(move |_| {
        // A fold is due in the middle of a rise, where the signs of its end would mislead.
        let folds = matches!(shown.view.read().ask, Ask::Fold(_));
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
                (Length::OvenHeats { oven }, _) => Some(words::set_oven(&words::oven_setting(
                    *oven,
                    state.kitchen.oven,
                    degrees,
                ))),
                (_, StepKind::OvenOn) => oven_of(state).map(|oven| {
                    words::set_oven(&words::oven_setting(oven, state.kitchen.oven, degrees))
                }),
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

fn oven_of(state: &domain::bake::State) -> Option<domain::units::Celsius> {
    let mut ovens = state.formula.steps.iter();
    ovens.find_map(|step| match step.length {
        Length::OvenHeats { oven } => Some(oven),
        _ => None,
    })
}

/// What would cool a filling in time, where it doesn't cool so by itself.
#[component]
fn Remedies(shown: Shown) -> impl IntoView {
    let asked = shown.asked();
    view! {
        {live::part(move || {
            // It takes long to reckon, so only another step or another kitchen asks for it anew.
            drop(asked.read());
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
    filling.map_or_else(String::new, |(mass, depth, cooling, around)| {
        words::remedies(&cooling::remedies(mass, depth, cooling, around))
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
                let found = lessons(&notes, &state.formula.id, step.id);
                found.first().map(|text| (*text).to_owned())
            })
            .flatten()
    });
    view! {
        {live::part(move || match lessons.get() {
            None => ().into_any(),
            Some(text) => {
                view! {
                    <div class="card">
                        <h2>{words::LAST_TIME}</h2>
                        <p>{text}</p>
                    </div>
                }
                    .into_any()
            }
        })}
    }
}

#[component]
fn StepCautions(shown: Shown, burns: bool) -> impl IntoView {
    let cautions = Memo::new(move |_| {
        let cautions = shown.with_step(|_, step| step.cautions.clone());
        let mut cautions = cautions.unwrap_or_default();
        cautions.retain(|caution| caution.burns() == burns);
        cautions
    });
    let allergens = Memo::new(move |_| {
        shown.with(|state| {
            let names: Vec<_> = state.formula.allergens().into_iter().collect();
            names
                .into_iter()
                .map(words::allergen)
                .collect::<Vec<_>>()
                .join(", ")
        })
    });
    let named = move || {
        let cautions = cautions.read();
        cautions.contains(&domain::formula::Caution::Allergens)
    };
    view! {
        {live::part(move || view! { <Cautions cautions=cautions.get() /> }.into_any())}
        {live::when(
            named,
            move || {
                view! { <p class="asked-cue">{words::ALLERGENS} ": " {live::text(move || allergens.get())}</p> }
                    .into_any()
            },
        )}
    }
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
