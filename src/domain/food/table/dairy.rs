//! Water, milk and what is made of it, and eggs.

use super::super::Allergen::{Eggs, Milk as MilkAllergen};
use super::super::FoodKind::{Egg, Milk, Other, Water};
use super::{Entry, MILK_SPECIFIC_HEAT, food, measured, mixed, with_milk_fat};

const fn dairy(key: &'static str, name: &'static str, ndb: u32) -> Entry {
    with_milk_fat(food(key, name, Milk, ndb, &[MilkAllergen]))
}

/// Dry, or ripened so long that it stands in a kitchen for a day.
const fn keeping(key: &'static str, name: &'static str, ndb: u32) -> Entry {
    with_milk_fat(food(key, name, Other, ndb, &[MilkAllergen]))
}

/// Of 48 % fat, as British law has it (from memory), by butter oil in cream of 36.08 %.
const DOUBLE_CREAM_OIL: f64 = (48.0 - 36.08) / (99.48 - 36.08);

#[rustfmt::skip]
pub(super) const DAIRY: &[Entry] = &[
    food("water", "water", Water, 14429, &[]),
    measured(MILK_SPECIFIC_HEAT, dairy("milk", "whole milk", 1077)),
    dairy("milk-reduced-fat", "reduced-fat milk", 1079),
    dairy("milk-skimmed", "skimmed milk", 1085),
    dairy("milk-goat", "goat's milk", 1106),
    dairy("buttermilk", "buttermilk", 1088),
    // ASSUMPTION: the database has no plain kefir of whole milk; this is whole milk's row, soured.
    dairy("kefir", "kefir", 1077),
    dairy("whey", "whey", 1112),
    // The database calls it heavy whipping cream, 36 % fat.
    dairy("cream", "whipping cream", 1053),
    // The database calls it coffee or table cream, 19 % fat.
    dairy("cream-single", "single cream", 1050),
    dairy("cream-half", "half and half", 1049),
    mixed(DOUBLE_CREAM_OIL, 1003, 1053, dairy("cream-double", "double cream", 1053)),
    dairy("cream-soured", "soured cream", 1056),
    // ASSUMPTION: the database has no crème fraîche; this is the row of sweet cream of as much fat, 31 %.
    dairy("creme-fraiche", "crème fraîche", 1052),
    dairy("yoghurt", "whole-milk yoghurt", 1116),
    dairy("yoghurt-low-fat", "low-fat yoghurt", 1117),
    dairy("yoghurt-greek", "Greek yoghurt", 1293),
    // ASSUMPTION: the database has no skyr; strained yoghurt of skimmed milk is the same to a bread.
    dairy("skyr", "skyr", 1256),
    // ASSUMPTION: the database has no quark; dry curd cottage cheese has as much protein and water.
    dairy("quark", "quark", 1014),
    dairy("cottage-cheese", "cottage cheese", 1012),
    dairy("ricotta", "ricotta", 1036),
    dairy("cream-cheese", "cream cheese", 1017),
    // ASSUMPTION: the database has no mascarpone; cream cheese is its neighbour, a tenth leaner.
    dairy("mascarpone", "mascarpone", 1017),
    dairy("mozzarella", "mozzarella", 1026),
    dairy("goat-cheese", "soft goat's cheese", 1159),
    keeping("feta", "feta", 1019),
    keeping("cheddar", "cheddar", 1009),
    keeping("gruyere", "gruyère", 1023),
    // The database calls it Swiss cheese.
    keeping("emmental", "Emmental", 1040),
    keeping("gouda", "gouda", 1022),
    keeping("parmesan", "grated parmesan", 1032),
    keeping("blue-cheese", "blue cheese", 1004),
    keeping("milk-condensed", "sweetened condensed milk", 1095),
    keeping("milk-evaporated", "evaporated milk", 1096),
    keeping("milk-powder", "whole-milk powder", 1090),
    keeping("milk-powder-skimmed", "skimmed-milk powder", 1091),
    keeping("buttermilk-powder", "buttermilk powder", 1094),
    food("egg", "whole egg", Egg, 1123, &[Eggs]),
    food("egg-yolk", "egg yolk", Egg, 1125, &[Eggs]),
    food("egg-white", "egg white", Egg, 1124, &[Eggs]),
];
