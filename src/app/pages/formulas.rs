//! All formulas, each as a card that leads to it.

use domain::formula::Formula;
use domain::kitchen::Kitchen;
use domain::schedule::if_started;
use domain::units::Moment;
use leptos::prelude::*;

use crate::reactive::Memo;
use crate::route::Route;
use crate::state::oventide;
use crate::widgets::live::{self, Rows};
use crate::words;

/// All formulas.
#[component]
pub(crate) fn FormulasPage() -> impl IntoView {
    view! {
        <header class="page-head">
            <h1 tabindex="-1">{words::way(&Route::Formulas)}</h1>
        </header>
        <FormulaCards />
    }
}

/// A card for each formula.
#[component]
pub(crate) fn FormulaCards() -> impl IntoView {
    let app = oventide();
    // Only the kitchen moves the lengths; the rest of the settings would draw the cards for nothing.
    let kitchen = Memo::new(move |_| app.settings.read().kitchen);
    let cards = move || {
        let kitchen = kitchen.get();
        // How long it takes hardly depends on when, so the cards needn't follow the clock.
        let now = app.beat.get_untracked();
        let formulas = app.formulas.read();
        formulas
            .iter()
            .map(|formula| card(formula, kitchen, now))
            .rows()
    };
    view! { <div class="section">{live::part(cards)}</div> }
}

fn card(formula: &Formula, kitchen: Kitchen, now: Moment) -> impl IntoView + use<> {
    let length =
        if_started(formula, &kitchen, now).map(|outline| words::whole_length(&outline.table, now));
    view! {
        <a class="card" href=Route::Formula(formula.id.clone()).href()>
            <h2>{formula.name.clone()}</h2>
            <p>{formula.about.clone()}</p>
            <p class="digits">{words::pieces(formula)}</p>
            <p>{length}</p>
            <p class="soft">{words::allergens(formula)}</p>
        </a>
    }
}
