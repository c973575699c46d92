//! What the baker can say of anything that goes on by itself, due or not: that it is ready now,
//! that it takes longer, or that it is left out.

use domain::bake::{BakeId, Intent};
use domain::formula::{Step, StepId, StepKind};
use domain::schedule::Ask;
use domain::units::{Minutes, Moment, minutes};
use leptos::prelude::*;

use super::elsewhere::{Elsewhere, HowFar, InFridge};
use super::{Shown, course, earlier};
use crate::reactive::RwSignal;
use crate::state::{BakeView, Oventide};
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

/// What a sheet is about: a step of any bake, looked at and asked of.
#[derive(Clone, Copy)]
struct About {
    app: Oventide,
    of: RwSignal<Option<(BakeId, StepId)>>,
    ask: Callback<Intent>,
}

/// What a button of the sheet asks for.
type Say = fn(&BakeView, &Step) -> Option<Intent>;

impl About {
    /// A text on it. One kind of closure for all of them.
    fn text(self, look: fn(&BakeView, &Step) -> String) -> Signal<String> {
        live::text(move || {
            let of = self.of.read();
            let found = of.as_ref().and_then(|(bake, step)| {
                let view = self.app.view(bake)?;
                Some(look(&view, view.bake.state().formula.step(*step)?))
            });
            found.unwrap_or_default()
        })
    }

    /// A part that is there only while something holds of it.
    fn when(
        self,
        holds: fn(&BakeView, StepId) -> bool,
        draw: impl Fn(Self) -> AnyView + Send + Sync + 'static,
    ) -> AnyView {
        let holds = move || {
            let of = self.of.read();
            let of = of.as_ref();
            let view = of.and_then(|(bake, step)| Some((self.app.view(bake)?, *step)));
            view.is_some_and(|(view, step)| holds(&view, step))
        };
        live::when(holds, move || draw(self))
    }

    /// A button that asks something of it.
    fn button(self, name: Signal<String>, class: &'static str, what: Say) -> AnyView {
        let say = move |_| {
            let intent = self.of.get_untracked().and_then(|(bake, step)| {
                let view = self.app.view(&bake)?;
                what(&view, view.bake.state().formula.step(step)?)
            });
            if let Some(intent) = intent {
                self.ask.run(intent);
            }
        };
        view! {
            <button class=class type="button" on:click=say>
                {name}
            </button>
        }
        .into_any()
    }

    /// The same with a name that stays.
    fn named(self, name: &'static str, what: Say) -> AnyView {
        self.button(live::text(move || name), "button", what)
    }

    /// The same for what is likeliest meant.
    fn main(self, name: &'static str, what: Say) -> AnyView {
        self.button(live::text(move || name), "button button-main", what)
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
    let about = About { app, of, ask };
    view! {
        <Sheet open=open title=about.text(|_, step| step.title.clone())>
            <p class="digits">{about.text(window)}</p>
            {course::of(app, of)}
            <InFridge shown=shown of=of />
            {about.when(|view, step| next_fold(view, step).is_some(), its_fold)}
            {about.when(|view, step| oven_ahead_of(view, step).is_some(), oven_before)}
            {about.when(|view, step| next_fold(view, step).is_none(), its_end)}
            <Elsewhere shown=shown of=of ask=ask />
            <HowFar shown=shown of=of ask=ask />
            {earlier::of_step(app, of, ask)}
        </Sheet>
    }
}

/// What can be said of the end of a step.
fn its_end(about: About) -> AnyView {
    let longer = about.text(|_, step| Delay::of(step).longer.to_owned());
    view! {
        <div class="sheet-actions">
            {about.main(words::READY_NOW, |_, step| Some(Intent::Done(step.id)))}
            {about.button(
                longer,
                "button",
                |_, step| Some(Intent::NotYet(step.id, Delay::of(step).by)),
            )}
        </div>
        {left_out(
            about.text(|_, step| words::if_left_out(step)),
            about.named(words::SKIP, |_, step| Some(Intent::Skip(step.id))),
        )}
    }
    .into_any()
}

/// What the card counts to, so that it isn't the rise which ends by mistake.
fn its_fold(about: About) -> AnyView {
    view! {
        <div class="sheet-actions">
            {about.main(words::FOLDED_NOW, |_, step| Some(Intent::Folded(step.id)))}
            {about.named(words::LONGER, |_, step| Some(Intent::FoldNotYet(step.id, LOOK_AGAIN)))}
            {about.named(words::LEAVE_FOLD_OUT, |_, step| Some(Intent::SkipFold(step.id)))}
        </div>
        <details>
            <summary>{words::WHOLE_RISE}</summary>
            {its_end(about)}
        </details>
    }
    .into_any()
}

/// The oven, which can be on before it is called for.
fn oven_before(about: About) -> AnyView {
    let on = |view: &BakeView, step: &Step| Some(Intent::Done(oven_ahead_of(view, step.id)?));
    view! { <div class="sheet-actions">{about.named(words::OVEN_IS_ON, on)}</div> }.into_any()
}

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
    match running.find(|running| running.step == step.id) {
        None => String::new(),
        Some(found) if found.stalls => words::stalls(found.reason).to_owned(),
        Some(found) => words::window(&found.window),
    }
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
    let button = view! {
        <button class="button" type="button" on:click=leave_out>
            {words::SKIP}
        </button>
    };
    left_out(follows, button.into_any())
}

/// A drawer, so that what follows from leaving out is read as that, and not of the buttons above it.
fn left_out(follows: Signal<String>, button: AnyView) -> AnyView {
    view! {
        <details>
            <summary>{words::LEAVE_OUT}</summary>
            <p>{follows}</p>
            {button}
        </details>
    }
    .into_any()
}
