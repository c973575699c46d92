//! Butter, fats and oils.

use super::super::Allergen::{Milk as MilkAllergen, Nuts, Peanuts, Sesame};
use super::super::FoodKind::Fat;
use super::{Entry, food, with_milk_fat};

#[rustfmt::skip]
pub(super) const FATS: &[Entry] = &[
    with_milk_fat(food("butter", "unsalted butter", Fat, 1145, &[MilkAllergen])),
    with_milk_fat(food("butter-salted", "salted butter", Fat, 1001, &[MilkAllergen])),
    // The database calls it anhydrous butter oil.
    with_milk_fat(food("ghee", "clarified butter", Fat, 1003, &[MilkAllergen])),
    // Some margarines hold milk: read the packet.
    food("margarine", "margarine", Fat, 4610, &[]),
    food("lard", "lard", Fat, 4002, &[]),
    food("shortening", "shortening", Fat, 4031, &[]),
    // The database calls it beef tallow.
    food("suet", "suet", Fat, 4001, &[]),
    food("goose-fat", "goose fat", Fat, 4576, &[]),
    food("coconut-oil", "coconut oil", Fat, 4047, &[]),
    food("cocoa-butter", "cocoa butter", Fat, 4501, &[]),
    food("oil-sunflower", "sunflower oil", Fat, 4506, &[]),
    food("oil-olive", "olive oil", Fat, 4053, &[]),
    // The database calls it canola oil.
    food("oil-rapeseed", "rapeseed oil", Fat, 4582, &[]),
    food("oil-soya", "soya oil", Fat, 4044, &[]),
    food("oil-maize", "maize oil", Fat, 4518, &[]),
    food("oil-groundnut", "groundnut oil", Fat, 4042, &[Peanuts]),
    food("oil-sesame", "sesame oil", Fat, 4058, &[Sesame]),
    food("oil-walnut", "walnut oil", Fat, 4528, &[Nuts]),
    food("oil-linseed", "linseed oil", Fat, 42231, &[]),
];
