//! What is missing, and what is doubtful; each leads to where it is answered.

use domain::formula::manuscript::Open;
use leptos::prelude::*;

use super::{Desk, Opened};
use crate::reactive::Memo;
use crate::widgets::live::{self, Rows};
use crate::words;

/// What is open.
#[component]
pub(super) fn Questions(desk: Desk) -> impl IntoView {
    let open = Memo::new(move |_| desk.written.read().open());
    let of = move |is_essential: bool| {
        let written = desk.written.read();
        let open = open.read();
        let some = open.iter().filter(|one| one.is_essential() == is_essential);
        some.map(|one| {
            let said = words::open(&written, one);
            match place(one) {
                Some(place) => view! {
                    <li>
                        <button
                            class="card card-button"
                            type="button"
                            on:click=move |_| desk.open(place)
                        >
                            {said}
                        </button>
                    </li>
                }
                .into_any(),
                None => view! { <li class="card">{said}</li> }.into_any(),
            }
        })
        .rows()
    };
    let any = move |is_essential: bool| {
        open.read()
            .iter()
            .any(|one| one.is_essential() == is_essential)
    };
    let missing = move || {
        view! {
            <h2 id="open">{words::TO_ANSWER}</h2>
            <ul class="section">{live::part(move || of(true))}</ul>
        }
        .into_any()
    };
    let doubtful = move || {
        view! {
            <details>
                <summary>{words::TO_LOOK_AT}</summary>
                <ul class="section">{live::part(move || of(false))}</ul>
            </details>
        }
        .into_any()
    };
    view! {
        <section class="section" aria-label=words::TO_ANSWER>
            {live::when(move || any(true), missing)}
            <p role="status">
                {live::text(move || if any(true) { "" } else { words::ALL_ANSWERED })}
            </p>
            {live::when(move || any(false), doubtful)}
        </section>
    }
}

/// Where it is answered; nothing where several places could.
fn place(open: &Open) -> Option<Opened> {
    Some(match open {
        Open::IngredientName(at)
        | Open::HowMuch(at)
        | Open::HowHeavy(at)
        | Open::WhatFood(at)
        | Open::CantBeMeant { at, .. } => Opened::Ingredient(*at),
        Open::Pieces | Open::OtherDough { .. } => Opened::Pieces,
        Open::OvenHeat(step) | Open::Time(step) | Open::Work(step) => Opened::Step(*step),
        Open::Name
        | Open::Doughs(_)
        | Open::HowMuchFlour
        | Open::NoFlour
        | Open::NothingRaises
        | Open::Unusual(_)
        | Open::NoSteps
        | Open::NoBake
        | Open::Broken { .. } => return None,
    })
}
