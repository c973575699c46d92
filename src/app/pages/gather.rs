//! Everything that the running bakes take: to buy, to fetch and to set out.

mod list;

use leptos::prelude::*;

use crate::reactive::{Memo, RwSignal};
use crate::route::Route;
use crate::state::{Oventide, oventide};
use crate::widgets::cautions::Cautions;
use crate::widgets::choices::Choices;
use crate::widgets::fresh_id;
use crate::widgets::live::{self, Rows};
use crate::widgets::presses::Presses;
use crate::widgets::print::{MadeAt, PrintButton};
use crate::words;
use list::{Group, Line, List, list};

/// Everything that the running bakes take.
#[component]
pub(crate) fn GatherPage() -> impl IntoView {
    let app = oventide();
    let all = RwSignal::new(false);
    let list = Memo::new(move |_| list(&app.bakes.read(), app.plan.read().as_ref(), all.get()));
    let page = move || match list.get() {
        Some(list) => whole(app, list, all),
        None => view! {
            <p>{words::GATHER_NOTHING}</p>
            <a class="button" href=Route::Formulas.href()>
                {words::ALL_FORMULAS}
            </a>
        }
        .into_any(),
    };
    view! {
        <header class="page-head">
            <h1 tabindex="-1">{words::way(&Route::Gather)}</h1>
            <MadeAt />
        </header>
        {live::part(page)}
    }
}

fn whole(app: Oventide, list: List, all: RwSignal<bool>) -> AnyView {
    let no_print = RwSignal::new(false);
    let choose = list.can_choose.then(|| {
        view! {
            <Choices
                legend=words::GATHER_FOR
                options=words::GATHER_WHICH.map(str::to_owned).to_vec()
                chosen=Signal::derive(move || Some(usize::from(all.get())))
                on_choose=move |place| all.set(place == 1)
            />
        }
    });
    let lines = list
        .allergens
        .into_iter()
        .map(|line| view! { <li>{line}</li> });
    let groups = list.groups.into_iter().map(|group| of_group(app, group));
    let benches = list.benches.into_iter().map(|(href, text)| {
        view! {
            <a class="button" href=href>
                {text}
            </a>
        }
    });
    let failed = move || {
        let failed = no_print.get();
        failed
            .then(|| view! { <p class="answer">{words::NO_PRINT}</p> })
            .into_any()
    };
    view! {
        <p>{list.made}</p>
        {list.note.map(|note| view! { <p class="soft">{note}</p> })}
        <p>{live::text(move || leave_in_fridge(app))}</p>
        {choose}
        <section class="section" aria-labelledby="gather-allergens">
            <h2 id="gather-allergens">{words::GATHER_ALLERGENS}</h2>
            <ul class="lines">{lines.rows()}</ul>
            <p>{words::PACKETS}</p>
            <Cautions cautions=list.cautions />
        </section>
        {groups.rows()}
        <section class="section no-print">
            <p class="soft">{words::GATHER_TICKS}</p>
            <div class="row">
                <PrintButton failed=no_print />
                {benches.rows()}
            </div>
            <div role="status">{live::part(failed)}</div>
        </section>
    }
    .into_any()
}

fn of_group(app: Oventide, group: Group) -> AnyView {
    let id = fresh_id("gather");
    let named = id.clone();
    let lines = group.lines.into_iter().map(|line| of_line(app, line));
    let note = group.note.map(|note| view! { <p class="soft">{note}</p> });
    view! {
        <section class="section" aria-labelledby=named>
            <h2 id=id>{group.heading}</h2>
            <ul class="marks">{lines.rows()}</ul>
            {note}
        </section>
    }
    .into_any()
}

fn of_line(app: Oventide, line: Line) -> AnyView {
    let presses = Presses::new();
    // What marks a tick is drawn, and would be read out as a part of the name.
    let label = words::gather_label(&line.name, &line.amount, &line.uses);
    let ticks = line.ticks.clone();
    let is_on = live::flag(move || app.is_ticked_off(&ticks));
    let ticks = line.ticks;
    let turn = move |_| {
        if presses.is_new() {
            let on = !untrack(|| app.is_ticked_off(&ticks));
            app.tick_off(ticks.clone(), on);
        }
    };
    view! {
        <li>
            <button class="mark gather-line" type="button" aria-pressed=is_on aria-label=label on:click=turn>
                <span>{line.name}</span>
                <span class="digits">{line.amount}</span>
                <span class="soft">{line.uses}</span>
            </button>
        </li>
    }
    .into_any()
}

/// What is at hand in the fridge until it is weighed.
fn leave_in_fridge(app: Oventide) -> String {
    let views = app.views.read();
    let each: Vec<String> = views
        .iter()
        .filter_map(|view| view.leave_in_fridge())
        .collect();
    words::plan::leave_all(&each)
}
