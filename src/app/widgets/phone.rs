//! What this phone can and can't do for a bake, and what can be done about it.

use leptos::prelude::*;
use leptos::task::spawn_local;
use platform::device::Device;
use platform::notify::{self, Permission};
use platform::wake_lock::WakeState;

use crate::state::oventide;
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
    let lacks = words::lacks(&device)
        .into_iter()
        .map(|lack| view! { <li>{lack}</li> })
        .collect_view();
    view! {
        <ul class="lines">
            <li>{words::stay_open(&device)}</li>
            <li>{wake}</li>
            <li>{move || words::sound(app.sound.get())}</li>
            {lacks}
            <li>{move || words::offline(app.offline_ready.get())}</li>
            <li>{move || app.persistence.get().map(words::persistence)}</li>
        </ul>
    }
}

/// Lets the alarm be heard before it is needed, and asks for notifications.
#[component]
pub(crate) fn TestAlarm() -> impl IntoView {
    let app = oventide();
    let device = Device::detect();
    let permission = RwSignal::new(notify::permission());
    let ask = move |_| {
        spawn_local(async move { permission.set(notify::ask().await) });
    };
    view! {
        <div class="row">
            <button class="button" type="button" on:click=move |_| app.test_alarm()>
                {words::TEST_ALARM}
            </button>
            <Show when=move || permission.get() == Permission::NotAsked>
                <button class="button" type="button" on:click=ask>
                    {words::ASK_NOTIFY}
                </button>
            </Show>
        </div>
        <p role="status">{move || words::notifications(permission.get(), &device)}</p>
    }
}
