//! Weighing the divided pieces: each mass entered or left out, and what to trim or add.

use domain::bake::Intent;
use domain::decimal;
use domain::formula::Checklist;
use domain::units::Grams;
use leptos::prelude::*;

use super::Shown;
use crate::reactive::{Memo, RwSignal};
use crate::widgets::live::{self, Rows};
use crate::words;

/// The pieces of a step that divides.
#[component]
pub(super) fn Weighing(shown: Shown) -> impl IntoView {
    let pieces = Memo::new(move |_| {
        shown
            .with_step(|state, step| {
                let weighs = step.checklist == Some(Checklist::PieceMasses);
                weighs.then_some(state.formula.pieces.count)
            })
            .flatten()
    });
    view! {
        {live::part(move || match pieces.get() {
            None => ().into_any(),
            Some(pieces) => {
                let rows = (0..pieces).map(|piece| view! { <Piece shown=shown piece=piece /> });
                view! { <ul class="marks">{rows.rows()}</ul> }.into_any()
            }
        })}
    }
}

#[component]
fn Piece(shown: Shown, piece: u16) -> impl IntoView {
    let name = words::piece(shown.view.read_untracked().bake.state(), piece);
    let known = Memo::new(move |_| shown.with(|state| state.masses.get(&piece).copied()));
    let advice = live::text(move || {
        let target = shown.with(|state| state.formula.pieces.mass);
        let advice = known.get().map(|mass| words::piece_advice(mass, target));
        advice.unwrap_or_default()
    });
    let problem = RwSignal::new(false);
    let enter = move |event: leptos::ev::Event| {
        let text = event_target_value(&event);
        if text.trim().is_empty() {
            problem.set(false);
            return shown.ask(Intent::RemoveMass(piece));
        }
        let mass = decimal::parse(&text).and_then(|grams| Grams::new(grams).ok());
        problem.set(mass.is_none());
        if let Some(mass) = mass {
            shown.ask(Intent::PieceWeighs(piece, mass));
        }
    };
    let shown_mass = live::text(move || known.get().map(words::bare_mass).unwrap_or_default());
    let id = format!("piece-{piece}");
    // What it is stands over the list and in the field; whoever can't see that hears it with each piece.
    let label = format!("{name}, {}", words::PIECE_MASS);
    view! {
        <li class="piece-row">
            <label class="piece-name" for=id.clone()>
                {name}
            </label>
            <div class="field">
                <input
                    id=id
                    type="text"
                    inputmode="decimal"
                    autocomplete="off"
                    aria-label=label
                    placeholder=words::GRAMS
                    prop:value=shown_mass
                    on:change=enter
                />
                <span class="digits">{advice}</span>
                <span class="field-error" role="status">
                    {live::text(move || if problem.get() { words::MASS_PROBLEM } else { "" })}
                </span>
            </div>
        </li>
    }
}
