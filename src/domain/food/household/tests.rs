use super::super::{all, food};
use super::Basis::{Assumed, Density, Likened, Published, Scaled, Trade};
use super::Household::{
    self, Clove, Cube, Cup, Dash, FluidOunce, Handful, Knob, Leaf, Millilitre, Packet, Piece,
    Pinch, Slice, Stick, Tablespoon, Teaspoon, Tin,
};
use super::{Basis, weighs};

fn weight(key: &str, measure: Household, said: &str) -> Option<(f64, Basis)> {
    let food = food(key).unwrap_or_else(|| panic!("{key} is in the table"));
    let found = weighs(food, measure, said)?;
    Some((found.mass.get(), found.basis))
}

/// USDA SR26, file WEIGHT, row by row.
#[test]
fn the_published_weight_is_that_of_what_was_said() {
    for (key, measure, said, expected_g) in [
        ("bread-flour", Cup, "strong white flour", 137.0),
        ("all-purpose-flour", Cup, "flour", 125.0),
        ("icing-sugar", Cup, "icing sugar, sifted", 100.0),
        ("icing-sugar", Cup, "icing sugar", 120.0),
        ("icing-sugar", Cup, "Puderzucker, gesiebt", 100.0),
        ("brown-sugar", Cup, "brown sugar", 220.0),
        ("brown-sugar", Cup, "loose brown sugar", 145.0),
        ("brown-sugar", Teaspoon, "brown sugar", 4.6),
        ("almonds-ground", Cup, "gemahlene Mandeln", 95.0),
        ("almonds", Cup, "whole almonds", 143.0),
        ("almonds", Cup, "almendras laminadas", 92.0),
        ("hazelnuts", Cup, "gehackte Haselnüsse", 115.0),
        ("walnuts", Cup, "noix moulues", 80.0),
        ("cream", Cup, "cream", 238.0),
        ("raisins", Cup, "raisins", 145.0),
        ("raisins", Cup, "packed raisins", 165.0),
        ("cherries", Cup, "cherries without pits", 154.0),
        ("egg", Piece, "eggs", 50.0),
        ("egg", Piece, "huevos grandes", 50.0),
        ("egg", Piece, "mittelgroße Eier", 44.0),
        ("egg", Piece, "Eier (Größe M)", 44.0),
        ("egg", Piece, "oeufs moyens", 44.0),
        ("egg", Piece, "små egg", 38.0),
        ("egg", Piece, "extra large egg", 56.0),
        ("egg-yolk", Piece, "Eigelb", 17.0),
        ("egg-white", Piece, "egg whites", 33.0),
        ("apples", Piece, "apples", 161.0),
        ("apples", Piece, "große Äpfel", 216.0),
        ("bananas", Piece, "ripe bananas", 118.0),
        ("bananas", Cup, "mashed banana", 225.0),
        ("onions", Piece, "onion", 110.0),
        ("tomatoes", Piece, "tomato", 123.0),
        ("tomatoes", Piece, "cherry tomatoes", 17.0),
        ("leeks", Piece, "leeks, finely sliced", 89.0),
        ("garlic", Clove, "garlic", 3.0),
        ("lemon-juice", Piece, "juice of a lemon", 48.0),
        ("butter", Stick, "butter", 113.0),
        ("butter", Tablespoon, "butter", 14.2),
        ("bread", Slice, "stale bread", 28.0),
        ("yeast-active-dry", Teaspoon, "active dry yeast", 4.0),
        ("yeast-active-dry", Packet, "yeast", 7.2),
        ("gelatine", Packet, "gelatine", 7.0),
        ("sugar", Cube, "sugar", 2.3),
        ("salt", Dash, "salt", 0.4),
        ("milk", FluidOunce, "milk", 30.5),
        ("spinach", Household::Bunch, "spinach", 340.0),
        ("basil", Leaf, "basil", 0.5),
    ] {
        let (got, basis) = weight(key, measure, said).expect("it is published");
        assert!(
            (got - expected_g).abs() < 1e-9,
            "{said}: {got} instead of {expected_g}"
        );
        assert!(matches!(basis, Published(_)), "{said}: {basis:?}");
    }
}

