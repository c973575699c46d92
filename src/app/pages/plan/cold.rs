//! The time in the fridge that a rise is planned to have: other times for it, or none after all.

use domain::bake::{Intent, Stay};
use domain::units::minutes;
use leptos::prelude::*;
use platform::clock;

use super::day_time::{TimeField, passed_alert};
use crate::reactive::RwSignal;
use crate::state::oventide;
use crate::state::plan::told::Entry;
use crate::words::plan as words;

/// What can be said of it on the sheet of the rise, and of both moments.
pub(super) fn of(entry: &Entry, open: RwSignal<bool>) -> AnyView {
    let (Some(stay), Some((bake, step))) = (entry.cold, entry.of.clone()) else {
        return ().into_any();
    };
    let app = oventide();
    let Stay { from, to, is_in } = stay;
    let [into, out] = [from, to].map(|at| RwSignal::new(clock::minute_of_day(at)));
    let ask = move |stay| {
        app.ask(&bake, Intent::PlanRetard(step, stay));
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
    let now = app.beat.get_untracked();
    view! {
        <h3>{words::COLD}</h3>
        <p>{words::stands_cold(&stay, is_in, now)}</p>
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
