//! A formula that its baker is still writing.
//!
//! Anything may be missing from a [`Manuscript`]. What is missing or doubtful it tells ([`open`](Manuscript::open)),
//! each with its place; when nothing essential is, it becomes a [`Formula`](super::Formula)
//! ([`formula`](Manuscript::formula)). What was converted or inferred says so: a mass by its [`MassBasis`], a step by
//! what of it was [`Assumed`].
//!
//! It changes by [`Edit`]s only that are applied one after the other, so that taking one back is applying all but the
//! last ([`after`](Manuscript::after)). The number of a component or a step is never given again.

mod complete;
mod edit;
mod look;
mod open;
mod settle;

pub use edit::{At, Edit, Refused};
pub use open::Open;

use super::{ComponentId, ComponentKind, FormulaId, Kept, StepId};
use crate::food::{Food, FoodKind};
use crate::thermal::oven::BakeForm;
use crate::units::{BakersPercent, Celsius, Grams, celsius};

/// The dough temperature that times are taken to be written for where nobody says. Common practice, no source: the
/// middle of the 24 to 26 °C that most wheat doughs are mixed to.
pub const USUAL_REFERENCE: Celsius = celsius(25.0);

/// A formula that its baker is still writing.
#[derive(Debug, Clone, PartialEq)]
pub struct Manuscript {
    /// Its lasting name.
    pub id: FormulaId,
    /// What the baker calls it; empty where it has no name yet.
    pub name: String,
    /// One or two sentences about it.
    pub about: String,
    /// What the dough is divided into.
    pub pieces: Pieces,
    /// The dough temperature its times are written for; where it is missing, [`USUAL_REFERENCE`] is assumed.
    pub reference: Option<Celsius>,
    /// Its parts.
    pub components: Vec<Component>,
    /// Its work, in the order in which it is read: whatever a step waits for stands before it.
    pub steps: Vec<Line>,
    /// The greatest number that any component has or had.
    pub last_component: ComponentId,
    /// The greatest number that any step has or had.
    pub last_step: StepId,
}

/// What the dough is divided into. Of count and mass one follows from the other and the dough.
#[derive(Debug, Clone, PartialEq)]
pub struct Pieces {
    /// How many.
    pub count: Option<u16>,
    /// How heavy each is when divided, before it is filled.
    pub mass: Option<Grams>,
    /// What one is called; may be empty.
    pub noun: String,
    /// What several are called; may be empty.
    pub plural: String,
    /// In what form each bakes.
    pub form: BakeForm,
    /// Whether nobody said so.
    pub form_is_assumed: bool,
}

/// A part with ingredients of its own.
#[derive(Debug, Clone, PartialEq)]
pub struct Component {
    /// Its number, never given again.
    pub id: ComponentId,
    /// What part it plays.
    pub kind: ComponentKind,
    /// Whether that was inferred from what is in it.
    pub kind_is_assumed: bool,
    /// What the baker calls it; may be empty.
    pub name: String,
    /// What goes into it.
    pub ingredients: Vec<Ingredient>,
    /// The temperature at which it should come off the bench; of a dough or preferment with a tempered liquid that of
    /// the formula, where it is missing.
    pub target: Option<Celsius>,
}

/// One thing that is weighed, as far as it is known.
#[derive(Debug, Clone, PartialEq)]
pub struct Ingredient {
    /// Its amount as it was typed: "2 1/2 cups (340 g)"; may be empty.
    pub written: String,
    /// What the baker calls it.
    pub name: String,
    /// What else was written: "sifted".
    pub note: String,
    /// The food that is meant.
    pub food: Option<&'static Food>,
    /// Whether that was inferred: by its kind alone, or as what such a name mostly means.
    pub food_is_assumed: bool,
    /// What it weighs.
    pub mass: Option<Grams>,
    /// Where that is from.
    pub basis: MassBasis,
    /// Where it waits.
    pub kept: Kept,
    /// Whether this is the liquid whose temperature the baker chooses.
    pub tempered: bool,
    /// Whether its amount is the baker's affair: "flour for dusting". It then needs no mass, and without one it isn't
    /// in the formula.
    pub as_liked: bool,
}

/// Where a mass is from.
#[derive(Debug, Clone, PartialEq)]
pub enum MassBasis {
    /// It was weighed, and written as a mass.
    Weighed,
    /// The middle of a range of masses that is written.
    Middle,
    /// Converted from a measure or a number of pieces.
    Converted {
        /// How that is known.
        rests_on: RestsOn,
        /// The database's description of what was weighed there: "1 cup, sifted"; may be empty.
        described: String,
    },
    /// Reckoned from this percentage of the flour, and anew when the flour changes.
    Percentage(BakersPercent),
}

/// What a conversion rests on, the surest first ([`household::Basis`](crate::food::household::Basis)).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum RestsOn {
    /// The published weight of that food for this measure.
    Published,
    /// The published weight of that food for another measure of volume.
    Scaled,
    /// What the trade packs, without a source.
    Trade,
    /// Volume by density.
    Density,
    /// The published weight of another food that is like it.
    Likened,
    /// A usual amount of what nobody measures.
    Assumed,
}

/// One step, and what of it was assumed.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// The step.
    pub step: super::Step,
    /// What of it nobody said.
    pub assumed: Assumed,
}

/// What of a step nobody said.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Assumed {
    /// The step itself: no text has it, and the app needs it.
    pub whole: bool,
    /// What is done.
    pub kind: bool,
    /// Which component it works on.
    pub component: bool,
    /// How long it takes.
    pub time: bool,
    /// How hot the oven is.
    pub heat: bool,
}

impl Manuscript {
    /// A manuscript in which nothing stands yet but a dough without ingredients.
    #[must_use]
    pub fn blank(id: &str) -> Self {
        Self {
            id: FormulaId(id.to_owned()),
            name: String::new(),
            about: String::new(),
            pieces: Pieces {
                count: None,
                mass: None,
                noun: String::new(),
                plural: String::new(),
                form: BakeForm::Round,
                form_is_assumed: true,
            },
            reference: None,
            components: vec![Component::blank(
                ComponentId(1),
                ComponentKind::Dough,
                String::new(),
            )],
            steps: Vec::new(),
            last_component: ComponentId(1),
            last_step: StepId(0),
        }
    }
}

impl Component {
    /// A component without ingredients.
    #[must_use]
    pub fn blank(id: ComponentId, kind: ComponentKind, name: String) -> Self {
        Self {
            id,
            kind,
            kind_is_assumed: false,
            name,
            ingredients: Vec::new(),
            target: None,
        }
    }

    /// Whether its mass ends up in the divided dough.
    #[must_use]
    pub fn is_dough(&self) -> bool {
        matches!(self.kind, ComponentKind::Dough | ComponentKind::Preferment)
    }

    /// The foods in it that are known.
    pub fn foods(&self) -> impl Iterator<Item = &'static Food> + '_ {
        self.ingredients.iter().filter_map(|part| part.food)
    }
}

impl Ingredient {
    /// An ingredient of which only the name is known.
    #[must_use]
    pub fn named(name: String) -> Self {
        Self {
            written: String::new(),
            name,
            note: String::new(),
            food: None,
            food_is_assumed: false,
            mass: None,
            basis: MassBasis::Weighed,
            kept: Kept::Kitchen,
            tempered: false,
            as_liked: false,
        }
    }

    /// Whether it is flour.
    #[must_use]
    pub fn is_flour(&self) -> bool {
        self.food.is_some_and(|food| food.kind == FoodKind::Flour)
    }
}

#[cfg(test)]
pub(in crate::formula) mod tests;