/// The same source; a cup is 16 tablespoons of 3 teaspoons, and 236.588 mL.
#[test]
fn a_measure_that_nobody_weighed_is_scaled() {
    for (key, measure, said, expected_g) in [
        ("all-purpose-flour", Tablespoon, "flour", 125.0 / 16.0),
        ("bread-flour", Teaspoon, "flour", 137.0 / 48.0),
        ("butter", Teaspoon, "butter", 14.2 / 3.0),
        ("sugar", Tablespoon, "sugar", 12.6),
        ("brown-sugar", Tablespoon, "brown sugar", 13.8),
        ("molasses", Tablespoon, "molasses", 337.0 / 16.0),
        ("milk", Millilitre, "milk", 244.0 / 236.588_236_5),
        ("water", Millilitre, "lukewarm water", 237.0 / 236.588_236_5),
        ("oil-olive", Millilitre, "olive oil", 216.0 / 236.588_236_5),
        ("pumpkin-seeds", Tablespoon, "Kürbiskerne", 129.0 / 16.0),
        ("cocoa", Teaspoon, "cocoa", 5.4 / 3.0),
        ("cinnamon", Millilitre, "cinnamon", 7.8 / 14.786_764_8),
    ] {
        let (got, basis) = weight(key, measure, said).expect("it can be scaled");
        assert!(
            (got - expected_g).abs() < 1e-6,
            "{said}: {got} instead of {expected_g}"
        );
        assert!(matches!(basis, Scaled(_)), "{said}: {basis:?}");
    }
}

/// Common practice, no source: a sachet of dried yeast holds 7 g and is 2¼ teaspoons, a German cube of
/// fresh yeast 42 g, a sachet of baking powder 15 to 16 g, one of vanilla sugar 8 g.
#[test]
fn packs_are_as_the_trade_packs_them() {
    for (key, measure, low_g, high_g) in [
        ("yeast-instant", Packet, 7.0, 7.2),
        ("yeast-instant", Teaspoon, 3.1, 4.0),
        ("yeast-instant", Tablespoon, 9.3, 9.4),
        ("some-yeast", Packet, 7.0, 7.2),
        ("yeast-fresh", Cube, 42.0, 42.0),
        ("baking-powder", Packet, 15.0, 16.0),
        ("vanilla-sugar", Packet, 8.0, 8.0),
        ("milk-condensed", Tin, 397.0, 397.0),
    ] {
        let (got, basis) = weight(key, measure, "").expect("the trade packs it");
        assert!((low_g..=high_g).contains(&got), "{key}: {got}");
        assert_eq!(basis, Trade, "{key}");
    }
}

#[test]
fn what_is_like_another_or_guessed_says_so() {
    let spelt = weight("spelt-flour", Cup, "spelt flour").expect("as wheat");
    assert_eq!(spelt, (125.0, Likened("cup")));
    let some = weight("some-flour", Cup, "amaranth flour").expect("as wheat");
    assert_eq!(some, (125.0, Likened("cup")));
    let (cup, basis) = weight("drink-almond", Cup, "almond drink").expect("it flows");
    assert!((cup - 237.0).abs() < 2.0, "{cup}");
    assert_eq!(basis, Density);
    let (pinch, basis) = weight("salt", Pinch, "salt").expect("a pinch");
    assert!((0.2..0.5).contains(&pinch), "{pinch}");
    assert_eq!(basis, Assumed);
    assert_eq!(weight("butter", Knob, "butter").expect("a knob").1, Assumed);
    let handful = weight("raisins", Handful, "raisins").expect("a handful");
    assert_eq!(handful, (145.0 / 4.0, Assumed));
}

#[test]
fn nothing_is_made_up() {
    for (key, measure) in [
        ("some-fruit", Piece),
        ("some-other", Slice),
        ("salt", Piece),
        ("bacon", Cup),
        ("milk", Clove),
        ("yeast-fresh", Teaspoon),
    ] {
        assert_eq!(weight(key, measure, ""), None, "{key}");
    }
}

/// Whatever is asked, an answer is a weight that can be.
#[test]
fn every_answer_weighs_something() {
    for food in all() {
        for measure in [Cup, Tablespoon, Teaspoon, Millilitre, Piece, Packet, Pinch] {
            if let Some(found) = weighs(food, measure, "") {
                assert!(found.mass.get() > 0.0, "{}", food.key);
            }
        }
        if let (Some(cup), Some(spoon)) = (weighs(food, Cup, ""), weighs(food, Tablespoon, "")) {
            let ratio = cup.mass.get() / spoon.mass.get();
            assert!((8.0..25.0).contains(&ratio), "{}: {ratio}", food.key);
        }
    }
}
