//! What the plan has to say beside what is asked: where the hands are wanted now and next, and what has moved.
//!
//! While the plan has them at another bread, and what would be asked here is for later or goes on by itself, the Bench
//! asks for nothing here and its main action leads there; whoever stays says so, which is to turn to it.
//!
//! Where the hands are wanted comes and goes by itself, so it stands above the buttons and grows away from them:
//! nothing that is read or pressed moves by it. It isn't among what is pinned with them, which would cover the whole
//! of a phone with large text. What has moved by something that was done stands below the answer
//! to that; what moves while time goes by stands on the page of the plan.

use domain::bake::{BakeId, Intent, State};
use domain::formula::StepId;
use domain::kitchen::Place;
use domain::schedule::Ask;
use leptos::prelude::*;

use super::Shown;
use crate::reactive::Memo;
use crate::route::Route;
use crate::state::{Back, BakeView, Oventide, states};
use crate::widgets::live;
use crate::widgets::undo::PutBack;
use crate::words::{self, Prompt};

/// The lines of the plan.
#[component]
pub(super) fn ByPlan(shown: Shown) -> impl IntoView {
    let hands_at = move || {
        let view = shown.view.read();
        // What rests leaves the main action free to lead there.
        let hands_at = view.by_plan.hands_at.as_ref();
        let hands_at = hands_at.filter(|_| view.by_plan.rests.is_none());
        let named = hands_at.and_then(|(bake, step)| Some((bake, named(shown.app, bake, *step)?)));
        let Some((bake, (whose, title))) = named else {
            return ().into_any();
        };
        let href = Route::Bench(Some(bake.clone())).href();
        let text = words::plan::now_at(&whose, &title);
        view! {
            <a class="button plan-elsewhere" href=href>
                {text}
            </a>
        }
        .into_any()
    };
    let moves = move || {
        let view = shown.view.read();
        let state = view.bake.state();
        let moves = state.to_be_moved(view.at);
        // Whose hands are at something isn't asked for it yet.
        let Some((step, place, _)) = moves.filter(|&(step, ..)| view.ask.step() != Some(step))
        else {
            return ().into_any();
        };
        let goes_in = place == Place::Fridge;
        let text = words::plan::moved_by_plan(state.formula.title(step), goes_in);
        view! {
            <button
                class="button plan-elsewhere"
                type="button"
                on:click=move |_| shown.ask(Intent::Move(step, place))
            >
                {text}
            </button>
        }
        .into_any()
    };
    let put = Memo::new(move |_| Back::put(&shown.view.read().bake));
    view! {
        <div class="by-plan">
            {super::earlier::offer(shown)}
            <PutBack back=put />
            {live::part(moves)}
            {live::part(hands_at)}
        </div>
    }
}

/// What a bake is called beside the others that run, and what is to be done at one of its steps.
fn named(app: Oventide, bake: &BakeId, step: StepId) -> Option<(String, String)> {
    let views = app.views.read();
    let view = views.iter().find(|view| view.bake.id == *bake)?;
    let of = view.bake.state();
    let states = states(&views);
    let name = words::full_name(of, &states);
    let title = title_of(of, step);
    let title = match view.ask {
        Ask::Fold(asked) if asked == step => words::fold_in(&title),
        Ask::Look(asked) if asked == step => {
            let instruction = words::prompt(of, view.ask, &states, view.at).instruction;
            let look = words::lower_first(instruction.trim_end_matches('.'));
            [title.as_str(), ": ", &look].concat()
        }
        _ => title,
    };
    Some((name, title))
}

/// What hands do at a step; of a rise, with its dough that is to go into the fridge or to come out of it.
fn title_of(state: &State, step: StepId) -> String {
    let title = state.formula.title(step);
    if state.retards.contains_key(&step) {
        words::moves(title, state.place_of(step) != Some(Place::Fridge))
    } else {
        title.to_owned()
    }
}

/// What the Bench says: what is asked of the bake that is shown or, while that rests, where the hands are wanted.
pub(super) fn prompt(shown: Shown) -> Memo<Prompt> {
    Memo::new(move |_| {
        let view = shown.view.read();
        let hands_at = view.by_plan.hands_at.as_ref();
        let hands_at = hands_at.filter(|_| view.by_plan.rests.is_some());
        let named = hands_at.and_then(|(bake, step)| named(shown.app, bake, *step));
        match named {
            Some((whose, title)) => words::plan::leads_to(&whose, title),
            None => {
                let views = shown.app.views.read();
                let (state, ask) = (view.bake.state(), view.ask);
                let mut prompt = words::prompt(state, ask, &states(&views), view.at);
                if let Some(instead) = words::instead_of(state, ask, view.at) {
                    instead.clone_into(&mut prompt.instruction);
                    if matches!(ask, Ask::Fold(_)) {
                        words::LEAVE_OUT.clone_into(&mut prompt.action);
                    }
                }
                prompt
            }
        }
    })
}

