//! The time in the fridge that a rise is planned to have: other times for it, or none after all.

use domain::bake::{Intent, Stay};
use domain::kitchen::Place;
use domain::units::minutes;
use leptos::prelude::*;
use platform::clock;

use super::day_time::{TimeField, passed_alert};
use crate::reactive::RwSignal;
use crate::state::oventide;
use crate::state::plan::told::Entry;
use crate::widgets::live;
use crate::words::plan as words;

/// What can be said of it on the sheet of the rise, and of both moments.
pub(super) fn of(entry: &Entry, open: RwSignal<bool>) -> AnyView {
    let (Some(stay), Some((bake, step))) = (entry.cold, entry.of.clone()) else {
        return ().into_any();
    };
    let app = oventide();
    // While the sheet is open, its moment comes.
    let due = {
        let bake = bake.clone();
        move || {
            let view = app.view(&bake)?;
            let moved = view.bake.state().to_be_moved(app.beat.get())?;
            (moved.0 == step).then_some(moved)
        }
    };
    let says = {
        let due = due.clone();
        live::text(move || {
            let since = due().map(|(.., since)| since);
            words::stands_cold(&stay, since, app.beat.get())
        })
    };
    let Stay { from, to, is_in } = stay;
    let [into, out] = [from, to].map(|at| RwSignal::new(clock::minute_of_day(at)));
    let planned = bake.clone();
    let ask = move |stay| {
        app.ask(&planned, Intent::PlanRetard(step, stay));
        open.set(false);
    };
    let passed = RwSignal::new(false);
    let (plan, not) = (ask.clone(), ask);
    let plan = move |_| {
        // The nearest of that time of day to when it would go in, and the first of the other after that.
        let near = from - minutes(12.0 * 60.0);
        let from = if is_in {
            from
        } else {
            clock::next_time_of_day(into.get_untracked(), near)
        };
        let to = clock::next_time_of_day(out.get_untracked(), from + minutes(1.0));
        let has_passed = to <= clock::now();
        passed.set(has_passed);
        if !has_passed {
            plan(Some((from, to)));
        }
    };
    let field = |label, minute: RwSignal<u32>| {
        view! {
            <TimeField
                label=label
                minute=Signal::derive(move || minute.get())
                on_change=move |to: u32| minute.set(to)
            />
        }
    };
    let into = (!is_in).then(|| field(words::INTO_FRIDGE_AT, into));
    // What the Bench asks for at that moment can be said here as well.
    let is_due = {
        let due = due.clone();
        move || due().is_some()
    };
    let moves = move || {
        let moved = untrack(&due);
        let Some((step, place, _)) = moved else {
            return ().into_any();
        };
        let (of, says) = (bake.clone(), words::moved_now(place == Place::Fridge));
        let press = move |_| {
            app.ask(&of, Intent::Move(step, place));
            open.set(false);
        };
        view! {
            <button class="button button-main" type="button" on:click=press>
                {says}
            </button>
        }
        .into_any()
    };
    view! {
        <h3>{words::COLD}</h3>
        <p role="status">{says}</p>
        {live::when(is_due, moves)}
        {into}
        {field(words::OUT_OF_FRIDGE_AT, out)}
        {passed_alert(Signal::derive(move || passed.get()))}
        <div class="sheet-actions">
            <button class="button" type="button" on:click=plan>
                {words::PLAN_COLD}
            </button>
            <button class="button" type="button" on:click=move |_| not(None)>
                {words::NOT_COLD}
            </button>
        </div>
    }
    .into_any()
}
