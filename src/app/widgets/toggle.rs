//! Something that is on or off.

use leptos::prelude::*;

use crate::widgets::live;

/// A large button that stays pressed.
#[component]
pub(crate) fn Toggle(
    /// What is on or off.
    label: &'static str,
    /// Whether it is on.
    #[prop(into)]
    on: Signal<bool>,
    /// Takes what it should be.
    #[prop(into)]
    on_change: Callback<bool>,
) -> impl IntoView {
    view! {
        <button
            class="mark"
            type="button"
            aria-pressed=live::flag(move || on.get())
            on:click=move |_| on_change.run(!on.get_untracked())
        >
            {label}
        </button>
    }
}
