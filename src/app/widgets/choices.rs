//! One of a few things, each as a large button.

use leptos::prelude::*;

use crate::widgets::live::Rows;

use super::fresh_id;

/// A group of choices of which one holds. They are told apart by their places,
/// so that the group is the same code whatever is chosen from.
#[component]
pub(crate) fn Choices(
    /// What is chosen.
    #[prop(into)]
    legend: String,
    /// What there is to choose from.
    options: Vec<String>,
    /// The place of what holds, if any of them does.
    #[prop(into)]
    chosen: Signal<Option<usize>>,
    /// Takes the place of what is chosen.
    #[prop(into)]
    on_choose: Callback<usize>,
) -> impl IntoView {
    let group = fresh_id("choices");
    let options = options
        .into_iter()
        .enumerate()
        .map(|(place, option)| {
            view! {
                <label>
                    <input
                        class="visually-hidden"
                        type="radio"
                        name=group.clone()
                        prop:checked=Signal::derive(move || chosen.get() == Some(place))
                        on:change=move |_| on_choose.run(place)
                    />
                    <span>{option}</span>
                </label>
            }
        })
        .rows();
    view! {
        <fieldset class="choices">
            <legend>{legend}</legend>
            {options}
        </fieldset>
    }
}
