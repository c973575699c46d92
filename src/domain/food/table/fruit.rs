//! Fruit: fresh, dried, pressed or preserved.

use super::super::Allergen::{self, Sulphites};
use super::super::FoodKind::Fruit;
use super::{Entry, food};

const fn fruit(key: &'static str, name: &'static str, ndb: u32) -> Entry {
    dried(key, name, ndb, &[])
}

const fn dried(
    key: &'static str,
    name: &'static str,
    ndb: u32,
    allergens: &'static [Allergen],
) -> Entry {
    food(key, name, Fruit, ndb, allergens)
}

#[rustfmt::skip]
pub(super) const FRUIT: &[Entry] = &[
    fruit("apples", "apples", 9004),
    dried("apples-dried", "dried apples", 9011, &[Sulphites]),
    fruit("applesauce", "apple purée", 9019),
    fruit("pears", "pears", 9252),
    fruit("quinces", "quinces", 9296),
    fruit("plums", "plums", 9279),
    fruit("prunes", "dried plums", 9291),
    fruit("apricots", "apricots", 9021),
    // The row is for sulphured apricots.
    dried("apricots-dried", "dried apricots", 9032, &[Sulphites]),
    fruit("peaches", "peaches", 9236),
    fruit("nectarines", "nectarines", 9191),
    fruit("cherries", "cherries", 9070),
    fruit("cherries-sour", "sour cherries", 9063),
    fruit("cherries-dried", "dried sour cherries", 9044),
    // The database calls them maraschino cherries.
    dried("cherries-candied", "candied cherries", 9328, &[Sulphites]),
    fruit("blackberries", "blackberries", 9042),
    fruit("blueberries", "blueberries", 9050),
    fruit("raspberries", "raspberries", 9302),
    fruit("strawberries", "strawberries", 9316),
    fruit("gooseberries", "gooseberries", 9107),
    fruit("redcurrants", "redcurrants", 9084),
    // The database leaves the fibre of fresh blackcurrants blank; ASSUMPTION: they are as redcurrants.
    fruit("blackcurrants", "blackcurrants", 9084),
    fruit("cranberries", "cranberries", 9078),
    fruit("cranberries-dried", "dried cranberries", 9079),
    fruit("rhubarb", "rhubarb", 9307),
    fruit("bananas", "bananas", 9040),
    fruit("pineapple", "pineapple", 9266),
    fruit("mangoes", "mangoes", 9176),
    fruit("grapes", "grapes", 9132),
    fruit("figs", "figs", 9089),
    fruit("figs-dried", "dried figs", 9094),
    fruit("dates", "dates", 9087),
    fruit("raisins", "raisins", 9298),
    // The database calls them golden raisins, which are sulphured.
    dried("sultanas", "sultanas", 9297, &[Sulphites]),
    // The database calls them Zante currants.
    fruit("currants", "currants", 9085),
    // ASSUMPTION: what is sold mixed is raisins for the most part.
    dried("mixed-dried-fruit", "mixed dried fruit", 9298, &[Sulphites]),
    dried("candied-fruit", "candied fruit", 9426, &[Sulphites]),
    dried("candied-peel", "candied peel", 9426, &[Sulphites]),
    fruit("oranges", "oranges", 9200),
    fruit("orange-juice", "orange juice", 9206),
    fruit("orange-peel", "orange peel", 9216),
    fruit("lemons", "lemons", 9150),
    fruit("lemon-juice", "lemon juice", 9152),
    fruit("lemon-peel", "lemon peel", 9156),
    fruit("limes", "limes", 9159),
    fruit("lime-juice", "lime juice", 9160),
    fruit("apple-juice", "apple juice", 9016),
    fruit("grape-juice", "grape juice", 9135),
    // The database has one row for jams and preserves of most fruits.
    fruit("jam", "jam", 19297),
    fruit("plum-jam", "plum jam", 19297),
    fruit("apricot-jam", "apricot jam", 19719),
    fruit("marmalade", "orange marmalade", 19303),
    fruit("jelly", "fruit jelly", 19300),
    // The database has no tinned fruit in general; ASSUMPTION: cherries in syrup stand for it.
    fruit("cherries-tinned", "tinned cherries", 9074),
];
