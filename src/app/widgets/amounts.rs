//! What goes into a component, as the baker's scales show it.

use domain::formula::{Component, Formula};
use domain::kitchen::Scales;
use leptos::prelude::*;

use crate::widgets::live::Rows;
use crate::words;

/// Each ingredient with its mass, rounded for these scales, and its share of the dough's flour.
pub(crate) fn amounts(
    formula: &Formula,
    component: &Component,
    scales: Scales,
) -> impl IntoView + use<> {
    let shown = component.amounts(scales);
    let lines = component
        .ingredients
        .iter()
        .zip(shown)
        .map(|(part, shown)| {
            let share = formula.percent_of_flour(part.mass);
            view! {
                <li class="amount">
                    <span>{words::amount(shown, &scales)}</span>
                    <span>{part.name.clone()}</span>
                    <span class="soft">{words::percent(share)}</span>
                </li>
            }
        })
        .rows();
    view! { <ul class="amounts">{lines}</ul> }
}
