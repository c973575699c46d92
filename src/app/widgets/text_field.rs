//! A line or some lines of text, kept while they are being written.

use domain::units::{Minutes, minutes};
use leptos::prelude::*;
use platform::clock::{self, Once};
use platform::page;

use super::fresh_id;
use crate::reactive::{Memo, RwSignal, effect};
use crate::widgets::live;

/// How long after the last key what was typed is kept.
const PAUSE: Minutes = minutes(2.0 / 60.0);

/// Some words. What was typed is taken after a short pause, when the field is left, and when the page goes.
#[component]
pub(crate) fn TextField(
    /// What they are about.
    #[prop(into)]
    label: Signal<String>,
    /// What is kept.
    kept: Memo<String>,
    /// Whether there may be several lines.
    #[prop(optional)]
    lines: bool,
    /// Keeps what was written.
    #[prop(into)]
    on_change: Callback<String>,
) -> impl IntoView {
    let field = fresh_id("text");
    let typed = RwSignal::new(kept.get_untracked());
    let sent = RwSignal::new(kept.get_untracked());
    // What comes from elsewhere is shown unless something is being written here.
    effect(move || {
        let kept = kept.get();
        if typed.get_untracked() == sent.get_untracked() && kept != sent.get_untracked() {
            sent.set(kept.clone());
            typed.set(kept);
        }
    });
    let pause = StoredValue::new_local(None::<Once>);
    let keep = move || {
        // A field that goes while it has the focus says so when nothing of this is left.
        if pause.is_disposed() {
            return;
        }
        let typed = typed.get_untracked();
        if typed != sent.get_untracked() {
            sent.set(typed.clone());
            on_change.run(typed);
        }
    };
    StoredValue::new_local(page::on_hide(keep));
    on_cleanup(keep);
    let input = move |event| {
        typed.set(event_target_value(&event));
        pause.set_value(Some(clock::at(clock::now() + PAUSE, keep)));
    };
    let value = live::text(move || typed.get());
    let control = if lines {
        view! {
            <textarea
                id=field.clone()
                prop:value=value
                on:input=input
                on:blur=move |_| keep()
            ></textarea>
        }
        .into_any()
    } else {
        view! {
            <input
                id=field.clone()
                class="text-line"
                autocomplete="off"
                enterkeyhint="done"
                prop:value=value
                on:input=input
                on:change=move |_| keep()
                on:blur=move |_| keep()
            />
        }
        .into_any()
    };
    view! {
        <div class="field">
            <label for=field>{label}</label>
            {control}
        </div>
    }
}
