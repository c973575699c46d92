//! A ringing alarm, before everything else until it is heard.

use leptos::html;
use leptos::prelude::*;

use crate::reactive::Memo;
use crate::state::oventide;
use crate::widgets::live;
use crate::words;

/// The alarm that has rung longest, over whatever page is open.
#[component]
pub(crate) fn AlarmScreen() -> impl IntoView {
    let app = oventide();
    let first = Memo::new(move |_| {
        let ringing = app.ringing.read();
        ringing.iter().min_by_key(|one| one.alarm.due).cloned()
    });
    let dialog = NodeRef::<html::Dialog>::new();
    Effect::new(move || {
        let rings = first.read().is_some();
        if let Some(dialog) = dialog.get() {
            // Opened as a modal, so that keys and screen readers find nothing else.
            if rings && !dialog.open() {
                // It fails only when the dialog has left the page, and then there is nothing to show.
                drop(dialog.show_modal());
            } else if !rings && dialog.open() {
                dialog.close();
            }
        }
    });
    let stop = move || {
        if let Some(ringing) = first.get_untracked() {
            app.hear(&ringing.bake, ringing.alarm.id);
        }
    };
    let flashes = live::flag(move || app.settings.read().alarm.flashes);
    let title = live::text(move || first.get().map(|one| one.title).unwrap_or_default());
    let body = live::text(move || first.get().map(|one| one.body).unwrap_or_default());
    let overdue = live::text(move || {
        let now = app.now.get();
        let overdue = first.get().map(|one| words::overdue(one.alarm.due, now));
        overdue.unwrap_or_default()
    });
    let whose = live::text(move || {
        let view = first.get().and_then(|one| app.view(&one.bake));
        let name = view.map(|view| view.bake.state().formula.name.clone());
        name.unwrap_or_default()
    });
    view! {
        <dialog
            class="alarm"
            node_ref=dialog
            aria-labelledby="alarm-title"
            data-flash=flashes
            // Escape means "I heard it", as the button does.
            on:cancel=move |event: leptos::ev::Event| {
                event.prevent_default();
                stop();
            }
            // A second Escape or Back closes it whatever the page says; what rings needs its button.
            on:close=move |_| {
                if let Some(dialog) = dialog.get_untracked().filter(|_| first.read_untracked().is_some()) {
                    drop(dialog.show_modal());
                }
            }
        >
            <div class="alarm-body" role="alert">
                <p class="asked-cue">{whose}</p>
                <h2 class="alarm-title" id="alarm-title">
                    {title}
                </h2>
                <p class="alarm-text">{body}</p>
                <p class="alarm-text digits">{overdue}</p>
            </div>
            <button class="act-main" on:click=move |_| stop()>
                {words::ALARM_STOP}
            </button>
        </dialog>
    }
}
