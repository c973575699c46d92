//! What the baker can say of anything that goes on by itself, due or not: that it is ready now,
//! that it takes longer, or that it is left out.

use domain::bake::{BakeId, Intent};
use domain::formula::{Step, StepId, StepKind};
use domain::units::{Minutes, minutes};
use leptos::prelude::*;

use super::Shown;
use crate::reactive::RwSignal;
use crate::state::BakeView;
use crate::widgets::live;
use crate::widgets::sheet::Sheet;
use crate::words;

/// How long "not yet" puts a look off.
pub(super) const LOOK_AGAIN: Minutes = minutes(10.0);
/// The same in the oven, where ten minutes would burn what three finish.
const LOOK_INTO_OVEN_AGAIN: Minutes = minutes(3.0);

/// How a step is put off.
pub(super) struct Delay {
    /// What it is called once the step is due.
    pub(super) not_yet: &'static str,
    /// What it is called before that.
    pub(super) longer: &'static str,
    pub(super) by: Minutes,
}

impl Delay {
    pub(super) fn of(step: &Step) -> Self {
        if step.kind == StepKind::Bake {
            Self {
                not_yet: words::NOT_YET_IN_OVEN,
                longer: words::LONGER_IN_OVEN,
                by: LOOK_INTO_OVEN_AGAIN,
            }
        } else {
            Self {
                not_yet: words::NOT_YET,
                longer: words::LONGER,
                by: LOOK_AGAIN,
            }
        }
    }
}

/// The sheet behind a card of what goes on meanwhile, of whichever bake.
#[component]
pub(super) fn WaitSheet(
    shown: Shown,
    open: RwSignal<bool>,
    /// What it is about.
    of: RwSignal<Option<(BakeId, StepId)>>,
) -> impl IntoView {
    let app = shown.app;
    // One kind of closure for every text here.
    let text = move |look: fn(&BakeView, &Step) -> String| {
        live::text(move || {
            let of = of.read();
            let found = of.as_ref().and_then(|(bake, step)| {
                let view = app.view(bake)?;
                Some(look(&view, view.bake.state().formula.step(*step)?))
            });
            found.unwrap_or_default()
        })
    };
    let say = move |what: fn(&Step) -> Intent| {
        let Some((bake, step)) = of.get_untracked() else {
            return;
        };
        open.set(false);
        let view = app.view(&bake);
        let step = view.as_ref().and_then(|view| {
            let formula = &view.bake.state().formula;
            formula.step(step)
        });
        if let Some(step) = step {
            app.ask(&bake, what(step));
        }
        // The card goes with its step, and the focus must not go with the card.
        leptos::task::spawn_local(async {
            leptos::task::tick().await;
            platform::page::focus_heading();
        });
    };
    let button = move |name: Signal<String>, class: &'static str, what: fn(&Step) -> Intent| {
        view! {
            <button class=class type="button" on:click=move |_| say(what)>
                {name}
            </button>
        }
        .into_any()
    };
    view! {
        <Sheet open=open title=text(|_, step| step.title.clone())>
            <p class="digits">{text(window)}</p>
            <div class="sheet-actions">
                {button(
                    text(|_, _| words::READY_NOW.to_owned()),
                    "button button-main",
                    |step| Intent::Done(step.id),
                )}
                {button(
                    text(|_, step| Delay::of(step).longer.to_owned()),
                    "button",
                    |step| Intent::NotYet(step.id, Delay::of(step).by),
                )}
            </div>
            <p>{text(|_, step| words::if_left_out(step))}</p>
            <div class="sheet-actions">
                {button(text(|_, _| words::LEAVE_OUT.to_owned()), "button", |step| Intent::Skip(step.id))}
            </div>
        </Sheet>
    }
}

fn window(view: &BakeView, step: &Step) -> String {
    let mut running = view.running.iter();
    let found = running.find(|running| running.step == step.id);
    found.map_or_else(String::new, |found| words::window(&found.window))
}

/// Leaves the wait that is asked about out, behind a word on what follows from it.
#[component]
pub(super) fn LeaveOut(shown: Shown) -> impl IntoView {
    let follows = live::text(move || {
        let text = shown.with_step(|_, step| words::if_left_out(step));
        text.unwrap_or_default()
    });
    let leave_out = move |_| {
        if let Some(step) = shown.view.read_untracked().ask.step() {
            shown.ask(Intent::Skip(step));
        }
    };
    view! {
        <details>
            <summary>{words::LEAVE_OUT}</summary>
            <p>{follows}</p>
            <button class="button" type="button" on:click=leave_out>
                {words::SKIP}
            </button>
        </details>
    }
}
