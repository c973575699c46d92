//! Whole eggs: nobody cracks 1.2 of them.

use domain::formula::{EggCount, EggOffer, EggSize, Formula};
use leptos::prelude::*;

use super::Fitting;
use crate::widgets::live::{self, Rows};
use crate::words;

/// What was taken of what is offered: the ingredient, and the number of eggs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Taken {
    pub(super) component: domain::formula::ComponentId,
    pub(super) place: usize,
    pub(super) eggs: u16,
}

/// A formula with the whole eggs that were taken, as long as they are still offered.
pub(super) fn with_whole(formula: Formula, taken: &[Taken]) -> Formula {
    taken.iter().fold(formula, |formula, taken| {
        let offer = offered(&formula, *taken);
        offer.map_or(formula, |offer| offer.formula)
    })
}

fn offered(formula: &Formula, taken: Taken) -> Option<EggOffer> {
    let counts = formula.whole_eggs(EggSize::Large);
    let count = counts
        .into_iter()
        .find(|count| count.component == taken.component && count.place == taken.place)?;
    let offer = count
        .offers
        .into_iter()
        .find(|(eggs, _)| *eggs == taken.eggs)?;
    offer.1.ok()
}

/// The offers of whole eggs.
#[component]
pub(super) fn WholeEggs(fitting: Fitting) -> impl IntoView {
    let offers = move || {
        let formula = fitting.fitted.get();
        let counts = formula.whole_eggs(EggSize::Large);
        let counts = counts.into_iter().filter(|count| !count.offers.is_empty());
        counts.map(|count| offer(fitting, &formula, &count)).rows()
    };
    let back = move || {
        let taken = !fitting.eggs.read().is_empty();
        let back = taken.then(|| {
            view! {
                <button
                    class="button"
                    type="button"
                    on:click=move |_| fitting.eggs.set(Vec::new())
                >
                    {words::EGGS_AS_RECKONED}
                </button>
            }
        });
        back.into_any()
    };
    view! {
        {live::part(offers)}
        {live::part(back)}
    }
}

fn offer(fitting: Fitting, formula: &Formula, count: &EggCount) -> impl IntoView + use<> {
    let (component, place) = (count.component, count.place);
    let buttons = count
        .offers
        .iter()
        .filter_map(|(_, offer)| offer.as_ref().ok())
        .map(|offer| {
            let eggs = offer.eggs;
            let said = words::whole_eggs(formula, count.part, offer);
            let take = move |_| {
                fitting.eggs.update(|taken| {
                    taken.retain(|known| (known.component, known.place) != (component, place));
                    taken.push(Taken {
                        component,
                        place,
                        eggs,
                    });
                });
            };
            view! {
                <button class="button" type="button" on:click=take>
                    {said}
                </button>
            }
        })
        .rows();
    view! {
        <div class="field">
            <p>{words::eggs_now(formula, count)}</p>
            <div class="row">{buttons}</div>
        </div>
    }
}
