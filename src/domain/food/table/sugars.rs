//! Sugars, honey and syrups, salt, yeast and starches.

use super::super::Allergen::GlutenCereals;
use super::super::FoodKind::{Salt, Starch, Sugar, Yeast};
use super::{Entry, SALT_SPECIFIC_HEAT, SUGAR_SPECIFIC_HEAT, food, measured};

const fn crystals(key: &'static str, name: &'static str, ndb: u32) -> Entry {
    measured(SUGAR_SPECIFIC_HEAT, food(key, name, Sugar, ndb, &[]))
}

#[rustfmt::skip]
pub(super) const SUGARS: &[Entry] = &[
    crystals("sugar", "sugar", 19335),
    // The next three are the same sucrose in grains of another size, the last with a trace of vanilla.
    crystals("caster-sugar", "caster sugar", 19335),
    crystals("pearl-sugar", "pearl sugar", 19335),
    crystals("vanilla-sugar", "vanilla sugar", 19335),
    crystals("icing-sugar", "icing sugar", 19336),
    crystals("brown-sugar", "brown sugar", 19334),
    crystals("muscovado-sugar", "muscovado sugar", 19334),
    // ASSUMPTION: the database's raw sugar lacks fibre and is made of the same otherwise.
    crystals("demerara-sugar", "demerara sugar", 19335),
    food("maple-sugar", "maple sugar", Sugar, 19340, &[]),
    // ASSUMPTION: dextrose, which the database lacks; it takes up heat as sucrose does, and is as dry.
    crystals("dextrose", "dextrose", 19335),
    food("honey", "honey", Sugar, 19296, &[]),
    food("maple-syrup", "maple syrup", Sugar, 19353, &[]),
    // ASSUMPTION: the database has no golden syrup; light corn syrup has nearly as much sugar.
    food("golden-syrup", "golden syrup", Sugar, 19350, &[]),
    // The database calls it light corn syrup.
    food("glucose-syrup", "glucose syrup", Sugar, 19350, &[]),
    food("agave-syrup", "agave syrup", Sugar, 19912, &[]),
    food("malt-extract", "malt extract", Sugar, 19352, &[GlutenCereals]),
    food("molasses", "molasses", Sugar, 19304, &[]),
    // ASSUMPTION: beet syrup, date syrup and treacle differ less from molasses than molasses do from one another.
    food("dark-syrup", "dark syrup", Sugar, 19304, &[]),
    measured(SALT_SPECIFIC_HEAT, food("salt", "salt", Salt, 2047, &[])),
    food("yeast-fresh", "fresh yeast", Yeast, 18374, &[]),
    food("yeast-active-dry", "active dry yeast", Yeast, 18375, &[]),
    // ASSUMPTION: the database has no instant yeast, so this is the row of active dry yeast.
    food("yeast-instant", "instant yeast", Yeast, 18375, &[]),
    food("cornstarch", "cornstarch", Starch, 20027, &[]),
    // ASSUMPTION: the database has no potato starch, so this is the row of cornstarch; it holds some 8 % more water.
    food("potato-starch", "potato starch", Starch, 20027, &[]),
    // ASSUMPTION: nor wheat starch.
    food("wheat-starch", "wheat starch", Starch, 20027, &[GlutenCereals]),
    food("potato-flour", "potato flour", Starch, 11413, &[]),
    food("arrowroot", "arrowroot", Starch, 20003, &[]),
    food("tapioca", "tapioca", Starch, 20068, &[]),
    // ASSUMPTION: without sugar in it custard powder is cornstarch with colour and vanilla.
    food("custard-powder", "custard powder", Starch, 20027, &[]),
];
