//! What foods are made of, against USDA SR28.
//!
//! Sources and tolerances stand in `reference/food-composition.toml`.

mod heat;

use checks::assert_close;
use domain::food::choi_okos;
use domain::food::{Allergen, Composition, Food, FoodKind, all, food, generic};
use domain::units::{celsius, grams};
use serde::Deserialize;
use std::collections::BTreeSet;

#[derive(Deserialize)]
struct CompositionTable {
    composition: Vec<CompositionRow>,
}

/// Key, number in the database, its description; water, protein, fat, carbohydrate, fibre, ash, sugar.
type CompositionRow = (String, u32, String, [f64; 7]);

fn composition_rows() -> Vec<CompositionRow> {
    let table: CompositionTable =
        toml::from_str(include_str!("../reference/food-composition.toml")).expect("it reads");
    table.composition
}

fn known(key: &str) -> &'static Food {
    food(key).unwrap_or_else(|| panic!("{key} is in the table"))
}

#[test]
fn every_composition_is_the_database_s_own() {
    let rows = composition_rows();
    for (key, ndb, description, row) in &rows {
        let found = known(key);
        assert_eq!(found.ndb, Some(*ndb), "{description}");
        let c = found.composition;
        let [water, protein, fat, carbohydrate, fibre, ash, sugar] = *row;
        // The database leaves nothing else empty.
        let sugar = if sugar.is_nan() { 0.0 } else { sugar };
        for (name, got, expected) in [
            ("water", c.water, water),
            ("protein", c.protein, protein),
            ("fat", c.fat, fat),
            ("carbohydrate", c.carbohydrate, carbohydrate),
            ("fibre", c.fibre, fibre),
            ("ash", c.ash, ash),
            ("sugar", c.sugar, sugar),
        ] {
            let case = format!("{key} ({description}), {name}");
            assert_close(&case, got.get() * 100.0, expected, 0.0005);
        }
    }
    let checked: BTreeSet<&str> = rows.iter().map(|(key, ..)| key.as_str()).collect();
    let described = all().iter().filter(|food| food.ndb.is_some());
    let ours: BTreeSet<&str> = described.map(|food| food.key).collect();
    assert_eq!(checked, ours, "every food has its row, and no row is left");
}

/// By hand from the rows of the same database: half of bread flour and half of tap water; double cream of
/// 48 % fat (Food Labelling Regulations 1996, schedule 8, from memory) by butter oil in heavy cream;
/// halfway between bread flour and whole flour.
#[test]
fn what_no_row_describes_is_made_of_those_that_are() {
    for (key, water, protein, fat, ash) in [
        ("sourdough-starter", 56.63, 5.99, 0.83, 0.285),
        ("cream-double", 46.986, 2.359, 48.0, 0.430),
        ("high-extraction-flour", 12.05, 12.595, 2.08, 1.025),
    ] {
        let found = known(key);
        assert_eq!(found.ndb, None, "{key}");
        let c = found.composition;
        for (name, got, expected) in [
            ("water", c.water, water),
            ("protein", c.protein, protein),
            ("fat", c.fat, fat),
            ("ash", c.ash, ash),
        ] {
            assert_close(
                &format!("{key}, {name}"),
                got.get() * 100.0,
                expected,
                0.001,
            );
        }
    }
    let computed = all().iter().filter(|food| food.ndb.is_none());
    assert_eq!(computed.count(), 3);
}

#[test]
fn every_kind_has_a_food_that_stands_for_it() {
    let kinds: BTreeSet<FoodKind> = all().iter().map(|food| food.kind).collect();
    for &kind in &kinds {
        let of_kind = generic(kind);
        assert_eq!(of_kind.kind, kind);
        assert!(of_kind.is_generic(), "{}", of_kind.key);
        assert!(of_kind.key.starts_with("some-"), "{}", of_kind.key);
    }
    let generic = all().iter().filter(|food| food.is_generic());
    assert_eq!(generic.count(), kinds.len());
    assert!(!known("bread-flour").is_generic());
}

#[test]
fn keys_are_unique_and_plain() {
    let keys: BTreeSet<&str> = all().iter().map(|food| food.key).collect();
    assert_eq!(keys.len(), all().len());
    for key in keys {
        let plain = |letter: char| letter.is_ascii_lowercase() || letter == '-';
        assert!(key.chars().all(plain), "{key}");
        assert_eq!(food(key).map(|food| food.key), Some(key));
    }
    assert!(food("no such food").is_none());
}