/// What hands do next, and when; or that what is asked can wait. What they do at another bread leads there.
#[component]
pub(super) fn NextUp(shown: Shown) -> impl IntoView {
    let next = live::text(move || {
        let view = shown.view.read();
        let formula = &view.bake.state().formula;
        let plan = &view.by_plan;
        let state = view.bake.state();
        if let Some(out) = state.to_take_out()
            && let Some(since) = state.progress(out).open_since
        {
            return words::plan::baked_since(since, view.at);
        }
        match (plan.waits_until, plan.rests, &plan.next) {
            // It stands above what is asked.
            (Some(_), ..) if plan.left_out.is_some() => String::new(),
            (Some(until), Some(rests), _) => {
                let step = rests.step();
                let title = step.map_or("", |step| formula.title(step));
                words::plan::has_time(title, until, plan.waits_too_long, view.at)
            }
            (Some(until), None, _) => words::plan::no_hurry(until, plan.waits_too_long, view.at),
            (None, _, Some((bake, step, at))) if *bake == view.bake.id => {
                words::next_up(&title_of(state, *step), *at, view.at)
            }
            (None, _, Some(_)) => String::new(),
            (None, _, None) => outlined(&view),
        }
    });
    let elsewhere = move || {
        let view = shown.view.read();
        let next = view.by_plan.next.as_ref();
        let next = next.filter(|(bake, _, at)| {
            let waits = view.by_plan.waits_until;
            *bake != view.bake.id && waits.is_none_or(|until| *at < until)
        });
        let named =
            next.and_then(|(bake, step, at)| Some((bake, named(shown.app, bake, *step)?, *at)));
        let Some((bake, (whose, title), at)) = named else {
            return ().into_any();
        };
        let href = Route::Bench(Some(bake.clone())).href();
        view! {
            <a class="button asked-elsewhere" href=href>
                {words::plan::next_at(&whose, &title, at, view.at)}
            </a>
        }
        .into_any()
    };
    // The more quietly, the more there is to do.
    let waits = live::flag(move || matches!(shown.view.read().ask, Ask::Wait(_)));
    view! {
        <p class="asked-next" data-waits=waits>
            {next}
        </p>
        {live::part(elsewhere)}
    }
}

/// The same of the outline, as long as there is no plan.
fn outlined(view: &BakeView) -> String {
    let formula = &view.bake.state().formula;
    let asked = view.ask.step();
    let mut steps = view.outline.steps.iter();
    let next = steps.find_map(|planned| {
        let step = formula.step(planned.step)?;
        let is_next = planned.start >= view.at && Some(planned.step) != asked && step.is_hands();
        is_next.then(|| words::next_up(&step.title, planned.start, view.at))
    });
    next.unwrap_or_default()
}

/// What becomes of the oven once the last of a bread is out.
pub(super) fn oven_after(shown: Shown) -> String {
    let view = shown.view.read();
    let state = view.bake.state();
    if !state.is_done_with_oven() {
        return String::new();
    }
    let views = shown.app.views.read();
    let other = views.iter().find(|other| {
        let (id, is_on) = (&other.bake.id, other.bake.state().has_oven_on());
        *id != view.bake.id && (is_on || view.by_plan.oven_for.as_ref() == Some(id))
    });
    let whose = other.map(|other| words::full_name(other.bake.state(), &states(&views)));
    let is_out = state.to_take_out().is_none();
    words::oven_after(whose.as_deref(), is_out, state.all_ended())
}

/// What has moved in the plan by what was done last.
#[component]
pub(super) fn Moved(shown: Shown) -> impl IntoView {
    let app = shown.app;
    let moved = live::text(move || {
        let changes = app.changes.read();
        let newest = changes.first().filter(|_| app.tells_change.get());
        // Of time that only went by, no more than that a table is lost by it.
        let done = newest.filter(|change| {
            let margin = change.moved.margin.as_ref();
            let is_lost = margin.is_some_and(|margin| margin.spare().get() < 0.0);
            is_lost || !change.moved.why.is_passing()
        });
        done.map_or_else(String::new, |change| {
            let view = shown.view.read();
            let (moved, degrees) = (&change.moved, app.settings.read().degrees);
            words::plan::what_moved(moved, moved.end_at(&view.bake.id), change.at, degrees)
        })
    });
    view! { <p class="plan-moved">{moved}</p> }
}
