//! The drawn plan: columns in which time goes downwards, and a bar for everything.

use domain::decimal::fixed;
use leptos::prelude::*;
use platform::rows::Row;

use super::drawing::{BAR, Drawing, turn, weight};
use crate::reactive::Memo;
use crate::state::oventide;
use crate::state::plan::told::{Lane, Told};
use crate::widgets::live::{self, Rows};
use crate::words::plan as words;

/// What holds the bars.
const FIELD: &str = "plan-bars";

/// The columns.
#[component]
pub(super) fn Lanes(
    told: Memo<Option<Told>>,
    /// Takes the key of the item that was pressed.
    #[prop(into)]
    on_press: Callback<String>,
) -> impl IntoView {
    let app = oventide();
    let drawing = Memo::new(move |_| told.get().map(Drawing::of));
    let heads = move || {
        let told = told.read();
        let lanes = told.iter().flat_map(|told| {
            let lanes = told.lanes.iter();
            lanes.map(move |(lane, name)| (*lane, name.clone(), fixed(weight(told, *lane), 1)))
        });
        lanes
            .map(|(lane, name, weight)| {
                view! {
                    <span
                        data-lane=kind(lane)
                        data-turn=turn(Some(lane))
                        style=("flex-grow", live::text(move || weight.clone()))
                    >
                        {name}
                    </span>
                }
            })
            .rows()
    };
    let height = live::text(move || {
        let drawing = drawing.read();
        let rem = drawing.as_ref().map_or(0.0, Drawing::tall);
        fixed(rem, 2)
    });
    let picture = move |draw: fn(&Drawing, domain::units::Moment) -> String, over: bool| {
        live::part(move || {
            let now = if over {
                app.beat.get()
            } else {
                app.beat.get_untracked()
            };
            let drawing = drawing.read();
            let markup = drawing.as_ref().map(|drawing| draw(drawing, now));
            view! { <div class="plan-picture" inner_html=markup.unwrap_or_default()></div> }
                .into_any()
        })
    };
    let bars = Memo::new(move |_| {
        let drawing = drawing.read();
        drawing.as_ref().map_or_else(Vec::new, Drawing::bars)
    });
    let bar = move |(key, parts): &Row| {
        let told = told.read_untracked();
        let mut entries = told.iter().flat_map(|told| &told.entries);
        let Some(entry) = entries.find(|entry| entry.key == *key) else {
            return ().into_any();
        };
        let [inset, turn, label, hangs, fixed, upright, from, name] = &parts[..] else {
            return ().into_any();
        };
        let inset = inset.clone();
        let pressed = key.clone();
        view! {
            <button
                class="bar"
                type="button"
                style:inset=live::text(move || inset.clone())
                data-key=key.clone()
                data-lane=kind(entry.lane)
                data-turn=turn.clone()
                data-cold=entry.is_cold.to_string()
                data-hangs=hangs.clone()
                data-fixed=fixed.clone()
                data-upright=upright.clone()
                data-from=from.clone()
                aria-label=label.clone()
                on:click=move |_| on_press.run(pressed.clone())
            >
                <span>{name.clone()}</span>
            </button>
        }
        .into_any()
    };
    view! {
        <div class="plan-lanes">
            <div class="plan-heads" aria-hidden="true">
                {live::part(heads)}
            </div>
            <div class="plan-field" style=("--tall", height)>
                {picture(|drawing, _| drawing.behind(), false)}
                <div id=FIELD role="group" aria-label=words::BARS>
                    {live::rows_in_place(FIELD, &BAR, bars, bar)}
                </div>
                {picture(Drawing::over, true)}
            </div>
        </div>
        <details>
            <summary>{words::HOW_TO_READ}</summary>
            <ul class="lines">
                {words::READING.into_iter().map(|line| view! { <li>{line}</li> }).rows()}
            </ul>
        </details>
    }
}

/// What kind of column it is, for its style.
fn kind(lane: Lane) -> &'static str {
    match lane {
        Lane::Hands => "hands",
        Lane::Oven => "oven",
        Lane::Part(..) => "part",
    }
}
