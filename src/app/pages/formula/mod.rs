//! One formula: fitted, looked over, and started.

mod fit;
mod liquid;
mod look;
mod own;
mod times;
mod wish;

use domain::formula::{Formula, FormulaId};
use leptos::prelude::*;

use crate::pages::plan::TableSheet;
use crate::reactive::{Memo, RwSignal};
use crate::route::Route;
use crate::state::oventide;
use crate::widgets::lesson::written;
use crate::widgets::live;
use crate::widgets::phone::{PhoneLines, TestAlarm};
use crate::words;
use fit::{Fit, Fitting};
use liquid::Liquids;
use look::{Care, Parts};
use own::Own;
use times::Times;
use wish::ReadyAt;
pub(crate) use wish::yeast_mass;

/// One formula.
#[component]
pub(crate) fn FormulaPage(
    /// Which.
    id: FormulaId,
) -> impl IntoView {
    let app = oventide();
    let formula = untrack(|| app.formula(&id));
    match formula {
        Some(formula) => view! { <OneFormula formula=formula /> }.into_any(),
        None => view! {
            <header class="page-head">
                <h1 tabindex="-1">{words::way(&Route::Formulas)}</h1>
                <p>{words::NO_FORMULA}</p>
            </header>
            <a class="button" href=Route::Formulas.href()>
                {words::ALL_FORMULAS}
            </a>
        }
        .into_any(),
    }
}

#[component]
fn OneFormula(formula: Formula) -> impl IntoView {
    let app = oventide();
    let name = formula.name.clone();
    let about = formula.about.clone();
    let kept = formula.clone();
    let fitting = Fitting::of(formula);
    let plan = times::plan(fitting.fitted);
    let started = RwSignal::new(false);
    let table_open = RwSignal::new(false);
    let start = move |table| {
        // Storing takes a moment, in which a second press would start a second bake.
        if fitting.can_start() && !started.get_untracked() {
            started.set(true);
            app.start_bake(fitting.fitted.get_untracked(), table);
        }
    };
    let cannot = Signal::derive(move || started.get() || !fitting.can_start());
    view! {
        <header class="page-head">
            <h1 tabindex="-1">{name}</h1>
            <p>{about}</p>
        </header>
        <p class="night" role="status">
            {live::text(move || times::at_night(fitting.fitted, plan))}
        </p>
        <Fit fitting=fitting />
        <Liquids formula=fitting.fitted />
        <Parts formula=fitting.fitted />
        <Care formula=fitting.fitted />
        <Lessons formula=fitting.fitted />
        <Times formula=fitting.fitted plan=plan />
        <ReadyAt fitting=fitting />
        <Own kept=kept fitted=fitting.fitted />
        <section class="section" aria-labelledby="before-start">
            <h2 id="before-start">{words::BEFORE_START}</h2>
            <TestAlarm />
            <PhoneLines />
        </section>
        <div class="start-bar">
            <button
                class="button button-main"
                type="button"
                disabled=cannot
                on:click=move |_| start(None)
            >
                {words::START}
            </button>
            <button
                class="button"
                type="button"
                disabled=cannot
                on:click=move |_| table_open.set(true)
            >
                {words::plan::ON_THE_TABLE_AT}
            </button>
        </div>
        <TableSheet
            open=table_open
            formula=fitting.fitted
            on_choose=move |table| start(Some(table))
        />
    }
}

/// What earlier bakes of this formula say, step by step.
#[component]
fn Lessons(formula: Memo<Formula>) -> impl IntoView {
    let app = oventide();
    let lessons = Memo::new(move |_| {
        let formula = formula.read();
        let notes = app.notes.read();
        let steps = formula.steps.iter().flat_map(|step| {
            let found = domain::notebook::lessons(&notes, &formula, step);
            let newest = found.first().map(|text| (*text).to_owned());
            newest.map(|text| (words::at_step(&step.title), text))
        });
        steps.collect::<Vec<_>>()
    });
    written(lessons)
}
