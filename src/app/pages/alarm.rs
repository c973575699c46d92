//! A ringing alarm, before everything else until it is heard.

use domain::units::Moment;
use leptos::html;
use leptos::prelude::*;
use platform::clock;

use crate::reactive::{Memo, effect};
use crate::state::oventide;
use crate::widgets::{dialog, live};
use crate::words;

/// A press sooner than this after an alarm took another's place was meant for that other.
const UNREAD_MS: i64 = 400;

/// The alarm that has rung longest, over whatever page is open.
#[component]
pub(crate) fn AlarmScreen() -> impl IntoView {
    let app = oventide();
    let first = Memo::new(move |_| {
        let ringing = app.ringing.read();
        ringing.iter().min_by_key(|one| one.alarm.due).cloned()
    });
    let took_over = StoredValue::new(Moment::from_epoch_ms(0));
    let mut before = None;
    effect(move || {
        let shown = first.read();
        let shown = shown.as_ref().map(|one| (one.bake.clone(), one.alarm.id));
        if before.is_some() && before != shown {
            took_over.set_value(clock::now());
        }
        before = shown;
    });
    // While it is asked whether the clock was set, nobody knows yet whether it rings rightly.
    let rings = Memo::new(move |_| first.read().is_some() && app.clock_jump.read().is_none());
    let node = NodeRef::<html::Dialog>::new();
    dialog::keep(node, rings.into());
    let stop = move || {
        let shown_for = clock::now().epoch_ms() - took_over.get_value().epoch_ms();
        if shown_for.abs() < UNREAD_MS {
            return;
        }
        if let Some(ringing) = first.get_untracked() {
            app.hear(ringing);
        }
    };
    let flashes = live::flag(move || app.settings.read().alarm.flashes);
    let title = live::text(move || first.get().map(|one| one.title).unwrap_or_default());
    let body = live::text(move || first.get().map(|one| one.body).unwrap_or_default());
    let overdue = live::text(move || {
        let now = app.now.get();
        let overdue = first.get().map(|one| words::overdue(one.since, now));
        overdue.unwrap_or_default()
    });
    let whose = live::text(move || {
        let first = first.read();
        first
            .as_ref()
            .map_or_else(String::new, |one| one.whose.clone())
    });
    view! {
        <dialog
            class="alarm"
            node_ref=node
            aria-labelledby="alarm-title"
            data-flash=flashes
            // Escape means "I heard it", as the button does.
            on:cancel=move |event: leptos::ev::Event| {
                event.prevent_default();
                stop();
            }
            // A second Escape or Back closes it whatever the page says; what rings needs its button.
            on:close=move |_| {
                if let Some(closed) = node.get_untracked().filter(|_| rings.get_untracked()) {
                    dialog::show(&closed);
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
