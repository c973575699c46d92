//! What several formulas take together: what to buy or fetch, and what to set out.
//!
//! Amounts are those that each bake's own scales show, so the list says what will be weighed, and
//! the sum of a line's uses is the line. What is worked with is told by `kit`.

mod kit;

pub use kit::{Kit, Tool, kit};

use super::{Component, Formula};
use crate::food::{Allergen, Food, FoodKind};
use crate::kitchen::Scales;
use crate::sorted;
use crate::units::{Grams, grams};

/// Where in a shop, or at home, a food stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shelf {
    /// Flour, sugar, salt, dried yeast, oils and all else that keeps.
    Dry,
    /// Milk, butter, eggs and fresh yeast.
    Chilled,
    /// Fruit, nuts and spices.
    Fruit,
    /// Water.
    Tap,
}

impl Shelf {
    /// All of them, in the order of a list.
    pub const ALL: [Self; 4] = [Self::Dry, Self::Chilled, Self::Fruit, Self::Tap];

    /// Where a food stands.
    #[must_use]
    pub fn of(food: &Food) -> Self {
        match food.kind {
            FoodKind::Water => Self::Tap,
            FoodKind::Milk | FoodKind::Egg => Self::Chilled,
            FoodKind::Fat if food.milk_fat => Self::Chilled,
            FoodKind::Yeast if food.key == "yeast-fresh" => Self::Chilled,
            FoodKind::Fruit | FoodKind::Nut | FoodKind::Spice => Self::Fruit,
            _ => Self::Dry,
        }
    }
}

/// What a food of a list is for.
#[derive(Debug, Clone, PartialEq)]
pub struct Use<'a> {
    /// The place of its formula among those that are gathered for.
    pub formula: usize,
    /// The component it goes into.
    pub component: &'a Component,
    /// What the formula calls it.
    pub name: &'a str,
    /// How much, as the scales show it.
    pub mass: Grams,
}

/// One food of a list.
#[derive(Debug, Clone, PartialEq)]
pub struct Bought<'a> {
    /// Which.
    pub food: &'static Food,
    /// How much in all: the sum of its uses.
    pub mass: Grams,
    /// What it is for, in the order of the formulas.
    pub uses: Vec<Use<'a>>,
}

/// Large eggs out of their shells, and what is in one.
///
/// Source: USDA SR26, file WEIGHT, NDB 01123, 01124 and 01125, "large".
const EGG: Grams = grams(50.0);
const WHITE: Grams = grams(33.0);
const YOLK: Grams = grams(17.0);

impl Bought<'_> {
    /// What it is called: as the formulas do where they agree, else by its own name.
    #[must_use]
    pub fn name(&self) -> &str {
        let first = self.uses.first().map_or(self.food.name, |first| first.name);
        let agree = self.uses.iter().all(|other| other.name == first);
        if agree { first } else { self.food.name }
    }

    /// How many large eggs it takes, where it is egg or a part of one.
    #[must_use]
    pub fn eggs(&self) -> Option<u32> {
        let each = match self.food.key {
            "egg" => EGG,
            "egg-white" => WHITE,
            "egg-yolk" => YOLK,
            _ => return None,
        };
        // A whisker over so many eggs is so many.
        Some((self.mass / each - 1e-9).ceil() as u32)
    }
}

/// Everything that some formulas take, each food once, by what it does in a dough and then in the order in which they
/// name it.
#[must_use]
pub fn gather<'a>(formulas: &[(&'a Formula, Scales)]) -> Vec<Bought<'a>> {
    let mut list: Vec<Bought> = Vec::new();
    for (place, &(formula, scales)) in formulas.iter().enumerate() {
        for component in &formula.components {
            for (ingredient, mass) in component.ingredients.iter().zip(component.amounts(scales)) {
                let one = Use {
                    formula: place,
                    component,
                    name: &ingredient.name,
                    mass,
                };
                let food = ingredient.food;
                match list.iter_mut().find(|line| line.food.key == food.key) {
                    Some(line) => {
                        line.mass += mass;
                        line.uses.push(one);
                    }
                    None => list.push(Bought {
                        food,
                        mass,
                        uses: vec![one],
                    }),
                }
            }
        }
    }
    sorted::by_key(&mut list, |line| line.food.kind);
    list
}

/// How many large eggs a list takes: yolks and whites come out of the same ones.
#[must_use]
pub fn eggs(list: &[Bought]) -> u32 {
    let of = |key| {
        let mut lines = list.iter().filter(|line| line.food.key == key);
        lines.next().and_then(Bought::eggs).unwrap_or(0)
    };
    of("egg") + of("egg-yolk").max(of("egg-white"))
}

/// What in a list can be an allergy, in the order of the law, each with the places of the foods that bring it.
#[must_use]
pub fn allergens(list: &[Bought]) -> Vec<(Allergen, Vec<usize>)> {
    let bring = |allergen: &Allergen| {
        let lines = list.iter().enumerate();
        let bring = lines.filter(|(_, line)| line.food.allergens.contains(allergen));
        bring.map(|(place, _)| place).collect::<Vec<_>>()
    };
    let all = Allergen::ALL.into_iter();
    let found = all.map(|allergen| (allergen, bring(&allergen)));
    found.filter(|(_, lines)| !lines.is_empty()).collect()
}
