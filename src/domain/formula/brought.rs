//! What the ingredients bring into a dough, and which of them brings it: water from milk, butter,
//! egg and honey, sugar from honey and juice, fat from egg.
//!
//! `percent = Σ mass × share / flour × 100` over the ingredients of the dough and its preferments,
//! with shares from the foods' compositions. Source of the convention: Gisslen, *Professional
//! Baking*, ch. 1; of the shares, USDA SR28 (see [`crate::food`]).
//!
//! Left out: the salt of salted butter, a fiftieth of it, and the spread of foods, of which eggs and
//! butter differ by about two percent of water.

use super::usual::fresh_yeast_per_gram;
use super::{ComponentKind, Draft, Ingredient};
use crate::food::FoodKind;
use crate::units::{BakersPercent, Grams};
use crate::yeast::slowing::Slowing;

/// Something that makes a dough what it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Brings {
    /// Water of everything but the flour.
    Water,
    /// Sugars of everything but the flour.
    Sugar,
    /// Fat of everything.
    Fat,
    /// Egg, whole or in part, as it is weighed.
    Egg,
    /// Added salt.
    Salt,
    /// Yeast, reckoned as fresh.
    FreshYeast,
    /// Flour that is fermented ahead.
    PrefermentedFlour,
}

impl Brings {
    /// All of them, the one that matters most first.
    pub const ALL: [Self; 7] = [
        Self::Water,
        Self::Sugar,
        Self::Fat,
        Self::Egg,
        Self::Salt,
        Self::FreshYeast,
        Self::PrefermentedFlour,
    ];

    /// How much of it an ingredient holds.
    fn held_by(self, part: &Ingredient, of: ComponentKind) -> Grams {
        let kind = part.food.kind;
        let composition = &part.food.composition;
        let whole_if = |is: bool| if is { 1.0 } else { 0.0 };
        let share = match self {
            Self::Water | Self::Sugar if kind == FoodKind::Flour => 0.0,
            Self::Water => composition.water.get(),
            Self::Sugar => composition.sugar.get(),
            Self::Fat => composition.fat.get(),
            Self::Egg => whole_if(kind == FoodKind::Egg),
            Self::Salt => whole_if(kind == FoodKind::Salt),
            Self::FreshYeast if kind == FoodKind::Yeast => fresh_yeast_per_gram(part.food.key),
            Self::FreshYeast => 0.0,
            Self::PrefermentedFlour => {
                whole_if(of == ComponentKind::Preferment && kind == FoodKind::Flour)
            }
        };
        part.mass * share
    }
}

impl Draft {
    /// What slows its yeast: added sugar and honey, and salt.
    #[must_use]
    pub fn slowing(&self) -> Slowing {
        Slowing {
            sugar: self.dough_percent(FoodKind::Sugar),
            salt: self.dough_percent(FoodKind::Salt),
        }
    }

    /// Which ingredients bring it into the dough, in the formula's order and each name once, and how much of the flour that is.
    #[must_use]
    pub fn brought(&self, what: Brings) -> Vec<(&str, BakersPercent)> {
        let mut found: Vec<(&str, BakersPercent)> = Vec::new();
        for component in self.components.iter().filter(|it| it.is_dough()) {
            for part in &component.ingredients {
                let percent = self.percent_of_flour(what.held_by(part, component.kind));
                if percent.get() <= 0.0 {
                    continue;
                }
                match found.iter_mut().find(|(name, _)| *name == part.name) {
                    Some((_, sum)) => *sum += percent,
                    None => found.push((&part.name, percent)),
                }
            }
        }
        found
    }
}
