//! The pages of the late half, and the one door to them.
//!
//! `xtask` moves everything that only these pages need into the late half (`xtask/split/links.rs`).
//! A page that is called from elsewhere would come back into the first.

use leptos::prelude::*;

use super::bench::Bench;
use super::desk::{DeskPage, ManuscriptPage};
use super::formula::FormulaPage;
use super::gather::GatherPage;
use super::kitchen::KitchenPage;
use super::note::NotePage;
use super::notebook::NotebookPage;
use super::plan::PlanPage;
use crate::route::Route;

/// What draws a late page. It must not be called before the late half is here.
///
/// The compilers may not see what it is: they would draw the pages into the function that asks.
pub(crate) fn door() -> fn(&Route) -> AnyView {
    std::hint::black_box(page)
}

fn page(route: &Route) -> AnyView {
    match route {
        Route::Bench(_) => view! { <Bench /> }.into_any(),
        Route::Formula(id) => view! { <FormulaPage id=id.clone() /> }.into_any(),
        Route::Desk => view! { <DeskPage /> }.into_any(),
        Route::Manuscript(id) => view! { <ManuscriptPage id=id.clone() /> }.into_any(),
        Route::Plan => view! { <PlanPage /> }.into_any(),
        Route::Notebook => view! { <NotebookPage /> }.into_any(),
        Route::Note(id) => view! { <NotePage id=id.clone() /> }.into_any(),
        Route::Gather => view! { <GatherPage /> }.into_any(),
        Route::Kitchen => view! { <KitchenPage /> }.into_any(),
        // These are there from the beginning.
        Route::Today | Route::Formulas => ().into_any(),
    }
}
