//! Asks whether something that can't be taken back is meant.

use leptos::prelude::*;

use super::sheet::Sheet;
use crate::reactive::RwSignal;
use crate::words;

/// A sheet with a question, the action, and a way out of it.
#[component]
pub(crate) fn Confirm(
    /// Whether it is asked now.
    open: RwSignal<bool>,
    /// What it is about.
    #[prop(into)]
    title: Signal<String>,
    /// What will happen.
    #[prop(into)]
    text: Signal<String>,
    /// What the button says that does it.
    #[prop(into)]
    action: Signal<String>,
    /// Whether something is lost by it.
    #[prop(default = false)]
    danger: bool,
    /// Does it.
    #[prop(into)]
    on_yes: Callback<()>,
) -> impl IntoView {
    let class = if danger {
        "button button-danger"
    } else {
        "button button-main"
    };
    let yes = move |_| {
        open.set(false);
        on_yes.run(());
    };
    view! {
        <Sheet open=open title=title closes=words::LEAVE_IT>
            <p>{text}</p>
            <div class="sheet-actions">
                <button class=class type="button" on:click=yes>
                    {action}
                </button>
            </div>
        </Sheet>
    }
}
