//! The whole app: its state, the standing warnings, the alarm, and the page the baker is on.

use leptos::prelude::*;

use crate::pages::alarm::AlarmScreen;
use crate::pages::clock::ClockQuestion;
use crate::pages::formulas::FormulasPage;
use crate::pages::late::door;
use crate::pages::today::TodayPage;
use crate::reactive::{Memo, effect};
use crate::route::Route;
use crate::state::{Late, Loading, Oventide, oventide};
use crate::widgets::live::{self, Rows};
use crate::words;

/// The whole app.
#[component]
pub(crate) fn App() -> impl IntoView {
    let app = Oventide::new();
    provide_context(app);
    app.begin();
    let route = app.route;
    effect(move || platform::page::set_title(&words::page_title(&route.read())));
    let mut before = None;
    effect(move || {
        let step = Step::after(before.take(), route.get(), app.late.get());
        if step.is_taken {
            leptos::task::spawn_local(async {
                // The page that the heading belongs to is drawn first.
                leptos::task::tick().await;
                platform::page::focus_heading();
            });
        }
        before = Some(step);
    });
    let frame = Memo::new(move |_| Frame::of(app));
    view! {
        <Standing />
        {live::part(move || match frame.get() {
            Frame::Empty => ().into_any(),
            Frame::Bench => door()(&Route::Bench(None)),
            Frame::Page => {
                view! {
                    <main id="app" class="page">
                        {live::part(move || page(app))}
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

/// What surrounds the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Frame {
    /// Nothing yet.
    Empty,
    /// The Bench is all there is to see.
    Bench,
    /// The bar that leads between pages.
    Page,
}

impl Frame {
    fn of(app: Oventide) -> Self {
        let is_bench = matches!(*app.route.read(), Route::Bench(_));
        match app.loading.get() {
            Loading::Opening => Self::Empty,
            Loading::Ready if is_bench && app.late.get() == Late::Here => Self::Bench,
            Loading::Ready => Self::Page,
        }
    }
}

/// A step from page to page.
#[derive(Debug, PartialEq)]
struct Step {
    to: Route,
    /// Whether the baker went there and it isn't drawn yet.
    is_due: bool,
    /// Whether it was drawn just now.
    is_taken: bool,
}

impl Step {
    fn after(before: Option<Self>, to: Route, late: Late) -> Self {
        let went = before.is_some_and(|before| before.is_due || before.to != to);
        let is_drawn = late == Late::Here || !to.is_late();
        Self {
            to,
            is_due: went && !is_drawn,
            is_taken: went && is_drawn,
        }
    }
}

fn page(app: Oventide) -> AnyView {
    let route = app.route.read();
    match &*route {
        Route::Today => view! { <TodayPage /> }.into_any(),
        Route::Formulas => view! { <FormulasPage /> }.into_any(),
        late => late_page(late, app.late.get()),
    }
}

/// A page that can't be drawn before the late half of the app is here.
fn late_page(route: &Route, late: Late) -> AnyView {
    let meanwhile = match (late, route) {
        // It is drawn in a frame of its own.
        (Late::Here, Route::Bench(_)) => return ().into_any(),
        (Late::Here, _) => return door()(route),
        (Late::Coming, _) => words::OPENING,
        (Late::Missing, _) => words::NOT_FETCHED,
    };
    view! { <p role="status">{meanwhile}</p> }.into_any()
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
                    (Route::Formula(_) | Route::Desk | Route::Manuscript(_), Route::Formulas)
                    | (Route::Note(_), Route::Notebook) => true,
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_step_is_taken_once_its_page_is_drawn() {
        let opened = Step::after(None, Route::Kitchen, Late::Coming);
        assert!(!opened.is_due && !opened.is_taken);
        let drawn = Step::after(Some(opened), Route::Kitchen, Late::Here);
        assert!(!drawn.is_taken, "nobody went there");
        let at_once = Step::after(Some(drawn), Route::Today, Late::Missing);
        assert!(at_once.is_taken);
        let waits = Step::after(Some(at_once), Route::Notebook, Late::Missing);
        assert!(waits.is_due && !waits.is_taken);
        let comes = Step::after(Some(waits), Route::Notebook, Late::Here);
        assert!(comes.is_taken);
        assert!(!Step::after(Some(comes), Route::Notebook, Late::Here).is_taken);
    }
}
