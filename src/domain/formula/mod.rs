//! What is baked: components with their ingredients, and the steps that turn
//! them into bread.
//!
//! A [`Draft`] is any formula as somebody wrote it. A [`Formula`] is a draft
//! whose parts fit together: every step belongs to a component that exists,
//! follows steps that exist, and never waits, however indirectly, for itself.
//! Everything past the edge of the model works on a [`Formula`].

pub mod bakers;
mod brought;
mod check;
pub mod compose;
mod dose;
pub mod gather;
mod liquid;
pub mod manuscript;
pub mod palette;
mod percent;
mod scale;
mod step;
pub mod usual;

pub use brought::Brings;
pub use check::FormulaError;
pub use scale::{
    Change, EggCount, EggOffer, EggPart, EggRefusal, EggSize, LEAST_DOUGH, LEAST_PIECE, Lid,
    MOST_DOUGH, MOST_LOSS, ScaleError, Size, Tin, Tins, baking_loss,
};
pub use step::{Caution, Checklist, Length, Link, Needs, Scope, Step, StepId, StepKind};

pub use crate::thermal::vessel::Held;

use std::ops::Deref;
use std::sync::Arc;

use crate::food::Food;
use crate::kitchen::Scales;
use crate::sorted;
use crate::thermal::oven::BakeForm;
use crate::units::{Celsius, Grams};

/// The name of a formula that never changes: "plum-almond-buns".
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FormulaId(pub String);

/// The number of a component within its formula, never reused.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ComponentId(pub u16);

/// What the dough is divided into.
#[derive(Debug, Clone, PartialEq)]
pub struct Pieces {
    /// How many.
    pub count: u16,
    /// How heavy each is when divided, before it is filled.
    pub mass: Grams,
    /// What one is called: "bun".
    pub noun: String,
    /// What several are called: "buns".
    pub plural: String,
    /// In what form each bakes.
    pub form: BakeForm,
}

/// What part of the bake a component is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ComponentKind {
    /// Flour, water and yeast, fermented ahead and mixed into the dough.
    Preferment,
    /// The final dough.
    Dough,
    /// What goes inside.
    Filling,
    /// Brushed on before baking.
    Wash,
    /// Brushed on after baking.
    Glaze,
    /// Put on last.
    Coating,
}

/// Where an ingredient waits before it is used, which says how warm it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kept {
    /// On the shelf: as warm as the kitchen.
    Kitchen,
    /// In the fridge until it is used.
    Fridge,
}

/// One thing that is weighed.
#[derive(Debug, Clone, PartialEq)]
pub struct Ingredient {
    /// What it is, with its composition.
    pub food: &'static Food,
    /// What the baker calls it: "strong white flour".
    pub name: String,
    /// How much of it.
    pub mass: Grams,
    /// Where it waits.
    pub kept: Kept,
    /// Whether this is the liquid whose temperature the baker chooses.
    pub tempered: bool,
}

/// A part of the bake with its own ingredients: the dough, the filling, the glaze.
#[derive(Debug, Clone, PartialEq)]
pub struct Component {
    /// Its number within the formula.
    pub id: ComponentId,
    /// What part it plays.
    pub kind: ComponentKind,
    /// What the baker calls it: "almond cream".
    pub name: String,
    /// What goes into it. A preferment that goes into the dough is not listed again in the dough.
    pub ingredients: Vec<Ingredient>,
    /// The temperature at which a dough or preferment should come off the bench.
    pub target: Option<Celsius>,
}

impl Component {
    /// What each ingredient weighs, as these scales can show it.
    #[must_use]
    pub fn amounts(&self, scales: Scales) -> Vec<Grams> {
        scales.shown(self.ingredients.iter().map(|part| part.mass))
    }

    /// The mass of everything in it.
    #[must_use]
    pub fn mass(&self) -> Grams {
        self.ingredients.iter().map(|part| part.mass).sum()
    }

    /// Whether its mass ends up in the divided dough.
    #[must_use]
    pub fn is_dough(&self) -> bool {
        matches!(self.kind, ComponentKind::Dough | ComponentKind::Preferment)
    }
}

