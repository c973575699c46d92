//! One food for each kind, for what a baker names and no table knows.
//!
//! ASSUMPTION, each of them: a typical row of the kind stands for all of it, which is nearer than
//! nothing to hydration and heat, and by up to a quarter off in what it says of water. Their allergens
//! are those of the kind as a whole; a food that nobody knows can hold others.

use super::super::Allergen::{Eggs, GlutenCereals, Milk as MilkAllergen, Nuts};
use super::super::FoodKind::{
    Egg, Fat, Flour, Fruit, Milk, Nut, Other, Salt, Spice, Starch, Sugar, Water, Yeast,
};
use super::{
    Entry, FLOUR_SPECIFIC_HEAT, MILK_SPECIFIC_HEAT, SALT_SPECIFIC_HEAT, SUGAR_SPECIFIC_HEAT, food,
    measured, with_milk_fat,
};

#[rustfmt::skip]
pub(super) const GENERIC: &[Entry] = &[
    // White wheat flour: what most bread is made of.
    measured(FLOUR_SPECIFIC_HEAT, food("some-flour", "flour of some kind", Flour, 20081, &[GlutenCereals])),
    // What is poured and has no other name is water for the most part.
    food("some-liquid", "liquid of some kind", Water, 14429, &[]),
    measured(MILK_SPECIFIC_HEAT, with_milk_fat(food("some-milk", "milk of some kind", Milk, 1077, &[MilkAllergen]))),
    food("some-egg", "egg of some kind", Egg, 1123, &[Eggs]),
    // Oil: any other fat has less fat in it, butter by a fifth.
    food("some-fat", "fat of some kind", Fat, 4506, &[]),
    measured(SUGAR_SPECIFIC_HEAT, food("some-sugar", "sugar of some kind", Sugar, 19335, &[])),
    measured(SALT_SPECIFIC_HEAT, food("some-salt", "salt of some kind", Salt, 2047, &[])),
    // Dry: what comes out of a packet.
    food("some-yeast", "yeast of some kind", Yeast, 18375, &[]),
    // Hazelnuts: halfway between almonds and walnuts in fat.
    food("some-nut", "nuts of some kind", Nut, 12120, &[Nuts]),
    // Apples: as much water as most fresh fruit has; dried fruit has far less.
    food("some-fruit", "fruit of some kind", Fruit, 9003, &[]),
    // Cinnamon: dry as all ground spices are.
    food("some-spice", "spice of some kind", Spice, 2010, &[]),
    food("some-starch", "starch of some kind", Starch, 20027, &[]),
    // Boiled potatoes: as wet as most vegetables and fillings, and without fat.
    food("some-other", "something else", Other, 11367, &[]),
];
