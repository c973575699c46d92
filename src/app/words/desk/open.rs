//! What a manuscript leaves open, each in a plain sentence.

use domain::decimal::plain;
use domain::formula::StepId;
use domain::formula::manuscript::{At, Manuscript, MassBasis, Open, RestsOn};
use domain::formula::usual::{Measure, Reading};
use domain::units::{BakersPercent, Grams};

use crate::words::quantity::{mass, percent};

/// The heading of what keeps it from being baked.
pub(crate) const TO_ANSWER: &str = "Before it can be baked";
/// The heading of what is doubtful and hinders nothing.
pub(crate) const TO_LOOK_AT: &str = "Worth a look";
/// Nothing keeps it from being baked.
pub(crate) const ALL_ANSWERED: &str = "Nothing is missing. Look it over once, then take it.";

/// What is missing or doubtful, as a sentence.
pub(crate) fn open(manuscript: &Manuscript, open: &Open) -> String {
    let name = |at: &At| ingredient(manuscript, *at);
    match open {
        Open::Name => "What is it called?".to_owned(),
        Open::IngredientName(_) => "An ingredient has no name.".to_owned(),
        Open::HowMuch(at) => format!("How much {}? The text gives no amount.", name(at)),
        Open::HowHeavy(at) => format!(
            "What do \"{}\" of {} weigh?",
            manuscript.ingredient(*at).map_or("", |part| &part.written),
            name(at)
        ),
        Open::WhatFood(at) => format!("What kind of food is {}?", name(at)),
        Open::Doughs(doughs) if doughs.is_empty() => "Which of the parts is the dough?".to_owned(),
        Open::Doughs(_) => "Several parts say that they are the dough; which one is it?".to_owned(),
        Open::HowMuchFlour => {
            "How much flour? The amounts are percentages of it, and its mass is missing.".to_owned()
        }
        Open::NoFlour => {
            "The dough has no flour. Add it, or say which ingredient it is.".to_owned()
        }
        Open::NothingRaises => {
            "Nothing in it raises the dough: no yeast, no starter. Is it meant flat?".to_owned()
        }
        Open::CantBeMeant { at, percent, most } => cant_be_meant(&name(at), *percent, *most),
        Open::Unusual(reading) => unusual(reading),
        Open::Pieces => "How many pieces does it make, or how heavy is each?".to_owned(),
        Open::OtherDough { pieces, dough } => other_dough(*pieces, *dough),
        Open::NoSteps => "It has no steps yet: add at least how it is baked.".to_owned(),
        Open::NoBake => "Nothing in it bakes. Is it cooked on the hob?".to_owned(),
        Open::OvenHeat(step) => format!("How hot is the oven at \"{}\"?", title(manuscript, *step)),
        Open::Time(step) => format!(
            "\"{}\": the text says no time, so a usual one is taken.",
            title(manuscript, *step)
        ),
        Open::Work(step) => format!(
            "\"{}\": what is done there was guessed from its words.",
            title(manuscript, *step)
        ),
        Open::Broken { cause } => format!("The steps don't fit together: {cause}."),
    }
}

fn ingredient(manuscript: &Manuscript, at: At) -> String {
    let part = manuscript.ingredient(at);
    part.map_or(String::new(), |part| part.name.clone())
}

fn title(manuscript: &Manuscript, step: StepId) -> String {
    let line = manuscript.line(step);
    line.map_or(String::new(), |line| line.step.title.clone())
}

fn cant_be_meant(name: &str, found: BakersPercent, most: BakersPercent) -> String {
    format!(
        "{name}: that is {} of the flour, and hardly anything has more than {}. Is a digit too many?",
        percent(found),
        percent(most)
    )
}

fn unusual(reading: &Reading) -> String {
    let what = match reading.measure {
        Measure::Hydration => "Water in all",
        Measure::Sugar => "Sugar",
        Measure::Fat => "Fat",
        Measure::Salt => "Salt",
        Measure::FreshYeast => "Yeast, counted as fresh,",
    };
    let slip = if reading.found < reading.least {
        "is a digit missing?"
    } else {
        "is a digit too many?"
    };
    format!(
        "{what} is {} of the flour; most doughs have {} to {}. Is that meant, or {slip}",
        percent(reading.found),
        percent(reading.least),
        percent(reading.most)
    )
}

fn other_dough(pieces: Grams, dough: Grams) -> String {
    format!(
        "The pieces weigh {} together, and the dough {}. Pieces of the whole dough are taken.",
        mass(pieces),
        mass(dough)
    )
}

/// Where a mass is from, where it wasn't written as one: "2 tbsp, by the published weight".
pub(crate) fn basis(written: &str, basis: &MassBasis) -> String {
    let how = match basis {
        MassBasis::Weighed => return String::new(),
        MassBasis::Middle => "the middle of what is written".to_owned(),
        MassBasis::Percentage(of_flour) => return format!("{} of the flour", percent(*of_flour)),
        MassBasis::Converted {
            rests_on,
            described,
        } => match rests_on {
            RestsOn::Published if described.is_empty() => "by its published weight".to_owned(),
            RestsOn::Published => format!("by its published weight ({described})"),
            RestsOn::Scaled => "by the published weight of another measure".to_owned(),
            RestsOn::Trade => "as it is usually sold".to_owned(),
            RestsOn::Density => "by its density".to_owned(),
            RestsOn::Likened => "by the weight of something like it".to_owned(),
            RestsOn::Assumed => "a usual amount".to_owned(),
        },
    };
    if written.is_empty() {
        how
    } else {
        format!("\"{written}\": {how}")
    }
}

/// "8.5 %": a share of the flour, to a tenth below ten.
pub(crate) fn of_flour(percent: BakersPercent) -> String {
    let digits = if percent.get() < 10.0 { 1 } else { 0 };
    format!("{}\u{a0}%", plain(percent.get(), digits))
}
