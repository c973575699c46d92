//! Vegetables, pulses, meat and fish of fillings and toppings.

use super::super::Allergen::{Celery, Fish, Soybeans};
use super::super::FoodKind::Other;
use super::{Entry, food};

const fn savoury(key: &'static str, name: &'static str, ndb: u32) -> Entry {
    food(key, name, Other, ndb, &[])
}

#[rustfmt::skip]
pub(super) const SAVOURY: &[Entry] = &[
    savoury("potatoes", "boiled potatoes", 11367),
    savoury("potatoes-raw", "raw potatoes", 11352),
    savoury("sweet-potatoes", "sweet potatoes", 11507),
    savoury("pumpkin", "pumpkin", 11422),
    // The database calls it canned pumpkin, without salt.
    savoury("pumpkin-puree", "pumpkin purée", 11424),
    savoury("carrots", "carrots", 11124),
    savoury("beetroot", "beetroot", 11080),
    savoury("courgettes", "courgettes", 11477),
    savoury("onions", "onions", 11282),
    savoury("spring-onions", "spring onions", 11291),
    savoury("leeks", "leeks", 11246),
    savoury("garlic", "garlic", 11215),
    food("celery", "celery", Other, 11143, &[Celery]),
    savoury("cabbage", "cabbage", 11109),
    savoury("sauerkraut", "sauerkraut", 11439),
    savoury("spinach", "spinach", 11457),
    savoury("spinach-frozen", "frozen spinach", 11463),
    savoury("tomatoes", "tomatoes", 11529),
    savoury("tomatoes-dried", "dried tomatoes", 11955),
    savoury("tomato-paste", "tomato paste", 11546),
    savoury("tomato-puree", "sieved tomatoes", 11547),
    savoury("sweet-peppers", "sweet peppers", 11821),
    savoury("chillies", "chillies", 11819),
    savoury("mushrooms", "mushrooms", 11260),
    savoury("sweetcorn", "sweetcorn", 11167),
    savoury("peas", "peas", 11304),
    savoury("aubergines", "aubergines", 11209),
    savoury("avocados", "avocados", 9037),
    savoury("olives", "olives", 9193),
    savoury("olives-green", "green olives", 9195),
    savoury("capers", "capers", 2054),
    food("tofu", "tofu", Other, 16126, &[Soybeans]),
    // Sausages, ham and bacon of many makers hold milk, mustard or celery: read the packet.
    savoury("bacon", "bacon", 10123),
    savoury("ham", "ham", 7029),
    savoury("salami", "salami", 7069),
    savoury("chorizo", "chorizo", 7019),
    food("anchovies", "anchovies", Other, 15002, &[Fish]),
    food("smoked-salmon", "smoked salmon", Other, 15077, &[Fish]),
];
