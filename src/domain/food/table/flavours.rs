//! Spices, herbs and flavourings.

use super::super::Allergen::{self, Mustard};
use super::super::FoodKind::Spice;
use super::{Entry, food};

const fn spice(key: &'static str, name: &'static str, ndb: u32) -> Entry {
    named(key, name, ndb, &[])
}

const fn named(
    key: &'static str,
    name: &'static str,
    ndb: u32,
    allergens: &'static [Allergen],
) -> Entry {
    food(key, name, Spice, ndb, allergens)
}

#[rustfmt::skip]
pub(super) const FLAVOURS: &[Entry] = &[
    // A third of it is alcohol, which the composition does not count.
    spice("vanilla-extract", "vanilla extract", 2050),
    // ASSUMPTION: orange flower water and rose water are water with a scent.
    spice("flower-water", "flower water", 14429),
    spice("cardamom", "ground cardamom", 2006),
    spice("cinnamon", "ground cinnamon", 2010),
    spice("cloves", "ground cloves", 2011),
    spice("nutmeg", "nutmeg", 2025),
    spice("mace", "mace", 2022),
    spice("allspice", "allspice", 2001),
    spice("ginger", "ground ginger", 2021),
    spice("ginger-fresh", "fresh ginger", 11216),
    spice("aniseed", "aniseed", 2002),
    spice("fennel-seeds", "fennel seeds", 2018),
    spice("caraway", "caraway seeds", 2005),
    spice("coriander-seeds", "coriander seeds", 2013),
    spice("cumin", "cumin seeds", 2014),
    spice("fenugreek", "fenugreek", 2019),
    spice("saffron", "saffron", 2037),
    spice("turmeric", "turmeric", 2043),
    spice("paprika", "ground paprika", 2028),
    spice("chilli-powder", "chilli powder", 2009),
    spice("curry-powder", "curry powder", 2015),
    spice("pepper", "black pepper", 2030),
    spice("pepper-white", "white pepper", 2032),
    named("mustard", "mustard", 2046, &[Mustard]),
    spice("garlic-powder", "garlic powder", 2020),
    spice("rosemary", "fresh rosemary", 2063),
    spice("rosemary-dried", "dried rosemary", 2036),
    spice("thyme", "fresh thyme", 2049),
    spice("thyme-dried", "dried thyme", 2042),
    spice("oregano", "dried oregano", 2027),
    spice("marjoram", "dried marjoram", 2023),
    spice("sage", "ground sage", 2038),
    spice("basil", "fresh basil", 2044),
    spice("basil-dried", "dried basil", 2003),
    spice("mint", "mint", 2065),
    spice("dill", "dill", 2045),
    spice("parsley", "parsley", 11297),
    spice("chives", "chives", 11156),
];
