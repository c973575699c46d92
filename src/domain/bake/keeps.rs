//! How many days food that spoils keeps in the fridge.
//!
//! Source: USDA FSIS, cold storage data FMA-Data-v12167, by product number; each is for a fridge that is cold and
//! for food that got there in time. Baked custard, cream or egg within bread has no row of its own: the
//! shortest that comes near it holds. Local food-safety guidance comes first.

use super::perishable::serves;
use super::state::State;
use crate::food::FoodKind;
use crate::formula::{Step, StepKind};

/// What is kept, as far as its days go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kept {
    /// Bread with a filling of milk or egg, or such a filling that nobody cooked: product 201, éclairs filled with dairy.
    Filled,
    /// A cooked filling of milk without egg: product 205, cream pie after it was baked.
    CookedMilk,
    /// A cooked filling with egg: product 24, egg dishes.
    CookedEgg,
    /// Egg without its shell that nobody cooked: product 22, raw whites and yolks.
    RawEgg,
}

impl Kept {
    /// The days in the fridge, from and to.
    #[must_use]
    pub const fn days(self) -> (u8, u8) {
        match self {
            Self::Filled => (2, 3),
            Self::CookedMilk | Self::CookedEgg => (3, 4),
            Self::RawEgg => (2, 4),
        }
    }
}

impl State {
    /// What a step puts away, or serves, that keeps only for days; `None` for every other step.
    #[must_use]
    pub fn kept_after(&self, step: &Step) -> Option<Kept> {
        if serves(step) {
            return Some(Kept::Filled);
        }
        let component = self.formula.component_of(step)?;
        if !step.puts_perishable_away() {
            return None;
        }
        let mut before = self
            .formula
            .steps
            .iter()
            .take_while(|one| one.id != step.id);
        let cooked =
            before.any(|one| one.component == step.component && one.kind == StepKind::Cook);
        let mut parts = component.ingredients.iter();
        let egg = parts.any(|part| part.food.kind == FoodKind::Egg);
        Some(match (cooked, egg) {
            (true, true) => Kept::CookedEgg,
            (true, false) => Kept::CookedMilk,
            (false, true) => Kept::RawEgg,
            (false, false) => Kept::Filled,
        })
    }
}