/// Flours of what is no cereal with gluten by the law: rice, maize, millets, buckwheat and pulses.
const WITHOUT_GLUTEN: [&str; 9] = [
    "buckwheat-flour",
    "chickpea-flour",
    "corn-flour",
    "cornmeal",
    "millet-flour",
    "rice-flour",
    "rice-flour-brown",
    "soy-flour",
    "teff-flour",
];

/// Allergens the law names for what these foods are (Regulation (EU) No 1169/2011, Annex II).
#[test]
fn foods_name_their_own_allergens() {
    for (key, expected) in [
        ("bread-flour", vec![Allergen::GlutenCereals]),
        ("rye-flour-medium", vec![Allergen::GlutenCereals]),
        ("rolled-oats", vec![Allergen::GlutenCereals]),
        ("milk", vec![Allergen::Milk]),
        ("butter", vec![Allergen::Milk]),
        ("egg-yolk", vec![Allergen::Eggs]),
        ("almonds-ground", vec![Allergen::Nuts]),
        ("hazelnuts", vec![Allergen::Nuts]),
        ("walnuts", vec![Allergen::Nuts]),
        ("sesame-seeds", vec![Allergen::Sesame]),
        ("apricots-dried", vec![Allergen::Sulphites]),
        ("egg-custard", vec![Allergen::Eggs, Allergen::Milk]),
        ("cornstarch", vec![]),
        ("sugar", vec![]),
        ("spelt-flour", vec![Allergen::GlutenCereals]),
        ("rice-flour", vec![]),
        ("soy-flour", vec![Allergen::Soybeans]),
        ("peanut-butter", vec![Allergen::Peanuts]),
        ("oil-sesame", vec![Allergen::Sesame]),
        ("parmesan", vec![Allergen::Milk]),
        ("drink-oat", vec![Allergen::GlutenCereals]),
        ("drink-almond", vec![Allergen::Nuts]),
        ("beer", vec![Allergen::GlutenCereals]),
        ("wine-white", vec![Allergen::Sulphites]),
        ("mustard", vec![Allergen::Mustard]),
        ("celery", vec![Allergen::Celery]),
        ("anchovies", vec![Allergen::Fish]),
        ("hazelnut-spread", vec![Allergen::Milk, Allergen::Nuts]),
        ("pine-nuts", vec![]),
        ("chestnuts", vec![]),
    ] {
        assert_eq!(known(key).allergens, expected, "{key}");
    }
    for food in all() {
        let by_kind = match food.kind {
            FoodKind::Flour if !WITHOUT_GLUTEN.contains(&food.key) => Some(Allergen::GlutenCereals),
            FoodKind::Milk => Some(Allergen::Milk),
            FoodKind::Egg => Some(Allergen::Eggs),
            _ => None,
        };
        if let Some(allergen) = by_kind {
            assert!(food.allergens.contains(&allergen), "{}", food.key);
        }
        let milk = food.allergens.contains(&Allergen::Milk);
        assert!(!food.milk_fat || milk, "{} has milk fat", food.key);
    }
    assert_eq!(Allergen::ALL.len(), 14);
    assert!(Allergen::ALL.windows(2).all(|pair| pair[0] < pair[1]));
}

/// A dough as it is baked most, in g, of which some values were computed apart from this project.
pub(crate) const STANDARD_DOUGH: [(&str, f64); 7] = [
    ("bread-flour", 500.0),
    ("milk", 200.0),
    ("egg", 100.0),
    ("butter", 100.0),
    ("sugar", 60.0),
    ("salt", 9.0),
    ("yeast-active-dry", 7.0),
];

/// Expected values computed apart from this project, in plain Python, from USDA SR28:
/// specific heat 2.563 J/(g K), water 34.58 % of the dough and 67.51 % of the flour.
/// Tolerances: 0.003 as for every food; 0.01 % for the second decimal. Measured doughs
/// take 2.15 to 3.19 J/(g K) between 20 and 90 °C (isoperibol calorimetry, abstract).
#[test]
fn a_dough_is_the_average_of_what_is_in_it() {
    let parts = STANDARD_DOUGH.map(|(key, mass_g)| (grams(mass_g), known(key).composition));
    let dough = Composition::of_mixture(&parts).expect("it weighs something");
    let c = choi_okos::specific_heat(&dough, celsius(20.0)).get();
    assert_close("dough, J/(g K)", c, 2.563, 0.003);
    assert!((2.15..=3.19).contains(&c));
    assert_close("water, % of dough", dough.water.get() * 100.0, 34.58, 0.01);
    let of_flour = dough.water.get() * 976.0 / 500.0 * 100.0;
    assert_close("water, % of flour", of_flour, 67.51, 0.01);
    assert!(Composition::of_mixture(&[]).is_none());
}
