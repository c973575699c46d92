//! What a food does among the ingredients.

use domain::food::{Food, FoodKind};
use std::fmt;

/// What an ingredient does in a dough or filling, in the coarse terms of a list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// Ground grain.
    Flour,
    /// What is poured: water, milk, cream, juice, beer, coffee.
    Liquid,
    /// Butter and oils.
    Fat,
    /// Sugars, honey, syrups.
    Sugar,
    /// Salt.
    Salt,
    /// Baker's yeast.
    Yeast,
    /// Egg, whole or in part.
    Egg,
    /// Everything else.
    Other,
}

impl fmt::Display for Role {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str(match self {
            Self::Flour => "flour",
            Self::Liquid => "liquid",
            Self::Fat => "fat",
            Self::Sugar => "sugar",
            Self::Salt => "salt",
            Self::Yeast => "yeast",
            Self::Egg => "egg",
            Self::Other => "other",
        })
    }
}

/// Foods of the kind of milk that are spooned and not poured.
const CURDS: &[&str] = &[
    "cottage-cheese",
    "cream-cheese",
    "goat-cheese",
    "mascarpone",
    "mozzarella",
    "quark",
    "ricotta",
];

/// Foods of other kinds that are poured.
const POURED: &[&str] = &[
    "apple-juice",
    "beer",
    "chocolate-milk",
    "cider",
    "coconut-milk",
    "coffee",
    "drink-almond",
    "drink-oat",
    "drink-rice",
    "drink-soya",
    "flower-water",
    "grape-juice",
    "lemon-juice",
    "lime-juice",
    "liqueur",
    "milk-condensed",
    "milk-evaporated",
    "orange-juice",
    "rum",
    "spirits",
    "tea",
    "vinegar",
    "vinegar-cider",
    "wine-red",
    "wine-white",
];

impl Role {
    /// What a food does.
    #[must_use]
    pub fn of(food: &Food) -> Self {
        match food.kind {
            FoodKind::Flour => Self::Flour,
            FoodKind::Water => Self::Liquid,
            FoodKind::Milk if CURDS.contains(&food.key) => Self::Other,
            FoodKind::Milk => Self::Liquid,
            FoodKind::Egg => Self::Egg,
            FoodKind::Fat => Self::Fat,
            FoodKind::Sugar => Self::Sugar,
            FoodKind::Salt => Self::Salt,
            FoodKind::Yeast => Self::Yeast,
            _ if POURED.contains(&food.key) => Self::Liquid,
            _ => Self::Other,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{CURDS, POURED};
    use domain::food::food;

    #[test]
    fn the_lists_name_foods() {
        for key in CURDS.iter().chain(POURED) {
            assert!(food(key).is_some(), "{key}");
        }
    }
}
