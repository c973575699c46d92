//! A sheet that slides over the page and keeps keys and screen readers inside while it is open.

use leptos::html;
use leptos::prelude::*;

use super::{dialog, fresh_id};
use crate::reactive::{RwSignal, effect};
use crate::widgets::live;
use crate::words;

/// A modal sheet. Escape and its last button close it, and the focus goes back to where it was.
#[component]
pub(crate) fn Sheet(
    /// Whether it is open; closing it sets this back.
    open: RwSignal<bool>,
    /// Its heading.
    #[prop(into)]
    title: Signal<String>,
    /// What the button that closes it says.
    #[prop(default = words::CLOSE)]
    closes: &'static str,
    /// What is in it, drawn anew each time it opens.
    children: ChildrenFn,
) -> impl IntoView {
    let node = NodeRef::<html::Dialog>::new();
    let heading = fresh_id("sheet");
    dialog::keep(node, open.into());
    // What is in it goes only after it has closed: giving the focus back makes the browser lay the page out, and
    // what is no longer shown costs nothing there.
    let drawn = RwSignal::new(open.get_untracked());
    effect(move || {
        if open.get() {
            drawn.set(true);
        }
    });
    let closed = move |_| {
        open.set(false);
        drawn.set(false);
    };
    view! {
        <dialog
            class="sheet"
            node_ref=node
            aria-labelledby=heading.clone()
            on:close=closed
        >
            <div class="sheet-body">
                // The heading takes the focus: an input would bring up the keyboard over the sheet.
                <h2 id=heading.clone() tabindex="-1" autofocus=true>
                    {title}
                </h2>
                {live::when(move || drawn.get(), move || children().into_any())}
            </div>
            // Outside what scrolls, so that the way out stays in sight.
            <div class="sheet-actions sheet-close">
                <button class="button" type="button" on:click=move |_| open.set(false)>
                    {closes}
                </button>
            </div>
        </dialog>
    }
}
