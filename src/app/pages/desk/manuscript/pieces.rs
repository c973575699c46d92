//! What the dough is divided into.

use domain::formula::manuscript::Edit;
use domain::thermal::oven::BakeForm;
use domain::units::{Celsius, Grams};
use leptos::prelude::*;

use super::{Desk, Opened};
use crate::reactive::{Memo, RwSignal, effect};
use crate::widgets::choices::Choices;
use crate::widgets::live;
use crate::widgets::sheet::Sheet;
use crate::widgets::stepper::Stepper;
use crate::widgets::text_field::TextField;
use crate::words;

/// The sheet of the pieces.
#[component]
pub(super) fn PiecesSheet(desk: Desk) -> impl IntoView {
    let open = RwSignal::new(false);
    let is_chosen = Memo::new(move |_| desk.opened.get() == Some(Opened::Pieces));
    effect(move || open.set(is_chosen.get()));
    effect(move || {
        if !open.get() && is_chosen.get_untracked() {
            desk.opened.set(None);
        }
    });
    view! {
        <Sheet open=open title=words::PIECES>
            <Fields desk=desk />
        </Sheet>
    }
}

#[component]
fn Fields(desk: Desk) -> impl IntoView {
    let pieces = Memo::new(move |_| desk.written.read().pieces.clone());
    let known = move || desk.written.read().known().pieces;
    let count = move || {
        pieces
            .read()
            .count
            .map_or_else(|| f64::from(known().count), f64::from)
    };
    let mass = move || pieces.read().mass.unwrap_or_else(|| known().mass).get();
    let noun = Memo::new(move |_| pieces.read().noun.clone());
    let plural = Memo::new(move |_| pieces.read().plural.clone());
    let degrees = desk.app.settings.read_untracked().degrees;
    let reference = move || {
        let written = desk.written.read();
        written
            .reference
            .unwrap_or(domain::formula::manuscript::USUAL_REFERENCE)
    };
    view! {
        <Stepper
            label=words::HOW_MANY
            value=Signal::derive(count)
            text=live::text(move || words::bare_number(count()))
            empty=Signal::derive(move || pieces.read().count.is_none())
            step=1.0
            min=1.0
            max=200.0
            on_change=move |entered: f64| desk.edit(&Edit::Count(Some(entered.round() as u16)))
        />
        <Stepper
            label=words::MASS_EACH
            value=Signal::derive(mass)
            text=live::text(move || words::whole_grams(mass()))
            empty=Signal::derive(move || pieces.read().mass.is_none())
            step=5.0
            min=1.0
            max=10_000.0
            on_change=move |entered: f64| desk.edit(&Edit::PieceMass(Some(Grams::clamped(entered))))
        />
        <TextField
            label=words::ONE_IS_CALLED
            kept=noun
            on_change=move |noun: String| desk.edit(&Edit::Nouns(noun, plural.get_untracked()))
        />
        <TextField
            label=words::SEVERAL_ARE_CALLED
            kept=plural
            on_change=move |plural: String| desk.edit(&Edit::Nouns(noun.get_untracked(), plural))
        />
        <Choices
            legend=words::FORM
            options=words::FORMS.map(str::to_owned).to_vec()
            chosen=Signal::derive(move || {
                let form = pieces.read().form;
                BakeForm::ALL.iter().position(|&known| known == form)
            })
            on_choose=move |place: usize| desk.edit(&Edit::Form(BakeForm::ALL[place]))
        />
        <Stepper
            label=words::REFERENCE
            value=Signal::derive(move || words::in_degrees(reference(), degrees))
            text=live::text(move || words::temperature(reference(), degrees))
            step=1.0
            min=words::in_degrees(Celsius::clamped(15.0), degrees)
            max=words::in_degrees(Celsius::clamped(35.0), degrees)
            on_change=move |entered: f64| {
                desk.edit(&Edit::Reference(Some(words::from_degrees(entered, degrees))));
            }
        />
    }
}
