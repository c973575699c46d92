//! The cautions of what is asked now: where the hand is, and in a line before a long list.

use domain::bake::{Intent, State};
use domain::formula::Caution;
use leptos::prelude::*;

use super::Shown;
use super::earlier;
use super::menu::AbandonSure;
use crate::reactive::{Memo, RwSignal};
use crate::widgets::cautions::{Cautions, stood_out};
use crate::widgets::live::{self, Rows};
use crate::words;

/// What has stood out too long, or soon will have, for as long as that is so and whatever is asked. Right below it a
/// press can be told to have come late, where food counts as lost by that.
#[component]
pub(super) fn StoodOut(shown: Shown) -> impl IntoView {
    let said = Memo::new(move |_| shown.view.read().stood.clone());
    view! {
        <div class="stood" role="status">
            {live::part(move || stood_out(said.get()))}
        </div>
        {earlier::of_lost(shown)}
    }
}

/// Makes anew what is lost, as long as it isn't in the bread: all of its steps are asked for again. Otherwise it leads
/// to the end of the bake, for nobody glazes what is thrown away.
#[component]
pub(super) fn MakeAnew(shown: Shown) -> impl IntoView {
    let anew = Memo::new(move |_| {
        let view = shown.view.read();
        let lost = view.has_lost().then(|| view.bake.state());
        Some(lost?.to_make_anew(view.at, None)?.0)
    });
    // What is in the bread, or all of a bread that is out of the oven, is past mending.
    let over = Memo::new(move |_| {
        let view = shown.view.read();
        view.has_lost() && anew.get().is_none() && !view.bake.state().is_in_oven()
    });
    let sure = RwSignal::new(false);
    let give_up = move || {
        view! {
            <button class="button" type="button" on:click=move |_| sure.set(true)>
                {words::ABANDON}
            </button>
            <AbandonSure shown=shown open=sure />
        }
        .into_any()
    };
    let make_anew = move || {
        let name = live::text(move || {
            let step = anew.get();
            step.map_or_else(String::new, |step| {
                shown.with(|state| words::make_anew(state.formula.title(step)))
            })
        });
        let press = move |_| {
            if let Some(step) = anew.get_untracked() {
                shown.ask(Intent::MakeAnew(step));
            }
        };
        view! {
            <button class="button" type="button" on:click=press>
                {name}
            </button>
        }
        .into_any()
    };
    view! {
        {live::when(move || anew.get().is_some(), make_anew)}
        {live::when(move || over.get(), give_up)}
    }
}

/// Whether a caution is of use: how to keep what spoils isn't, once it is lost.
fn is_of_use(shown: Shown, caution: Caution) -> bool {
    let keeps = matches!(caution, Caution::Perishable | Caution::CoolQuickly);
    !(keeps && shown.view.read().has_lost())
}

/// In a line each what the cautions below a checklist say, for nobody scrolls to those with wet hands; and what of the
/// list stays in the fridge.
#[component]
pub(super) fn BeforeList(shown: Shown) -> impl IntoView {
    let lines = Memo::new(move |_| {
        let lines = shown.with_step(|state, step| {
            let cautions = step.checklist.as_ref().map(|_| step.cautions.clone());
            let short = |caution| {
                if is_of_use(shown, caution) {
                    words::caution_in_short(caution, &state.formula)
                } else {
                    String::new()
                }
            };
            cautions
                .into_iter()
                .flatten()
                .map(short)
                .collect::<Vec<_>>()
        });
        let view = shown.view.read();
        let mut lines = lines.unwrap_or_default();
        if let Some(leave) = view.ask.step().and_then(|step| view.leave_at(step)) {
            lines.push(leave);
        }
        lines
    });
    view! {
        <ul class="cautions-short">
            {live::part(move || {
                let lines = lines.get().into_iter().filter(|line| !line.is_empty());
                lines.map(|line| view! { <li>{line}</li> }).rows()
            })}
        </ul>
    }
}

/// Those that burn, or the others.
#[component]
pub(super) fn StepCautions(shown: Shown, burns: bool) -> impl IntoView {
    let cautions = Memo::new(move |_| {
        let cautions = shown.with_step(|_, step| step.cautions.clone());
        let mut cautions = cautions.unwrap_or_default();
        cautions.retain(|&caution| caution.burns() == burns && is_of_use(shown, caution));
        cautions
    });
    let allergens = move || shown.with(|state| words::allergens(&state.formula));
    let keeps = Memo::new(move |_| {
        let kept = shown.with_step(State::kept_after).flatten();
        kept.filter(|_| !burns && is_of_use(shown, Caution::Perishable))
            .map_or(String::new(), words::keeps)
    });
    let named = move || {
        let cautions = cautions.read();
        cautions.contains(&Caution::Allergens)
    };
    view! {
        {live::part(move || view! { <Cautions cautions=cautions.get() /> }.into_any())}
        {live::when(
            move || !keeps.read().is_empty(),
            move || view! { <p class="asked-cue">{live::text(move || keeps.get())}</p> }.into_any(),
        )}
        {live::when(
            named,
            move || {
                view! { <p class="asked-cue">{live::text(allergens)}</p> }
                    .into_any()
            },
        )}
    }
}
