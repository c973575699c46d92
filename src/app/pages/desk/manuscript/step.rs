//! One step: what it is called, what is done, how long it takes, how hot the oven is.

use domain::formula::manuscript::{Edit, Line};
use domain::formula::{Length, StepId};
use domain::units::{Celsius, Minutes};
use leptos::prelude::*;

use super::steps::KINDS;
use super::{Desk, Opened};
use crate::reactive::{Memo, RwSignal, effect};
use crate::widgets::fresh_id;
use crate::widgets::live::{self, Rows};
use crate::widgets::sheet::Sheet;
use crate::widgets::stepper::Stepper;
use crate::widgets::text_field::TextField;
use crate::words;

/// The sheet of one step.
#[component]
pub(super) fn StepSheet(desk: Desk) -> impl IntoView {
    let open = RwSignal::new(false);
    let id = Memo::new(move |_| match desk.opened.get() {
        Some(Opened::Step(id)) => Some(id),
        _ => None,
    });
    effect(move || open.set(id.get().is_some()));
    effect(move || {
        if !open.get() && id.get_untracked().is_some() {
            desk.opened.set(None);
        }
    });
    let body = move || match id.get() {
        Some(id) => view! { <Fields desk=desk id=id /> }.into_any(),
        None => ().into_any(),
    };
    view! {
        <Sheet open=open title=words::STEP>
            {live::part(body)}
        </Sheet>
    }
}

#[component]
fn Fields(desk: Desk, id: StepId) -> impl IntoView {
    let line = Memo::new(move |last: Option<&Option<Line>>| {
        let found = desk.written.read().line(id).cloned();
        found.or_else(|| last.cloned().flatten())
    });
    let of = move |pick: fn(&Line) -> String| {
        Memo::new(move |_| line.read().as_ref().map(pick).unwrap_or_default())
    };
    let field = fresh_id("kind");
    let kinds = words::STEP_KINDS
        .into_iter()
        .enumerate()
        .map(|(place, said)| view! { <option value=place.to_string()>{said}</option> })
        .rows();
    let kind = move || {
        let kind = line.read().as_ref().map(|line| line.step.kind);
        let place = kind.and_then(|kind| KINDS.iter().position(|&known| known == kind));
        place.unwrap_or(0).to_string()
    };
    let assumed = move || {
        line.read()
            .as_ref()
            .and_then(words::assumed)
            .unwrap_or_default()
    };
    view! {
        <p class="soft">{live::text(assumed)}</p>
        <TextField
            label=words::STEP_TITLE
            kept=of(|line| line.step.title.clone())
            on_change=move |title: String| desk.edit(&Edit::Title(id, title))
        />
        <div class="field">
            <label for=field.clone()>{words::STEP_KIND}</label>
            <select
                id=field
                prop:value=live::text(kind)
                on:change=move |event| {
                    let place = event_target_value(&event).parse::<usize>();
                    if let Some(&chosen) = place.ok().and_then(|place| KINDS.get(place)) {
                        desk.edit(&Edit::StepKind(id, chosen));
                    }
                }
            >
                {kinds}
            </select>
        </div>
        <Times desk=desk id=id line=line />
        <Heat desk=desk id=id line=line />
        <TextField
            label=words::STEP_INSTRUCTION
            kept=of(|line| line.step.instruction.clone())
            on_change=move |said: String| desk.edit(&Edit::Instruction(id, said))
        />
        <TextField
            label=words::STEP_DETAIL
            lines=true
            kept=of(|line| line.step.detail.clone())
            on_change=move |said: String| desk.edit(&Edit::Detail(id, said))
        />
        <TextField
            label=words::STEP_CUE
            kept=of(|line| line.step.cue.clone())
            on_change=move |said: String| desk.edit(&Edit::Cue(id, said))
        />
        <Away desk=desk id=id />
    }
}

/// The times that a step's length has, in minutes from the least to the most.
fn range(line: &Line) -> Option<(f64, f64)> {
    match &line.step.length {
        Length::Hands(range) | Length::Wait(range) | Length::Bake { range, .. } => {
            Some((range.low().get(), range.high().get()))
        }
        Length::Ferment {
            reference_minutes, ..
        } => Some((
            reference_minutes.low().get(),
            reference_minutes.high().get(),
        )),
        Length::Chill { .. } | Length::Cool { .. } | Length::OvenHeats { .. } => None,
    }
}

#[component]
fn Times(desk: Desk, id: StepId, line: Memo<Option<Line>>) -> impl IntoView {
    let times = move || line.read().as_ref().and_then(range);
    let fields = move || {
        let field = |label: &'static str, is_low: bool| {
            let value = move || {
                let (low, high) = times().unwrap_or_default();
                if is_low { low } else { high }
            };
            let change = move |entered: f64| {
                let (low, high) = times().unwrap_or_default();
                // The other end gives way, so that either can be set first.
                let (low, high) = if is_low {
                    (entered, high.max(entered))
                } else {
                    (low.min(entered), entered)
                };
                desk.edit(&Edit::Time(
                    id,
                    Minutes::clamped(low),
                    Minutes::clamped(high),
                ));
            };
            view! {
                <Stepper
                    label=label
                    value=Signal::derive(value)
                    text=live::text(move || words::whole_minutes(value()))
                    step=Signal::derive(move || if value() < 20.0 { 1.0 } else { 5.0 })
                    min=1.0
                    max=2880.0
                    on_change=change
                />
            }
        };
        view! {
            {field(words::AT_LEAST, true)}
            {field(words::AT_MOST, false)}
        }
        .into_any()
    };
    live::when(move || times().is_some(), fields)
}

#[component]
fn Heat(desk: Desk, id: StepId, line: Memo<Option<Line>>) -> impl IntoView {
    let degrees = desk.app.settings.read_untracked().degrees;
    let oven = move || {
        line.read()
            .as_ref()
            .and_then(|line| match line.step.length {
                Length::Bake { oven, .. } | Length::OvenHeats { oven } => Some(oven),
                _ => None,
            })
    };
    let shown = move || oven().unwrap_or(Celsius::clamped(0.0));
    let field = move || {
        view! {
            <Stepper
                label=words::OVEN_WITHOUT_FAN
                value=Signal::derive(move || words::in_degrees(shown(), degrees))
                text=live::text(move || words::temperature(shown(), degrees))
                step=5.0
                min=words::in_degrees(Celsius::clamped(50.0), degrees)
                max=words::in_degrees(Celsius::clamped(300.0), degrees)
                on_change=move |entered: f64| {
                    desk.edit(&Edit::Heat(id, words::from_degrees(entered, degrees)));
                }
            />
        }
        .into_any()
    };
    live::when(move || oven().is_some(), field)
}

/// To another place, or away with it.
#[component]
fn Away(desk: Desk, id: StepId) -> impl IntoView {
    let moved = move |by: isize| {
        let place = desk.now().steps.iter().position(|line| line.step.id == id);
        if let Some(to) = place.and_then(|place| place.checked_add_signed(by)) {
            desk.edit(&Edit::MoveStep(id, to));
        }
    };
    let remove = move |_| {
        desk.opened.set(None);
        desk.edit(&Edit::RemoveStep(id));
    };
    view! {
        <div class="row">
            <button class="button" type="button" on:click=move |_| moved(-1)>
                {words::MOVE_UP}
            </button>
            <button class="button" type="button" on:click=move |_| moved(1)>
                {words::MOVE_DOWN}
            </button>
            <button class="button button-danger" type="button" on:click=remove>
                {words::REMOVE}
            </button>
        </div>
    }
}
