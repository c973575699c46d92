//! What this phone can and can't do for a bake, and what can be done about it.

use leptos::prelude::*;
use leptos::task::spawn_local;
use platform::device::Device;
use platform::notify::{self, Permission};
use platform::wake_lock::WakeState;

use crate::reactive::RwSignal;
use crate::state::oventide;
use crate::widgets::live::{self, Rows};
use crate::words;

/// Sound, screen, network and the phone's own limits, each in a sentence.
#[component]
pub(crate) fn PhoneLines() -> impl IntoView {
    let app = oventide();
    let device = Device::detect();
    let wake = move || {
        let state = if device.can_wake_lock {
            app.awake.get()
        } else {
            WakeState::Unsupported
        };
        words::wake(&state)
    };
    let kept = move || app.persistence.get().map_or("", words::persistence);
    let lacks = words::lacks(&device)
        .into_iter()
        .map(|lack| view! { <li>{lack}</li> })
        .rows();
    view! {
        <ul class="lines">
            <li>{words::stay_open(&device)}</li>
            <li>{live::text(wake)}</li>
            <li>{live::text(move || words::sound(app.sound.get()))}</li>
            {lacks}
            <li>{live::text(move || words::offline(app.offline_ready.get()))}</li>
            <li>{live::text(kept)}</li>
            <li>{words::PRIVATE_WINDOW}</li>
        </ul>
    }
}

/// Lets the alarm ring before it is needed, and asks for notifications.
#[component]
pub(crate) fn TestAlarm() -> impl IntoView {
    let app = oventide();
    let device = Device::detect();
    let permission = RwSignal::new(notify::permission());
    let ask = move |_| {
        spawn_local(async move { permission.set(notify::ask().await) });
    };
    let ask_button = move || {
        view! {
            <button class="button" type="button" on:click=ask>
                {words::ASK_NOTIFY}
            </button>
        }
        .into_any()
    };
    view! {
        <div class="row">
            <button class="button" type="button" on:click=move |_| app.test_alarm()>
                {words::TEST_ALARM}
            </button>
            {live::when(move || permission.get() == Permission::NotAsked, ask_button)}
        </div>
        <p role="status">{live::text(move || words::notifications(permission.get(), &device))}</p>
    }
}
