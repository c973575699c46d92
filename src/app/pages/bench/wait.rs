//! What the baker can say of anything that goes on by itself, due or not: that it is ready now,
//! that it takes longer, or that it is left out.

use domain::bake::{BakeId, Intent};
use domain::formula::{Step, StepId, StepKind};
use domain::schedule::Ask;
use domain::units::{Minutes, Moment, minutes};
use leptos::prelude::*;

use super::elsewhere::{Elsewhere, HowFar, InFridge};
use super::{Shown, rise};
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
    let found = move |look: fn(&BakeView, StepId) -> bool| {
        move || {
            let of = of.read();
            let view = of
                .as_ref()
                .and_then(|(bake, step)| Some((app.view(bake)?, *step)));
            view.is_some_and(|(view, step)| look(&view, step))
        }
    };
    let ask = Callback::new(move |intent| {
        open.set(false);
        if let Some((bake, _)) = of.get_untracked() {
            app.ask(&bake, intent);
        }
        // The card goes with its step, and the focus must not go with the card.
        leptos::task::spawn_local(async {
            leptos::task::tick().await;
            platform::page::focus_heading();
        });
    });
    let say = move |what: Say| {
        let intent = of.get_untracked().and_then(|(bake, step)| {
            let view = app.view(&bake)?;
            what(&view, view.bake.state().formula.step(step)?)
        });
        if let Some(intent) = intent {
            ask.run(intent);
        }
    };
    let button = move |name: Signal<String>, class: &'static str, what: Say| {
        view! {
            <button class=class type="button" on:click=move |_| say(what)>
                {name}
            </button>
        }
        .into_any()
    };
    let named =
        move |name: &'static str, what: Say| button(live::text(move || name), "button", what);
    let whole = move || {
        view! {
            <div class="sheet-actions">
                {button(
                    live::text(|| words::READY_NOW),
                    "button button-main",
                    |_, step| Some(Intent::Done(step.id)),
                )}
                {button(
                    text(|_, step| Delay::of(step).longer.to_owned()),
                    "button",
                    |_, step| Some(Intent::NotYet(step.id, Delay::of(step).by)),
                )}
            </div>
            <p>{text(|_, step| words::if_left_out(step))}</p>
            <div class="sheet-actions">
                {named(words::LEAVE_OUT, |_, step| Some(Intent::Skip(step.id)))}
            </div>
        }
        .into_any()
    };
    // What the card counts to, so that it isn't the rise which ends by mistake.
    let fold = move || {
        view! {
            <div class="sheet-actions">
                {button(
                    live::text(|| words::FOLDED_NOW),
                    "button button-main",
                    |_, step| Some(Intent::Folded(step.id)),
                )}
                {named(words::LONGER, |_, step| Some(Intent::FoldNotYet(step.id, LOOK_AGAIN)))}
                {named(words::LEAVE_FOLD_OUT, |_, step| Some(Intent::SkipFold(step.id)))}
            </div>
            <details>
                <summary>{words::WHOLE_RISE}</summary>
                {whole()}
            </details>
        }
        .into_any()
    };
    let folds = found(|view, step| next_fold(view, step).is_some());
    let ends = found(|view, step| next_fold(view, step).is_none());
    let waits_for_oven = found(|view, step| oven_ahead_of(view, step).is_some());
    let oven = move || {
        let on = |view: &BakeView, step: &Step| Some(Intent::Done(oven_ahead_of(view, step.id)?));
        view! { <div class="sheet-actions">{named(words::OVEN_IS_ON, on)}</div> }.into_any()
    };
    view! {
        <Sheet open=open title=text(|_, step| step.title.clone())>
            <p class="digits">{text(window)}</p>
            {rise::of(app, of)}
            <InFridge shown=shown of=of />
            {live::when(folds, fold)}
            {live::when(waits_for_oven, oven)}
            {live::when(ends, whole)}
            <Elsewhere shown=shown of=of ask=ask />
            <HowFar shown=shown of=of ask=ask />
        </Sheet>
    }
}

/// What a button of the sheet asks for.
type Say = fn(&BakeView, &Step) -> Option<Intent>;

/// The fold that the card of a step counts to.
fn next_fold(view: &BakeView, step: StepId) -> Option<Moment> {
    let mut running = view.running.iter();
    running.find(|running| running.step == step)?.next_fold()
}

/// The switch of the oven, where it could be on but isn't called for yet.
pub(super) fn oven_to_come(view: &BakeView) -> Option<StepId> {
    let state = view.bake.state();
    let mut steps = state.formula.steps.iter();
    let oven = steps.find(|step| is_oven_on(step) && state.is_open(step.id))?;
    (!view.offers.contains(&oven.id)).then_some(oven.id)
}

/// The same, where it has to be early for this step.
fn oven_ahead_of(view: &BakeView, step: StepId) -> Option<StepId> {
    let oven = view.bake.state().formula.step(oven_to_come(view)?)?;
    (oven.ahead_of == Some(step)).then_some(oven.id)
}

pub(super) fn is_oven_on(step: &Step) -> bool {
    step.kind == StepKind::OvenOn
}

fn window(view: &BakeView, step: &Step) -> String {
    let mut running = view.running.iter();
    let found = running.find(|running| running.step == step.id);
    found.map_or_else(String::new, |found| words::window(&found.window))
}

/// Whether what is asked is left out in a drawer, beside the buttons there being no room for it.
pub(super) fn can_be_left_out(shown: Shown) -> bool {
    match shown.view.read().ask {
        Ask::Wait(_) | Ask::Look(_) => true,
        Ask::Work(_) => shown.with_step(|_, step| is_oven_on(step)) == Some(true),
        _ => false,
    }
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
