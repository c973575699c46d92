//! The bar at the top: the kitchen's temperature, timers, the table, and the rest.

use leptos::prelude::*;

use super::Shown;
use super::kitchen_sheet::KitchenSheet;
use super::menu::Menu;
use super::timers::TimersSheet;
use crate::reactive::RwSignal;
use crate::route::Route;
use crate::state::states;
use crate::widgets::live::{self, Rows};
use crate::words;

/// The bar.
#[component]
pub(super) fn Bar(shown: Shown) -> impl IntoView {
    let app = shown.app;
    let kitchen_open = RwSignal::new(false);
    let timers_open = RwSignal::new(false);
    let menu_open = RwSignal::new(false);
    let kitchen = live::text(move || {
        let air = shown.with(|state| state.kitchen.air);
        words::kitchen_button(&words::temperature(air, app.settings.read().degrees))
    });
    view! {
        <header class="bench-bar">
            <a class="button" href=Route::Today.href()>
                {words::LEAVE_BENCH}
            </a>
            <button class="button" on:click=move |_| kitchen_open.set(true)>
                {kitchen}
            </button>
            <button class="button" on:click=move |_| timers_open.set(true)>
                {words::TIMERS}
            </button>
            <button class="button" on:click=move |_| menu_open.set(true)>
                {words::MORE}
            </button>
        </header>
        <KitchenSheet shown=shown open=kitchen_open />
        <TimersSheet shown=shown open=timers_open />
        <Menu shown=shown open=menu_open />
    }
}

/// Which bake is shown, where several run.
#[component]
pub(super) fn Whose(shown: Shown) -> impl IntoView {
    let app = shown.app;
    let several = move || app.views.read().len() > 1;
    let bakes = move || {
        let views = app.views.read();
        let states = states(&views);
        // A start stands there only where it tells two apart: with each, three breads would take two rows.
        let names = words::distinct_names(&states);
        views
            .iter()
            .zip(names)
            .map(|(view, name)| {
                let id = view.bake.id.clone();
                let href = Route::Bench(Some(id.clone())).href();
                let full = words::whose(view.bake.state(), &states);
                let here = live::attr(move || (shown.view.read().bake.id == id).then_some("true"));
                view! {
                    <a class="button" href=href aria-current=here aria-label=full>
                        {name}
                    </a>
                }
            })
            .rows()
            .into_any()
    };
    view! {
        <div>
            {live::when(
                several,
                move || {
                    view! {
                        <nav class="bench-whose" aria-label=words::WHOSE>
                            {live::part(bakes)}
                        </nav>
                    }
                        .into_any()
                },
            )}
        </div>
    }
}
