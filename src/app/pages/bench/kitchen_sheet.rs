//! The kitchen's temperature, with what a change does before it is made.

use domain::kitchen::{COLDEST_AIR, WARMEST_AIR};
use leptos::prelude::*;

use super::{Shown, course};
use crate::reactive::{RwSignal, effect};
use crate::widgets::sheet::Sheet;
use crate::widgets::temperature::TemperatureStepper;
use crate::widgets::{answer, live};
use crate::words;

/// The sheet behind the kitchen's button.
#[component]
pub(super) fn KitchenSheet(shown: Shown, open: RwSignal<bool>) -> impl IntoView {
    let app = shown.app;
    let known = move || shown.with(|state| state.kitchen.air);
    let entered = RwSignal::new(known());
    effect(move || {
        if open.get() {
            entered.set(shown.view.read_untracked().bake.state().kitchen.air);
        }
    });
    let degrees = move || app.settings.read().degrees;
    let text = Signal::derive(move || words::temperature(entered.get(), degrees()));
    let changed = move || entered.get() != known();
    let preview = move || {
        let answer = (open.get_untracked() && changed())
            .then(|| app.if_kitchen_were(entered.get()))
            .flatten();
        answer::told(answer.as_ref(), degrees())
    };
    let set = move |_| {
        app.kitchen_is(entered.get_untracked());
        open.set(false);
    };
    view! {
        <Sheet open=open title=words::KITCHEN_ASKED>
            <TemperatureStepper
                label=words::KITCHEN_TEMPERATURE
                value=entered
                min=COLDEST_AIR
                max=WARMEST_AIR
                on_change=Callback::new(move |value| entered.set(value))
            />
            {course::in_another_kitchen(shown, open, entered)}
            <div role="status">
                {live::part(preview)}
            </div>
            <div class="sheet-actions">
                <button class="button button-main" on:click=set>
                    {live::text(move || words::kitchen_set(&text.get()))}
                </button>
            </div>
        </Sheet>
    }
}
