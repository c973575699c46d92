//! All formulas, each as a card that leads to it.

use domain::formula::{Formula, FormulaId};
use domain::kitchen::Kitchen;
use domain::schedule::if_started;
use domain::units::Moment;
use leptos::prelude::*;
use leptos::task::spawn_local;
use platform::clock;
use platform::store::manuscript_name;

use crate::reactive::{Memo, Ref, RwSignal};
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
        <a class="button" href=Route::Desk.href()>
            {words::OWN_FORMULA}
        </a>
        <Unfinished />
        <FormulaCards />
    }
}

/// The sheets that are still being written.
#[component]
fn Unfinished() -> impl IntoView {
    let app = oventide();
    let sheets = move || {
        let all = app.manuscripts.read();
        let sheets = all.iter().map(|(key, text)| {
            let name = manuscript_name(text);
            let name = name.filter(|name| !name.trim().is_empty());
            view! {
                <a class="card" href=Route::Manuscript(FormulaId(key.clone())).href()>
                    <h3>{name.unwrap_or_else(|| words::WITHOUT_NAME.to_owned())}</h3>
                </a>
            }
        });
        sheets.rows()
    };
    let any = move || !app.manuscripts.read().is_empty();
    let list = move || {
        view! {
            <section class="section" aria-labelledby="unfinished">
                <h2 id="unfinished">{words::UNFINISHED}</h2>
                {live::part(sheets)}
            </section>
        }
        .into_any()
    };
    live::when(any, list)
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
        let lengths: Vec<_> = formulas.iter().map(|_| RwSignal::new(None)).collect();
        let cards = formulas.iter().zip(&lengths);
        let cards = cards.map(|(formula, length)| card(formula, *length)).rows();
        spawn_local(tell_lengths(formulas, kitchen, now, lengths));
        cards
    };
    view! { <div class="section">{live::part(cards)}</div> }
}

/// Reckons how long each takes once the cards can be seen, and lets the page answer between them: three whole bakes
/// kept the first page waiting.
async fn tell_lengths(
    formulas: Ref<Vec<Formula>>,
    kitchen: Kitchen,
    now: Moment,
    lengths: Vec<RwSignal<Option<String>>>,
) {
    for (formula, length) in formulas.iter().zip(lengths) {
        clock::painted().await;
        // The cards may have been left by then, or drawn anew.
        if length.is_disposed() {
            return;
        }
        let outline = if_started(formula, &kitchen, now);
        length.set(outline.map(|outline| words::whole_length(&outline.table, now)));
    }
}

fn card(formula: &Formula, length: RwSignal<Option<String>>) -> impl IntoView + use<> {
    // The line has its height from the start, so nothing moves.
    let length = live::text(move || length.get().unwrap_or_else(|| "\u{a0}".to_owned()));
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