/// A formula as somebody wrote it, its parts not yet known to fit.
#[derive(Debug, Clone, PartialEq)]
pub struct Draft {
    /// Its lasting name.
    pub id: FormulaId,
    /// What the baker calls it.
    pub name: String,
    /// One or two sentences about it.
    pub about: String,
    /// What the dough is divided into.
    pub pieces: Pieces,
    /// The dough temperature its fermentation times are written for.
    pub reference: Celsius,
    /// Its parts.
    pub components: Vec<Component>,
    /// Its work, in the order it is usually read.
    pub steps: Vec<Step>,
}

/// A formula whose parts fit together.
///
/// It is shared, not copied: a bake's log, its state and every screen hold the
/// same one, and asking whether it is still the same costs nothing.
#[derive(Debug, Clone)]
pub struct Formula(Arc<Draft>);

impl PartialEq for Formula {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0) || self.0 == other.0
    }
}

impl Deref for Formula {
    type Target = Draft;
    fn deref(&self) -> &Draft {
        &self.0
    }
}

impl Formula {
    /// Takes a draft whose parts fit together.
    ///
    /// # Errors
    /// The first thing found not to fit.
    pub fn new(draft: Draft) -> Result<Self, FormulaError> {
        check::check(&draft)?;
        Ok(Self(Arc::new(draft)))
    }

    /// Gives the draft back, to be changed.
    #[must_use]
    pub fn into_draft(self) -> Draft {
        Arc::unwrap_or_clone(self.0)
    }
}

impl Draft {
    /// The step of that number.
    #[must_use]
    pub fn step(&self, id: StepId) -> Option<&Step> {
        self.steps.iter().find(|step| step.id == id)
    }

    /// What the step of that number is called; nothing where there is none.
    #[must_use]
    pub fn title(&self, id: StepId) -> &str {
        self.step(id).map_or("", |step| &step.title)
    }

    /// The component of that number.
    #[must_use]
    pub fn component(&self, id: ComponentId) -> Option<&Component> {
        self.components.iter().find(|component| component.id == id)
    }

    /// The component a step works on.
    #[must_use]
    pub fn component_of(&self, step: &Step) -> Option<&Component> {
        self.component(step.component)
    }

    /// The final dough.
    #[must_use]
    pub fn dough(&self) -> Option<&Component> {
        self.components
            .iter()
            .find(|component| component.kind == ComponentKind::Dough)
    }

    /// The mass of all that is divided: the dough with its preferments.
    #[must_use]
    pub fn dough_mass(&self) -> Grams {
        self.components
            .iter()
            .filter(|component| component.is_dough())
            .map(Component::mass)
            .sum()
    }

    /// What one piece weighs as it goes into the oven: its dough and its share of the fillings.
    #[must_use]
    pub fn oven_piece(&self) -> Grams {
        let fillings: Grams = self
            .components
            .iter()
            .filter(|component| component.kind == ComponentKind::Filling)
            .map(Component::mass)
            .sum();
        self.pieces.mass + fillings * (1.0 / f64::from(self.pieces.count))
    }

    /// The form of its pieces, where it isn't the one that it was written for.
    #[must_use]
    pub fn other_form(&self) -> Option<BakeForm> {
        let own = self.pieces.form;
        let is_other = |step: &Step| matches!(step.length, Length::Bake { form: Some(written), .. } if written != own);
        self.steps.iter().any(is_other).then_some(own)
    }

    /// What all pieces weigh as they go into the oven.
    #[must_use]
    pub fn oven_load(&self) -> Grams {
        self.oven_piece() * f64::from(self.pieces.count)
    }

    /// Every allergen that any ingredient brings, each once, in the order of the law's list.
    #[must_use]
    pub fn allergens(&self) -> Vec<crate::food::Allergen> {
        let mut found: Vec<_> = self
            .components
            .iter()
            .flat_map(|component| &component.ingredients)
            .flat_map(|part| part.food.allergens.iter().copied())
            .collect();
        sorted::by_key(&mut found, |&allergen| allergen);
        found.dedup();
        found
    }
}
