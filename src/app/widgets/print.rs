//! Puts the page on paper.

use leptos::prelude::*;
use platform::print;

use crate::reactive::RwSignal;
use crate::state::oventide;
use crate::widgets::live;
use crate::words;

/// A button that prints the page, for a row of others; `failed` takes whether there was no way to.
#[component]
pub(crate) fn PrintButton(
    /// Takes whether there was no way to.
    failed: RwSignal<bool>,
) -> impl IntoView {
    view! {
        <button class="button" type="button" on:click=move |_| failed.set(!print::print())>
            {words::PRINT}
        </button>
    }
}

/// When the page was made, on paper only.
#[component]
pub(crate) fn MadeAt() -> impl IntoView {
    let app = oventide();
    view! { <p class="print-only">{live::text(move || words::made_at(app.beat.get()))}</p> }
}
