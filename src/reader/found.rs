//! What was found in a text, and what is not sure about it.

use domain::food::household;
use domain::formula::{ComponentKind, StepKind};
use domain::units::Grams;

use crate::foods::Known;
use crate::question::Question;

/// A formula as a text has it. Nothing in it was made up: what the text doesn't say is missing.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Found {
    /// What it is called; empty where the text doesn't say.
    pub name: String,
    /// How many pieces it makes, and what they are called.
    pub makes: Option<Makes>,
    /// Its parts, in the order of the text.
    pub parts: Vec<Part>,
    /// Its steps, in the order of the text.
    pub steps: Vec<Step>,
    /// What the baker has to be asked.
    pub questions: Vec<Question>,
}

impl Found {
    /// Takes away the parts that nothing is listed in; the steps keep theirs.
    pub(crate) fn drop_empty_parts(&mut self) {
        let mut kept = 0;
        let mut places = Vec::with_capacity(self.parts.len());
        for part in &self.parts {
            let stays = !part.ingredients.is_empty();
            places.push(stays.then_some(kept));
            kept += usize::from(stays);
        }
        self.parts.retain(|part| !part.ingredients.is_empty());
        for step in &mut self.steps {
            step.part = step
                .part
                .and_then(|part| places.get(part).copied().flatten());
        }
    }
}

/// How many pieces a text says that it makes.
#[derive(Debug, Clone, PartialEq)]
pub struct Makes {
    /// How many.
    pub count: u16,
    /// What they are called, as it is written: "buns"; empty where it isn't.
    pub noun: String,
}

/// A part with ingredients of its own: the dough, the filling.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// Its heading as it is written; empty where it has none.
    pub name: String,
    /// What part it plays.
    pub kind: ComponentKind,
    /// Whether the heading says so; otherwise it is inferred from what is in it.
    pub kind_is_read: bool,
    /// Its ingredients.
    pub ingredients: Vec<Ingredient>,
}

/// One ingredient as a text has it.
#[derive(Debug, Clone, PartialEq)]
pub struct Ingredient {
    /// Its amount as it is written: "2 1/2 cups (340 g)"; empty where there is none.
    pub amount: String,
    /// Its name as it is written: "strong white flour".
    pub name: String,
    /// What else is written: "sifted, plus a little for the worktop".
    pub note: String,
    /// The food that is meant, where the name tells one.
    pub known: Option<Known>,
    /// What it weighs, where that can be told.
    pub mass: Option<Mass>,
    /// Its share of the flour in per cent, where that is written.
    pub percent: Option<f64>,
}

/// What an ingredient weighs, and where that is from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mass {
    /// The mass.
    pub grams: Grams,
    /// Where it is from.
    pub basis: MassBasis,
}

/// Where a mass is from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MassBasis {
    /// It is written as a mass.
    Written,
    /// The middle of a range of masses that is written.
    Middle,
    /// Converted from a measure or a number of pieces, and how that is known; of several the least sure.
    Converted(household::Basis),
    /// Reckoned from a baker's percentage and the flour.
    Percentage,
}

/// One step as a text has it.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What is written.
    pub text: String,
    /// What is done, inferred from the verbs.
    pub kind: Option<StepKind>,
    /// The part that it stands with, where the text says so: a place in [`Found::parts`].
    pub part: Option<usize>,
    /// How long it takes, in minutes, from the least to the most that is written.
    pub minutes: Option<(f64, f64)>,
    /// The oven's or the dough's temperature.
    pub heat: Option<Heat>,
}

/// A temperature in a step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heat {
    /// In °C.
    pub celsius: f64,
    /// Whether it is for an oven with a fan.
    pub fan: bool,
    /// Whether °C or °F was inferred from the number.
    pub scale_is_inferred: bool,
}
