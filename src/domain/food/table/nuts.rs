//! Nuts, oily seeds, and pastes of them.

use super::super::Allergen::{Milk as MilkAllergen, Nuts, Peanuts, Sesame};
use super::super::FoodKind::Nut;
use super::{Entry, food};

#[rustfmt::skip]
pub(super) const NUTS: &[Entry] = &[
    // ASSUMPTION: the database has no ground almonds, so this is the row of whole ones.
    food("almonds-ground", "ground almonds", Nut, 12061, &[Nuts]),
    food("almonds", "almonds", Nut, 12061, &[Nuts]),
    food("almonds-flaked", "flaked almonds", Nut, 12061, &[Nuts]),
    food("almonds-blanched", "blanched almonds", Nut, 12062, &[Nuts]),
    food("hazelnuts", "hazelnuts", Nut, 12120, &[Nuts]),
    food("walnuts", "walnuts", Nut, 12155, &[Nuts]),
    food("pecans", "pecans", Nut, 12142, &[Nuts]),
    food("pistachios", "pistachios", Nut, 12151, &[Nuts]),
    food("cashews", "cashews", Nut, 12087, &[Nuts]),
    food("macadamias", "macadamias", Nut, 12131, &[Nuts]),
    food("brazil-nuts", "Brazil nuts", Nut, 12078, &[Nuts]),
    // Neither pine nuts, chestnuts nor coconut are among the nuts of the law.
    food("pine-nuts", "pine nuts", Nut, 12147, &[]),
    food("chestnuts", "roasted chestnuts", Nut, 12167, &[]),
    food("coconut", "desiccated coconut", Nut, 12108, &[]),
    food("peanuts", "peanuts", Nut, 16087, &[Peanuts]),
    food("peanut-butter", "peanut butter", Nut, 16098, &[Peanuts]),
    food("tahini", "tahini", Nut, 12166, &[Sesame]),
    // The database calls it almond paste.
    food("marzipan", "marzipan", Nut, 12071, &[Nuts]),
    food("hazelnut-spread", "hazelnut chocolate spread", Nut, 19125, &[MilkAllergen, Nuts]),
    food("sunflower-seeds", "sunflower seeds", Nut, 12036, &[]),
    food("sesame-seeds", "sesame seeds", Nut, 12023, &[Sesame]),
    food("poppy-seeds", "poppy seeds", Nut, 2033, &[]),
    food("pumpkin-seeds", "pumpkin seeds", Nut, 12014, &[]),
    food("linseed", "linseed", Nut, 12220, &[]),
    food("chia-seeds", "chia seeds", Nut, 12006, &[]),
];
