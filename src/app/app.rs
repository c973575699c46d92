//! The whole app: its state, the standing warnings, the alarm, and the page the baker is on.

use leptos::prelude::*;

use crate::pages::alarm::AlarmScreen;
use crate::pages::bench::Bench;
use crate::pages::clock::ClockQuestion;
use crate::pages::formula::FormulaPage;
use crate::pages::formulas::FormulasPage;
use crate::pages::gather::GatherPage;
use crate::pages::kitchen::KitchenPage;
use crate::pages::note::NotePage;
use crate::pages::notebook::NotebookPage;
use crate::pages::plan::PlanPage;
use crate::pages::today::TodayPage;
use crate::reactive::Memo;
use crate::route::Route;
use crate::state::{Loading, Oventide, oventide};
use crate::widgets::live::{self, Rows};
use crate::words;

/// The whole app.
#[component]
pub(crate) fn App() -> impl IntoView {
    let app = Oventide::new();
    provide_context(app);
    app.begin();
    let route = app.route;
    Effect::new(move || platform::page::set_title(&words::page_title(&route.read())));
    Effect::new(move |before: Option<Route>| {
        let here = route.get();
        if before.is_some_and(|before| before != here) {
            leptos::task::spawn_local(async {
                // The page that the heading belongs to is drawn first.
                leptos::task::tick().await;
                platform::page::focus_heading();
            });
        }
        here
    });
    let is_bench = Memo::new(move |_| matches!(*route.read(), Route::Bench(_)));
    view! {
        <Standing />
        {live::part(move || match (app.loading.get(), is_bench.get()) {
            (Loading::Opening, _) => ().into_any(),
            (Loading::Ready, true) => view! { <Bench /> }.into_any(),
            (Loading::Ready, false) => {
                view! {
                    <main id="app" class="page">
                        {live::part(move || page(&route.read()))}
                    </main>
                    <Ways />
                }
                    .into_any()
            }
        })}
        <AlarmScreen />
        <ClockQuestion />
    }
}

fn page(route: &Route) -> AnyView {
    match route {
        Route::Today | Route::Bench(_) => view! { <TodayPage /> }.into_any(),
        Route::Formulas => view! { <FormulasPage /> }.into_any(),
        Route::Formula(id) => view! { <FormulaPage id=id.clone() /> }.into_any(),
        Route::Plan => view! { <PlanPage /> }.into_any(),
        Route::Notebook => view! { <NotebookPage /> }.into_any(),
        Route::Note(id) => view! { <NotePage id=id.clone() /> }.into_any(),
        Route::Gather => view! { <GatherPage /> }.into_any(),
        Route::Kitchen => view! { <KitchenPage /> }.into_any(),
    }
}

/// Warnings that stand as long as they are true.
#[component]
fn Standing() -> impl IntoView {
    let app = oventide();
    let unsaved = move || match words::health(&app.health.read()) {
        Some(text) => view! { <p class="standing">{text}</p> }.into_any(),
        None => ().into_any(),
    };
    view! {
        <div role="alert">
            {live::part(unsaved)}
        </div>
    }
}

/// The bar that leads between pages.
#[component]
fn Ways() -> impl IntoView {
    let app = oventide();
    let ways = move || {
        let baking = app.is_baking();
        let bench = baking.then_some(Route::Bench(None));
        [
            Some(Route::Today),
            bench,
            baking.then_some(Route::Plan),
            Some(Route::Formulas),
            Some(Route::Notebook),
            Some(Route::Kitchen),
        ]
        .into_iter()
        .flatten()
        .map(|way| {
            let name = words::way(&way);
            let href = way.href();
            let here = live::attr(move || {
                let route = app.route.read();
                let same = match (&*route, &way) {
                    (Route::Formula(_), Route::Formulas) | (Route::Note(_), Route::Notebook) => {
                        true
                    }
                    (here, way) => here == way,
                };
                same.then_some("page")
            });
            view! { <a href=href aria-current=here>{name}</a> }
        })
        .rows()
        .into_any()
    };
    view! {
        <nav class="ways" aria-label=words::WAYS>
            {live::part(ways)}
        </nav>
    }
}
