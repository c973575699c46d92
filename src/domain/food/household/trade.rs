//! What trade packs hold, and what nobody weighs: common practice, no source.

use super::Household::{self, Cube, Leaf, Packet, Piece, Tablespoon, Teaspoon, Tin};
use super::{Basis, Weighed};
use crate::units::Grams;

/// ASSUMPTION: common practice, a sixteenth of a teaspoon.
pub(super) const PINCH_OF_TEASPOON: f64 = 1.0 / 16.0;
/// ASSUMPTION: judgement, of what has no weight for a spoon, in g.
pub(super) const PINCH_G: f64 = 0.3;
/// ASSUMPTION: common practice, an eighth of a teaspoon.
pub(super) const DASH_OF_TEASPOON: f64 = 1.0 / 8.0;
/// ASSUMPTION: judgement, a tablespoon of butter, in g.
pub(super) const KNOB_G: f64 = 15.0;
/// ASSUMPTION: judgement.
pub(super) const HANDFUL_OF_CUP: f64 = 1.0 / 4.0;
/// ASSUMPTION: judgement, in g.
pub(super) const SPRIG_G: f64 = 2.0;
/// ASSUMPTION: judgement: herbs are sold by about that, in g.
pub(super) const BUNCH_G: f64 = 30.0;

/// Food, measure, and grams of one.
const PACKS: &[(&str, Household, f64)] = &[
    ("baking-powder", Packet, 15.0),
    ("butter", Packet, 250.0),
    ("butter-salted", Packet, 250.0),
    ("coconut-milk", Tin, 400.0),
    ("cream-cheese", Packet, 227.0),
    ("custard-powder", Packet, 37.0),
    ("gelatine", Leaf, 1.7),
    ("milk-condensed", Tin, 397.0),
    ("milk-evaporated", Tin, 354.0),
    ("pumpkin-puree", Tin, 425.0),
    ("some-yeast", Packet, 7.0),
    ("tomatoes", Tin, 400.0),
    ("vanilla-sugar", Packet, 8.0),
    // German cubes hold 42 g, Norwegian packets 50 g, American cakes 17 g.
    ("yeast-fresh", Cube, 42.0),
    ("yeast-fresh", Packet, 42.0),
    ("yeast-instant", Packet, 7.0),
    // A sachet of 7 g is two and a quarter teaspoons.
    ("yeast-instant", Tablespoon, 7.0 / 2.25 * 3.0),
    ("yeast-instant", Teaspoon, 7.0 / 2.25),
];

/// ASSUMPTION: food, and what one fruit has of it: a tablespoon of a lemon's peel, two of an orange's.
const OF_ONE: &[(&str, f64)] = &[("lemon-peel", 6.0), ("orange-peel", 12.0)];

/// What that pack of that food holds.
pub(super) fn of(key: &str, measure: Household) -> Option<Weighed> {
    let of_pack = PACKS
        .iter()
        .find(|(food, pack, _)| *food == key && *pack == measure);
    if let Some(&(.., mass_g)) = of_pack {
        return Some(Weighed {
            mass: Grams::clamped(mass_g),
            basis: Basis::Trade,
        });
    }
    let of_fruit = OF_ONE
        .iter()
        .find(|(food, _)| *food == key && measure == Piece);
    of_fruit.map(|&(_, mass_g)| Weighed {
        mass: Grams::clamped(mass_g),
        basis: Basis::Assumed,
    })
}
