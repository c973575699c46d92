//! The Bench: the propped view of what is baking now.
//!
//! It is drawn once and then only changes in place, so that a finger, the
//! keyboard's focus and an open drawer stay where they are while time goes on.

mod act;
mod asked;
mod bar;
mod by_plan;
mod checklist;
mod course;
mod earlier;
mod elsewhere;
mod honest;
mod kitchen_sheet;
mod menu;
mod mixing;
mod readings;
mod running;
mod step_cautions;
mod timers;
mod wait;
mod weighing;

use domain::bake::{BakeId, Intent, State, Status};
use domain::formula::Step;
use domain::schedule::Ask;
use domain::units::Celsius;
use leptos::prelude::*;

use crate::reactive::{Memo, RwSignal, effect};
use crate::route::Route;
use crate::state::{BakeView, Oventide, oventide};
use crate::widgets::live;
use crate::words;

/// The bake on the Bench, and what is asked of it: handed to every part.
#[derive(Clone, Copy)]
struct Shown {
    app: Oventide,
    view: Memo<BakeView>,
    /// The dough temperature that was entered, if one was.
    entered: RwSignal<Option<Celsius>>,
}

impl Shown {
    /// Asks something of the bake that is shown.
    fn ask(self, intent: Intent) {
        self.ask_in_turn(vec![intent]);
    }

    /// Asks several things that are one to the baker.
    fn ask_in_turn(self, intents: Vec<Intent>) {
        let id = self.view.read_untracked().bake.id.clone();
        self.app.ask_in_turn(&id, intents);
    }

    /// Looks at the state of the bake that is shown.
    fn with<T>(self, look: impl FnOnce(&State) -> T) -> T {
        look(self.view.read().bake.state())
    }

    /// Whether the baker is away.
    fn is_paused(self) -> bool {
        self.with(|state| matches!(state.status, Status::Paused { .. }))
    }

    /// What is asked now.
    fn asked(self) -> Memo<Ask> {
        Memo::new(move |_| self.view.read().ask)
    }

    /// Looks at the step that is asked about.
    fn with_step<T>(self, look: impl FnOnce(&State, &Step) -> T) -> Option<T> {
        let view = self.view.read();
        let state = view.bake.state();
        let step = state.formula.step(view.ask.step()?)?;
        Some(look(state, step))
    }
}

/// The Bench.
#[component]
pub(crate) fn Bench() -> impl IntoView {
    let app = oventide();
    let shown = Memo::new(move |last: Option<&Option<BakeView>>| {
        let last = last.and_then(Option::as_ref);
        shown_bake(app, last.map(|last| &last.bake.id))
    });
    let any = Memo::new(move |_| shown.read().is_some());
    effect(move || app.show_on_bench(shown.read().as_ref().map(|view| view.bake.id.clone())));
    on_cleanup(move || app.show_on_bench(None));
    view! {
        {live::part(move || {
            if any.get() {
                view! { <OneBake shown=shown /> }.into_any()
            } else {
                view! { <NothingBaking /> }.into_any()
            }
        })}
    }
}

/// The bake in the address, or else the one that was shown, or else the one that needs the baker most.
///
/// It never changes by itself: a button meant for one bake must not reach another.
fn shown_bake(app: Oventide, last: Option<&BakeId>) -> Option<BakeView> {
    let views = app.views.read();
    let wanted = match &*app.route.read() {
        Route::Bench(Some(id)) => Some(id.clone()),
        _ => None,
    };
    let running = |id: &BakeId| views.iter().find(|view| view.bake.id == *id);
    let chosen = wanted.as_ref().and_then(running);
    chosen
        .or_else(|| last.and_then(running))
        .or_else(|| views.iter().min_by_key(|view| view.rank()))
        .cloned()
}

#[component]
fn NothingBaking() -> impl IntoView {
    view! {
        <main id="app" class="page">
            <header class="page-head">
                <h1 tabindex="-1">{words::NO_BAKE}</h1>
            </header>
            <a class="button button-main" href=Route::Formulas.href()>
                {words::CHOOSE_FORMULA}
            </a>
            <a class="button" href=Route::Today.href()>
                {words::LEAVE_BENCH}
            </a>
        </main>
    }
}

#[component]
fn OneBake(shown: Memo<Option<BakeView>>) -> impl IntoView {
    let app = oventide();
    let Some(first) = shown.get_untracked() else {
        return ().into_any();
    };
    // When the bake ends, this stands for a moment longer with what it showed last.
    let view = Memo::new(move |last: Option<&BakeView>| {
        shown
            .get()
            .or_else(|| last.cloned())
            .unwrap_or_else(|| first.clone())
    });
    let entered = RwSignal::new(None);
    let shown = Shown { app, view, entered };
    let asked = shown.asked();
    let mut before = None;
    effect(move || {
        let asked = asked.get();
        // Whoever marked the last of a long list has scrolled away from what comes next.
        if before.replace(asked).is_some_and(|before| before != asked) {
            platform::page::scroll_to_top();
        }
    });
    view! {
        <main id="app" class="bench">
            <bar::Bar shown=shown />
            <div class="bench-middle">
                <running::RunningStrip shown=shown />
                <asked::Asked shown=shown />
            </div>
            <by_plan::ByPlan shown=shown />
            <act::Act shown=shown />
        </main>
    }
    .into_any()
}

/// What a bake is called, where several run.
#[derive(Debug, Clone, PartialEq)]
struct BakeName {
    /// Where room is short.
    short: String,
    /// For whoever listens.
    full: String,
}
