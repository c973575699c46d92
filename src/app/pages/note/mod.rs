//! One bake looked back on, and what the baker writes about it.

mod writing;

use domain::bake::{Bake, BakeId, State};
use domain::formula::Length;
use domain::notebook::{Summary, summary};
use domain::units::Celsius;
use leptos::prelude::*;
use platform::store::Degrees;

use crate::reactive::Memo;
use crate::route::Route;
use crate::state::oventide;
use crate::widgets::cautions::stood_out;
use crate::widgets::live::{self, Rows};
use crate::words;
use writing::Writing;

/// One bake looked back on.
#[component]
pub(crate) fn NotePage(
    /// Which.
    id: BakeId,
) -> impl IntoView {
    let app = oventide();
    // The press that ends a bake leads here while its end is still being stored.
    let bake = Memo::new(move |_| {
        let bakes = app.bakes.read();
        bakes.iter().find(|bake| bake.id == id).cloned()
    });
    // The heading has the focus by then and has to stay, while all else is drawn anew.
    let name = move || match &*bake.read() {
        Some(bake) => bake.state().formula.name.clone(),
        None => words::way(&Route::Notebook).to_owned(),
    };
    let head = move || match bake.get() {
        Some(bake) => head(bake.state()),
        None => view! { <p>{words::NO_NOTE}</p> }.into_any(),
    };
    let rest = move || match bake.get() {
        Some(bake) => view! { <OneBake bake=bake /> }.into_any(),
        None => view! {
            <a class="button" href=Route::Notebook.href()>
                {words::ALL_NOTES}
            </a>
        }
        .into_any(),
    };
    view! {
        <header class="page-head">
            <h1 tabindex="-1">{live::text(name)}</h1>
            {live::part(head)}
        </header>
        {live::part(rest)}
    }
}

fn head(state: &State) -> AnyView {
    let (day, ended) = (words::bake_day(state), words::ended(state));
    let pieces = words::pieces(&state.formula);
    // What there was to mind as it ended is past, but for what nobody should eat of it later.
    let (is_lost, said) = words::stood(state, state.newest);
    let lost = is_lost.then(|| {
        let caution = stood_out((true, said));
        view! { <div class="stood">{caution}</div> }
    });
    view! {
        <p>{day}</p>
        <p class="digits">{ended}</p>
        <p class="soft">{pieces}</p>
        {lost}
    }
    .into_any()
}

#[component]
fn OneBake(bake: Bake) -> impl IntoView {
    let state = bake.state();
    let bakes = oventide().bakes.get_untracked();
    let others: Vec<&Bake> = bakes.iter().filter(|other| other.id != bake.id).collect();
    let summary = summary(&bake, &others);
    let rows = summary
        .rows
        .iter()
        .filter_map(|row| {
            let title = state.formula.step(row.step)?.title.clone();
            let happened = words::row(row);
            Some(view! {
                <li>
                    <span class="row-title">{title}</span>
                    <span>{happened}</span>
                </li>
            })
        })
        .rows();
    let again = Route::Formula(state.formula.id.clone()).href();
    view! {
        <Writing bake=bake.clone() />
        <section class="section" aria-labelledby="how-it-went">
            <h2 id="how-it-went">{words::HOW_IT_WENT}</h2>
            <ol class="outline outline-wide">{rows}</ol>
        </section>
        <Measured bake=bake.clone() summary=summary />
        <div class="row">
            <a class="button button-main" href=again>
                {words::BAKE_AGAIN}
            </a>
            <a class="button" href=Route::Notebook.href()>
                {words::ALL_NOTES}
            </a>
        </div>
    }
}

/// Temperatures and masses that were taken.
#[component]
fn Measured(bake: Bake, summary: Summary) -> impl IntoView {
    let app = oventide();
    let lines = move || {
        let lines = measured(bake.state(), &summary, app.settings.read().degrees);
        if lines.is_empty() {
            return view! { <p>{words::NOTHING_MEASURED}</p> }.into_any();
        }
        let lines = lines
            .into_iter()
            .map(|line| view! { <li>{line}</li> })
            .rows();
        view! { <ul class="lines">{lines}</ul> }.into_any()
    };
    view! {
        <section class="section" aria-labelledby="measured">
            <h2 id="measured">{words::MEASURED}</h2>
            {live::part(lines)}
        </section>
    }
}

fn measured(state: &State, summary: &Summary, degrees: Degrees) -> Vec<String> {
    let formula = &state.formula;
    let air = summary.air.iter();
    let air = air.map(|&(at, air)| words::taken(words::THE_KITCHEN, at, air, None, degrees));
    let doughs = summary.doughs.iter().filter_map(|reading| {
        let component = formula.component(reading.of)?;
        let (found, target) = (reading.temperature, component.target);
        Some(words::taken(
            &component.name,
            reading.at,
            found,
            target,
            degrees,
        ))
    });
    let cores = summary.cores.iter().filter_map(|reading| {
        let step = formula.step(reading.of)?;
        let wanted = wanted_core(&step.length);
        Some(words::taken(
            &step.title,
            reading.at,
            reading.temperature,
            wanted,
            degrees,
        ))
    });
    let moves = summary.moves.iter().filter_map(|seen| {
        let title = &formula.step(seen.of)?.title;
        Some(words::was_put(title, seen.at, seen.what, degrees))
    });
    let rises = summary.looks.iter().filter_map(|seen| {
        let title = &formula.step(seen.of)?.title;
        Some(words::was_risen(title, seen.at, seen.what))
    });
    let masses = summary.masses.iter().map(words::masses);
    let measured = air.chain(doughs).chain(cores);
    measured.chain(moves).chain(rises).chain(masses).collect()
}

fn wanted_core(length: &Length) -> Option<Celsius> {
    match *length {
        Length::Bake { core, .. } => Some(core),
        Length::Chill { to, .. } | Length::Cool { to } => Some(to),
        _ => None,
    }
}
