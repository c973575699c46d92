//! What could make the baker miss an alarm, as long as it is so.

use leptos::prelude::*;

use crate::state::oventide;
use crate::widgets::live;
use crate::words;

/// A line above the buttons, which it doesn't move as it comes or goes.
#[component]
pub(super) fn Honest() -> impl IntoView {
    let app = oventide();
    let text = live::text(move || words::alarm_could_be_missed(app.sound.get(), &app.awake.read()));
    view! {
        <p class="honest" role="status">
            {text}
        </p>
    }
}
