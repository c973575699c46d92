//! The drawn plan: columns in which time goes downwards, and a bar for everything.

use domain::decimal::fixed;
use leptos::prelude::*;

use super::picture::{Drawing, weight};
use crate::reactive::Memo;
use crate::state::oventide;
use crate::state::plan::told::{Entry, Lane, Told};
use crate::widgets::live::{self, Rows};
use crate::words::plan as words;

/// How long names of each size may be, of which the style knows how much room they need.
const SIZES: [(usize, &str); 4] = [(5, "tiny"), (7, "short"), (12, "middle"), (18, "long")];

fn size(title: &str) -> &'static str {
    let letters = title.chars().count();
    let fits = SIZES.iter().find(|&&(most, _)| letters <= most);
    fits.map_or("huge", |&(_, size)| size)
}

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
    let entry = move |key: &str| {
        let told = told.read();
        let mut entries = told.iter().flat_map(|told| &told.entries);
        entries.find(|entry| entry.key == key).cloned()
    };
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
    let keys = move || {
        let told = told.read();
        let entries = told.iter().flat_map(|told| &told.entries);
        let steps = entries.filter(|entry| entry.of.is_some());
        steps.map(|entry| entry.key.clone()).collect()
    };
    let bar = move |key: String| {
        let Some(first) = entry(&key) else {
            return ().into_any();
        };
        let found = key.clone();
        let shown = Memo::new(move |last: Option<&Entry>| {
            let now = entry(&found).or_else(|| last.cloned());
            now.unwrap_or_else(|| first.clone())
        });
        let inset = live::text(move || {
            let drawing = drawing.read();
            let drawing = drawing.as_ref();
            drawing.map_or_else(String::new, |drawing| drawing.inset(&shown.read()))
        });
        view! {
            <button
                class="bar"
                type="button"
                style:inset=inset
                data-lane=live::attr(move || Some(kind(shown.read().lane)))
                data-turn=live::attr(move || Some(turn(shown.read().part)))
                data-hangs=live::flag(move || shown.read().hangs)
                data-fixed=live::flag(move || shown.read().pinned.is_some())
                data-size=live::attr(move || Some(size(&shown.read().title)))
                aria-label=live::attr(move || Some(words::bar(&shown.read())))
                on:click=move |_| on_press.run(key.clone())
            >
                <span>{live::text(move || shown.read().title.clone())}</span>
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
                <div role="group" aria-label=words::BARS>
                    {live::list(keys, bar)}
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

/// Which of several bakes it is, for its style.
fn turn(lane: Option<Lane>) -> &'static str {
    match lane {
        Some(Lane::Part(bake, _)) => ["0", "1", "2"][bake % 3],
        _ => "0",
    }
}
