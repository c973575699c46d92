//! A number between two large buttons; it can be typed too.

use leptos::ev::FocusEvent;
use leptos::prelude::*;
use leptos::web_sys::HtmlInputElement;

use super::fresh_id;
use crate::reactive::{Memo, RwSignal, effect};
use crate::widgets::live;
use crate::words;

/// A number that wet hands set in steps and dry hands type.
#[component]
pub(crate) fn Stepper(
    /// What the number is.
    #[prop(into)]
    label: Signal<String>,
    /// The number, in the unit it is shown in.
    #[prop(into)]
    value: Signal<f64>,
    /// The number as it is shown, with its unit.
    #[prop(into)]
    text: Signal<String>,
    /// Whether there is no number yet. Then `value` is what is expected, and where the first press of a button lands.
    #[prop(optional)]
    empty: Signal<bool>,
    /// How much one press changes.
    #[prop(into)]
    step: Signal<f64>,
    /// The least it can be.
    #[prop(into)]
    min: Signal<f64>,
    /// The most it can be.
    #[prop(into)]
    max: Signal<f64>,
    /// Takes a number that lies between the two.
    #[prop(into)]
    on_change: Callback<f64>,
) -> impl IntoView {
    let field = fresh_id("stepper");
    let error_id = format!("{field}-error");
    // What was typed and is no such number: it stays, so that it can be mended.
    let wrong = RwSignal::new(None::<String>);
    // What was asked for and isn't shown yet, because it is being stored: a quick second press goes on from there.
    let asked = RwSignal::new(None::<f64>);
    let is_shown =
        move |wanted: f64, shown: f64| (wanted - shown).abs() < step.get_untracked() / 2.0;
    effect(move || {
        let shown = value.get();
        if asked
            .get_untracked()
            .is_some_and(|asked| is_shown(asked, shown))
        {
            asked.set(None);
        }
    });
    let take = move |wanted: f64| {
        wrong.set(None);
        let wanted = wanted.clamp(min.get_untracked(), max.get_untracked());
        asked.set(Some(wanted).filter(|&wanted| !is_shown(wanted, value.get_untracked())));
        on_change.run(wanted);
    };
    let press = move |direction: f64| {
        if empty.get_untracked() {
            return take(value.get_untracked());
        }
        let step = step.get_untracked();
        // From whatever was typed, the buttons lead back onto whole steps.
        let from = asked
            .get_untracked()
            .unwrap_or_else(|| value.get_untracked());
        let on_step = (from / step).round();
        take((on_step + direction) * step);
    };
    let typed = move |event| {
        let input: HtmlInputElement = event_target(&event);
        let typed = input.value();
        let in_range = |value: &f64| *value >= min.get_untracked() && *value <= max.get_untracked();
        match words::leading_number(&typed).filter(in_range) {
            Some(value) => {
                take(value);
                // The same number as before changes no signal, and its unit has to come back.
                input.set_value(&text.get_untracked());
            }
            None => wrong.set(Some(typed)),
        }
    };
    let select = move |event: FocusEvent| event_target::<HtmlInputElement>(&event).select();
    // Only what differs is shown anew: the rest would wipe out what is being typed.
    let shown = Memo::new(move |_| wrong.get().unwrap_or_else(|| text.get()));
    let is_wrong = move || wrong.read().is_some();
    let error = move || {
        let (min, max) = (min.get(), max.get());
        let error = is_wrong().then(|| view! { <span>{words::number_between(min, max)}</span> });
        error.into_any()
    };
    view! {
        <div class="field">
            <label for=field.clone()>{label}</label>
            <div class="stepper">
                <button
                    class="button"
                    type="button"
                    aria-label=live::attr(move || Some(words::step_down(&label.read())))
                    on:click=move |_| press(-1.0)
                >
                    "−"
                </button>
                <input
                    class="stepper-value digits"
                    id=field
                    inputmode="decimal"
                    autocomplete="off"
                    enterkeyhint="done"
                    placeholder=words::NO_NUMBER
                    aria-invalid=live::attr(move || is_wrong().then_some("true"))
                    aria-describedby=error_id.clone()
                    prop:value=live::text(move || shown.get())
                    on:focus=select
                    on:change=typed
                />
                <button
                    class="button"
                    type="button"
                    aria-label=live::attr(move || Some(words::step_up(&label.read())))
                    on:click=move |_| press(1.0)
                >
                    "+"
                </button>
            </div>
            // A button press changes a number elsewhere, so the new one is said.
            <output class="visually-hidden">{text}</output>
            <p class="field-error" id=error_id role="alert">
                {live::part(error)}
            </p>
        </div>
    }
}
