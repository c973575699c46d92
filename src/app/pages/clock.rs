//! The question that a jump of the phone's clock raises while a bake runs.

use leptos::prelude::*;

use crate::reactive::{RwSignal, effect};
use crate::state::oventide;
use crate::widgets::live;
use crate::widgets::sheet::Sheet;
use crate::words;

/// Asked over whatever page is open. Closing it leaves everything as it is.
#[component]
pub(crate) fn ClockQuestion() -> impl IntoView {
    let app = oventide();
    let open = RwSignal::new(false);
    let asked = move || app.clock_jump.get().filter(|jump| !jump.was_set);
    effect(move || open.set(asked().is_some()));
    effect(move || {
        if !open.get() {
            app.clock_was_right();
        }
    });
    let text = live::text(move || {
        let asked = asked().map(|jump| words::clock_jumped(jump.by, jump.unseen));
        asked.unwrap_or_default()
    });
    view! {
        <Sheet open=open title=words::CLOCK_JUMPED closes=words::TIME_PASSED>
            <p>{text}</p>
            <div class="sheet-actions">
                <button class="button button-main" type="button" on:click=move |_| app.clock_was_set()>
                    {words::CLOCK_SET}
                </button>
            </div>
        </Sheet>
    }
}
