//! The steps in their order, and the palette to add from.

use domain::formula::manuscript::{Edit, Line};
use domain::formula::{ComponentId, StepKind};
use leptos::prelude::*;

use super::{Desk, Opened};
use crate::reactive::RwSignal;
use crate::widgets::fresh_id;
use crate::widgets::live::{self, Rows};
use crate::words;

/// The steps.
#[component]
pub(super) fn Steps(desk: Desk) -> impl IntoView {
    let rows = move || {
        let written = desk.written.read();
        written.steps.iter().map(|line| row(desk, line)).rows()
    };
    let is_empty = move || desk.written.read().steps.is_empty();
    let usual = move || {
        view! {
            <p>{words::NO_STEPS_YET}</p>
            <button
                class="button"
                type="button"
                on:click=move |_| desk.edit(&Edit::UsualSteps)
            >
                {words::USUAL_STEPS}
            </button>
        }
        .into_any()
    };
    view! {
        <section class="section" aria-labelledby="steps">
            <h2 id="steps">{words::STEPS}</h2>
            {live::when(is_empty, usual)}
            <ol class="lines">{live::part(rows)}</ol>
            <Palette desk=desk />
        </section>
    }
}

fn row(desk: Desk, line: &Line) -> impl IntoView + use<> {
    let id = line.step.id;
    let assumed = words::assumed(line);
    view! {
        <li>
                        <button
                class="line-button"
                type="button"
                on:click=move |_| desk.open(Opened::Step(id))
            >
                <span>
                    <strong>{words::step_line(&line.step)}</strong>
                    <br />
                    {line.step.instruction.clone()}
                    {assumed
                        .map(|said| {
                            view! {
                                <br />
                                <span class="soft">{said}</span>
                            }
                        })}
                </span>
            </button>
        </li>
    }
}

/// The kinds of steps in the order in which a bread is made, in that of [`words::STEP_KINDS`].
pub(super) const KINDS: [StepKind; 22] = [
    StepKind::Gather,
    StepKind::Mix,
    StepKind::Knead,
    StepKind::TakeTemperature,
    StepKind::Bulk,
    StepKind::Retard,
    StepKind::Divide,
    StepKind::PreShape,
    StepKind::BenchRest,
    StepKind::Shape,
    StepKind::Fill,
    StepKind::FinalProof,
    StepKind::OvenOn,
    StepKind::OvenHeats,
    StepKind::Wash,
    StepKind::Bake,
    StepKind::Cool,
    StepKind::Finish,
    StepKind::Serve,
    StepKind::Cook,
    StepKind::Chill,
    StepKind::Prepare,
];

/// A step of a kind, added at the end or where its kind usually stands.
#[component]
fn Palette(desk: Desk) -> impl IntoView {
    let kind = RwSignal::new(StepKind::Mix);
    let component = RwSignal::new(ComponentId(1));
    let [kind_field, part_field] = ["kind", "part"].map(fresh_id);
    let kinds = words::STEP_KINDS
        .into_iter()
        .enumerate()
        .map(|(place, said)| view! { <option value=place.to_string()>{said}</option> })
        .rows();
    let parts = move || {
        let written = desk.written.read();
        let parts = written.components.iter().map(|one| {
            view! { <option value=one.id.0.to_string()>{words::part_name(one)}</option> }
        });
        parts.rows()
    };
    let add = move |_| {
        let last = desk.now().steps.len();
        desk.edit(&Edit::AddStep(
            kind.get_untracked(),
            component.get_untracked(),
            last,
        ));
    };
    let kind_place = move || {
        KINDS
            .iter()
            .position(|&known| known == kind.get())
            .unwrap_or(0)
    };
    view! {
        <details>
            <summary>{words::ADD_STEP}</summary>
            <div class="field">
                <label for=kind_field.clone()>{words::STEP_KIND}</label>
                <select
                    id=kind_field
                    prop:value=live::text(move || kind_place().to_string())
                    on:change=move |event| {
                        let place = event_target_value(&event).parse::<usize>();
                        if let Some(&chosen) = place.ok().and_then(|place| KINDS.get(place)) {
                            kind.set(chosen);
                        }
                    }
                >
                    {kinds}
                </select>
            </div>
            <div class="field">
                <label for=part_field.clone()>{words::STEP_PART}</label>
                <select
                    id=part_field
                    on:change=move |event| {
                        if let Ok(id) = event_target_value(&event).parse() {
                            component.set(ComponentId(id));
                        }
                    }
                >
                    {live::part(parts)}
                </select>
            </div>
            <button class="button" type="button" on:click=add>
                {words::ADD}
            </button>
        </details>
    }
}
