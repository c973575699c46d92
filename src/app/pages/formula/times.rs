//! When each step would be, if the bake started now.

use domain::formula::Formula;
use domain::schedule::{Outline, if_started, night_work};
use domain::units::Moment;
use leptos::prelude::*;
use platform::clock;

use crate::reactive::Memo;
use crate::state::oventide;
use crate::widgets::live::{self, Rows};
use crate::words;

/// A whole bake, and when it would start.
pub(super) type Plan = Memo<Option<(Outline, Moment)>>;

/// The whole bake, if it started now.
pub(super) fn plan(formula: Memo<Formula>) -> Plan {
    let app = oventide();
    let kitchen = Memo::new(move |_| app.settings.read().kitchen);
    Memo::new(move |_| {
        let now = app.beat.get();
        if_started(&formula.read(), &kitchen.read(), now).map(|outline| (outline, now))
    })
}

/// That hands would be needed at night; nothing where they wouldn't.
pub(super) fn at_night(formula: Memo<Formula>, plan: Plan) -> String {
    let plan = plan.read();
    let said = plan.as_ref().and_then(|(outline, now)| {
        let work = night_work(&formula.read(), outline, *now, &clock::hour)?;
        Some(words::night_work(&work, *now))
    });
    said.unwrap_or_default()
}

/// When each step would be.
#[component]
pub(super) fn Times(formula: Memo<Formula>, plan: Plan) -> impl IntoView {
    let table = move || {
        let plan = plan.read();
        let table = plan
            .as_ref()
            .map(|(outline, now)| words::table_window(&outline.table, *now));
        table.unwrap_or_default()
    };
    let steps = move || {
        let plan = plan.read();
        let steps = plan
            .iter()
            .flat_map(|(outline, now)| lines(&formula.read(), outline, *now));
        steps.rows()
    };
    view! {
        <section class="section" aria-labelledby="times">
            <h2 id="times">{words::TIMES}</h2>
            <p class="digits">{live::text(table)}</p>
            <ol class="outline">{live::part(steps)}</ol>
            <p class="soft">{words::TIMES_NOTE}</p>
        </section>
    }
}

fn lines(formula: &Formula, outline: &Outline, now: Moment) -> Vec<AnyView> {
    let mut lines = Vec::with_capacity(outline.steps.len());
    let mut today = now;
    for planned in &outline.steps {
        if clock::day(today) != clock::day(planned.start) {
            today = planned.start;
            let day = view! { <li class="outline-day">{words::day(today)}</li> };
            lines.push(day.into_any());
        }
        let Some(step) = formula.step(planned.step) else {
            continue;
        };
        let title = step.title.clone();
        let line = view! {
            <li>
                <span class="digits">{clock::time_of_day(planned.start)}</span>
                <span>{title}</span>
            </li>
        };
        lines.push(line.into_any());
    }
    lines
}
