//! Flours and meals: what baker's percentages are counted from.

use super::super::Allergen::{self, GlutenCereals, Soybeans};
use super::super::FoodKind::Flour;
use super::{Entry, FLOUR_SPECIFIC_HEAT, food, measured, mixed};

const fn flour(
    key: &'static str,
    name: &'static str,
    ndb: u32,
    allergens: &'static [Allergen],
) -> Entry {
    measured(FLOUR_SPECIFIC_HEAT, food(key, name, Flour, ndb, allergens))
}

#[rustfmt::skip]
pub(super) const FLOURS: &[Entry] = &[
    flour("bread-flour", "bread flour", 20083, &[GlutenCereals]),
    flour("all-purpose-flour", "all-purpose flour", 20081, &[GlutenCereals]),
    flour("cake-flour", "cake flour", 20084, &[GlutenCereals]),
    flour("self-raising-flour", "self-raising flour", 20082, &[GlutenCereals]),
    flour("whole-wheat-flour", "whole-wheat flour", 20080, &[GlutenCereals]),
    // ASSUMPTION: flour of medium extraction (German type 1050, French T80 to T110) has no row; its
    // ash is halfway between that of white and of whole flour.
    mixed(0.5, 20083, 20080, flour("high-extraction-flour", "high-extraction wheat flour", 20080, &[GlutenCereals])),
    flour("rye-flour-light", "light rye flour", 20065, &[GlutenCereals]),
    flour("rye-flour-medium", "medium rye flour", 20064, &[GlutenCereals]),
    flour("rye-flour-dark", "dark rye flour", 20063, &[GlutenCereals]),
    // ASSUMPTION: the database has whole spelt only as a grain, and ground it is made of the same.
    flour("spelt-flour-whole", "whole spelt flour", 20140, &[GlutenCereals]),
    // ASSUMPTION: the database has no white spelt flour; spelt is a wheat, so this is the row of white bread flour.
    flour("spelt-flour", "white spelt flour", 20083, &[GlutenCereals]),
    flour("semolina", "semolina", 20066, &[GlutenCereals]),
    // ASSUMPTION: semolina ground once more, which changes nothing that it is made of.
    flour("durum-flour", "durum wheat flour", 20066, &[GlutenCereals]),
    flour("barley-flour", "barley flour", 20130, &[GlutenCereals]),
    flour("malt-flour", "barley malt flour", 20131, &[GlutenCereals]),
    flour("oat-flour", "oat flour", 20132, &[GlutenCereals]),
    flour("rice-flour", "rice flour", 20061, &[]),
    flour("rice-flour-brown", "brown rice flour", 20090, &[]),
    flour("buckwheat-flour", "buckwheat flour", 20011, &[]),
    flour("millet-flour", "millet flour", 20647, &[]),
    // ASSUMPTION: the database has teff only as a grain, and ground it is made of the same.
    flour("teff-flour", "teff flour", 20142, &[]),
    flour("cornmeal", "cornmeal", 20022, &[]),
    flour("corn-flour", "maize flour", 20016, &[]),
    flour("chickpea-flour", "chickpea flour", 16157, &[]),
    flour("soy-flour", "soya flour", 16115, &[Soybeans]),
];
