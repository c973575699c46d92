//! Timers that the baker sets by hand, several at once.

use domain::bake::{Intent, TimerId};
use domain::units::{Minutes, Moment};
use leptos::prelude::*;
use platform::clock::time_of_day;

use super::Shown;
use crate::reactive::{Memo, RwSignal};
use crate::widgets::live::{self, Rows};
use crate::widgets::sheet::Sheet;
use crate::widgets::stepper::Stepper;
use crate::words;

/// The sheet behind the timer's button.
#[component]
pub(super) fn TimersSheet(shown: Shown, open: RwSignal<bool>) -> impl IntoView {
    let name = RwSignal::new(String::new());
    let length = RwSignal::new(10.0);
    let set = move |_| {
        let intent = Intent::SetTimer(
            name.get_untracked(),
            Minutes::clamped(length.get_untracked()),
        );
        shown.ask(intent);
        name.set(String::new());
        open.set(false);
    };
    let text = Signal::derive(move || words::span(Minutes::clamped(length.get())));
    view! {
        <Sheet open=open title=words::TIMERS_TITLE>
            <SetTimers shown=shown open=open />
            <div class="field">
                <label for="timer-name">{words::TIMER_NAME}</label>
                <input
                    id="timer-name"
                    type="text"
                    maxlength="40"
                    autocomplete="off"
                    prop:value=live::text(move || name.get())
                    on:input=move |event| name.set(event_target_value(&event))
                />
            </div>
            <Stepper
                label=words::TIMER_LENGTH
                value=length
                text=text
                step=1.0
                min=1.0
                max=2880.0
                on_change=Callback::new(move |value| length.set(value))
            />
            <div class="sheet-actions">
                <button class="button button-main" on:click=set>
                    {words::TIMER_SET}
                </button>
            </div>
        </Sheet>
    }
}

/// Timers that are set, each to be put away.
#[component]
fn SetTimers(shown: Shown, open: RwSignal<bool>) -> impl IntoView {
    let timers = Memo::new(move |_| {
        shown.with(|state| {
            let timers = state.timers.iter();
            timers
                .map(|(&id, timer)| (id, words::timer_name(&timer.name), timer.due))
                .collect::<Vec<(TimerId, String, Moment)>>()
        })
    });
    view! {
        <ul class="marks">
            {live::part(move || {
                timers
                    .get()
                    .into_iter()
                    .map(|(id, name, due)| {
                        let line = format!("{name}, {}", time_of_day(due));
                        view! {
                            <li class="row row-between">
                                <span class="grow">{line}</span>
                                <button
                                    class="button"
                                    on:click=move |_| {
                                        shown.ask(Intent::StopTimer(id));
                                        // The row goes, and with it the focus: back to the Bench.
                                        open.set(false);
                                    }
                                >
                                    {words::TIMER_STOP}
                                    <span class="visually-hidden">" " {name}</span>
                                </button>
                            </li>
                        }
                    })
                    .rows()
                    .into_any()
            })}
        </ul>
    }
}
