//! The pantry against the table of foods, and against what any database row has to keep.

use checks::assert_close;
use domain::food::{all, pantry};

/// Both were copied from USDA SR28 apart from one another; four decimals of a share are all it prints.
#[test]
fn the_pantry_and_the_foods_of_formulas_agree() {
    for food in all() {
        let Some(ndb) = food.ndb else { continue };
        let found = pantry::composition(ndb);
        let found = found.unwrap_or_else(|| panic!("{} is in the pantry", food.key));
        assert_eq!(found, food.composition, "{}", food.key);
    }
}

/// Rows of which the database itself doesn't account for all: alcohol and acids aren't among the parts,
/// soda loses carbon dioxide when it is burnt, and its peppers were measured apart.
const NOT_WHOLE: [&str; 4] = ["vanilla", "vinegar", "baking soda", "pepper"];

/// It has less carbohydrate than sugar for light cream, too.
const TOO_SWEET: &str = "cream,fluid,lt (";

/// Carbohydrate is what is missing to a hundred; measured fibre and rounding leave at most 3 %.
#[test]
fn every_row_is_whole() {
    let mut last = 0;
    for (ndb, name) in pantry::all() {
        assert!(ndb > last, "{ndb} comes after {last}");
        last = ndb;
        let of = pantry::composition(ndb).expect("it was listed");
        let whole = [of.water, of.protein, of.fat, of.carbohydrate, of.ash];
        let whole: f64 = whole.iter().map(|part| part.get()).sum();
        let loses = NOT_WHOLE.iter().any(|known| name.contains(known));
        if loses {
            assert!(whole < 0.97, "{name}: {whole}");
        } else {
            assert_close(name, whole, 1.0, 0.031);
        }
        assert!(of.fibre <= of.carbohydrate, "{name}");
        let sweet = of.sugar.get() > of.carbohydrate.get() + 0.003;
        assert_eq!(sweet, name.starts_with(TOO_SWEET), "{name}");
    }
    assert!(pantry::all().count() > 250);
    assert!(pantry::composition(1).is_none());
}

/// USDA SR26, file WEIGHT.
#[test]
fn a_measure_is_chosen_by_what_was_said() {
    for (ndb, measure, said, expected_g) in [
        (19336, "cup", "icing sugar, sifted", 100.0),
        (19336, "cup", "icing sugar unsifted", 120.0),
        (19334, "cup", "brown sugar (packed)", 220.0),
        (12061, "cup", "ground almonds", 95.0),
        (1123, "each", "egg", 50.0),
        (1123, "each", "Extra large egg", 56.0),
        (1123, "cup", "whole egg", 243.0),
        (2047, "tsp", "salt", 6.0),
    ] {
        let got = pantry::household_weight(ndb, measure, said).expect("the database weighed it");
        assert_close(&format!("{measure} of {said}"), got.get(), expected_g, 1e-9);
    }
    assert!(pantry::household_weight(2047, "each", "salt").is_none());
    assert!(pantry::household_weight(2047, "bucket", "salt").is_none());
    assert!(pantry::household_weight(1, "cup", "nothing").is_none());
}
