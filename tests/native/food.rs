//! Foods against USDA SR28, Choi and Okos, and handbook values.
//!
//! Sources and tolerances stand in `reference/food-composition.toml` and `reference/food-heat.toml`.

use checks::assert_close;
use domain::food::choi_okos::{self, Component};
use domain::food::{
    Allergen, Composition, Food, FoodKind, all, conductivity, density, food, specific_heat,
};
use domain::units::{Celsius, Share, celsius, grams};
use proptest::prelude::*;
use serde::Deserialize;
use std::collections::BTreeSet;

#[derive(Deserialize)]
struct CompositionTable {
    composition: Vec<CompositionRow>,
}

/// Key, number in the database, its description; water, protein, fat, carbohydrate, fibre, ash, sugar.
type CompositionRow = (String, u32, String, [f64; 7]);

#[derive(Deserialize)]
struct HeatTable {
    component: Vec<ComponentRow>,
    whole: Vec<WholeRow>,
    by_composition: Vec<ByComposition>,
    published: Vec<Published>,
    departure: Vec<Departure>,
    water: Vec<WaterRow>,
    milk_fat: MilkFat,
}

#[derive(Deserialize)]
struct ComponentRow {
    quantity: String,
    at_c: f64,
    expected: Vec<f64>,
    tolerance: f64,
}

#[derive(Deserialize)]
struct WholeRow {
    food: String,
    at_c: f64,
    specific_heat: f64,
    density: f64,
    conductivity: f64,
}

#[derive(Deserialize)]
struct ByComposition {
    food: String,
    expected: f64,
}

#[derive(Deserialize)]
struct Published {
    food: String,
    at_c: f64,
    expected: f64,
    tolerance: f64,
    why: String,
    source: String,
}

#[derive(Deserialize)]
struct Departure {
    food: String,
    at_c: f64,
    printed: f64,
    departs_by: f64,
    why: String,
    source: String,
}

#[derive(Deserialize)]
struct WaterRow {
    at_c: f64,
    specific_heat: f64,
    density: Option<f64>,
}

#[derive(Deserialize)]
struct MilkFat {
    at_c: f64,
    specific_heat: [f64; 2],
    conductivity: [f64; 2],
    density: [f64; 2],
}

fn heat() -> HeatTable {
    toml::from_str(include_str!("../reference/food-heat.toml")).expect("the table reads")
}

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
    let ours: BTreeSet<&str> = all().iter().map(|food| food.key).collect();
    assert_eq!(checked, ours, "every food has its row, and no row is left");
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
    ] {
        assert_eq!(known(key).allergens, expected, "{key}");
    }
    for food in all() {
        let by_kind = match food.kind {
            FoodKind::Flour => Some(Allergen::GlutenCereals),
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

#[test]
fn components_follow_choi_and_okos() {
    for row in heat().component {
        for (component, expected) in Component::ALL.into_iter().zip(&row.expected) {
            let at = celsius(row.at_c);
            let got = match row.quantity.as_str() {
                "specific heat, J/(g K)" => component.specific_heat(at).get(),
                "conductivity, W/(m K)" => component.conductivity(at).get(),
                other => panic!("the table has no {other}"),
            };
            let case = format!("{component:?}, {} at {} °C", row.quantity, row.at_c);
            assert_close(&case, got, *expected, row.tolerance);
        }
    }
}

#[test]
fn foods_follow_choi_and_okos() {
    let table = heat();
    for row in table.whole {
        let (of, at) = (known(&row.food), celsius(row.at_c));
        assert_close(
            &row.food,
            choi_okos::specific_heat(&of.composition, at).get(),
            row.specific_heat,
            0.003,
        );
        assert_close(&row.food, density(of, at).get(), row.density, 1.0);
        assert_close(
            &row.food,
            conductivity(of, at).get(),
            row.conductivity,
            0.001,
        );
    }
    for row in table.by_composition {
        let got = choi_okos::specific_heat(&known(&row.food).composition, celsius(20.0));
        assert_close(&row.food, got.get(), row.expected, 0.003);
    }
}

#[test]
fn specific_heats_meet_published_ones() {
    let table = heat();
    for row in table.published {
        let case = format!("{} against {} ({})", row.food, row.source, row.why);
        let got = specific_heat(known(&row.food), celsius(row.at_c));
        assert_close(&case, got.get(), row.expected, row.tolerance);
    }
    for row in table.departure {
        let case = format!("{} departs from {} ({})", row.food, row.source, row.why);
        let got = specific_heat(known(&row.food), celsius(row.at_c));
        // Given to two decimals, so half a unit of the last.
        assert_close(&case, got.get() - row.printed, row.departs_by, 0.005);
    }
}

#[test]
fn water_and_milk_fat_are_near_their_own_measurements() {
    let table = heat();
    for row in table.water {
        let (of, at) = (Component::Water, celsius(row.at_c));
        let case = format!("water at {} °C", row.at_c);
        let one_percent = row.specific_heat / 100.0;
        assert_close(
            &case,
            of.specific_heat(at).get(),
            row.specific_heat,
            one_percent,
        );
        if let Some(expected) = row.density {
            assert_close(&case, of.density(at).get(), expected, expected / 100.0);
        }
    }
    let fat = table.milk_fat;
    let at = celsius(fat.at_c);
    let of = Component::Fat;
    let [expected, tolerance] = fat.specific_heat;
    assert_close(
        "milk fat, J/(g K)",
        of.specific_heat(at).get(),
        expected,
        tolerance,
    );
    let [expected, tolerance] = fat.conductivity;
    assert_close(
        "milk fat, W/(m K)",
        of.conductivity(at).get(),
        expected,
        tolerance,
    );
    let [expected, tolerance] = fat.density;
    assert_close("milk fat, kg/m³", of.density(at).get(), expected, tolerance);
}

/// A dough of 500 g bread flour, 200 g milk, 100 g egg, 100 g butter, 60 g sugar,
/// 9 g salt and 7 g active dry yeast.
///
/// Expected values computed apart from this project, in plain Python, from USDA SR28:
/// specific heat 2.563 J/(g K), water 34.58 % of the dough and 67.51 % of the flour.
/// Tolerances: 0.003 as for every food; 0.01 % for the second decimal. Measured doughs
/// take 2.15 to 3.19 J/(g K) between 20 and 90 °C (isoperibol calorimetry, abstract).
#[test]
fn a_dough_is_the_average_of_what_is_in_it() {
    let parts = [
        ("bread-flour", 500.0),
        ("milk", 200.0),
        ("egg", 100.0),
        ("butter", 100.0),
        ("sugar", 60.0),
        ("salt", 9.0),
        ("yeast-active-dry", 7.0),
    ]
    .map(|(key, mass_g)| (grams(mass_g), known(key).composition));
    let dough = Composition::of_mixture(&parts).expect("it weighs something");
    let c = choi_okos::specific_heat(&dough, celsius(20.0)).get();
    assert_close("dough, J/(g K)", c, 2.563, 0.003);
    assert!((2.15..=3.19).contains(&c));
    assert_close("water, % of dough", dough.water.get() * 100.0, 34.58, 0.01);
    let of_flour = dough.water.get() * 976.0 / 500.0 * 100.0;
    assert_close("water, % of flour", of_flour, 67.51, 0.01);
    assert!(Composition::of_mixture(&[]).is_none());
}

fn some_composition() -> impl Strategy<Value = Composition> {
    prop::array::uniform5(0.0..=0.2_f64).prop_map(|[water, protein, fat, sugar, ash]| Composition {
        water: Share::clamped(water),
        protein: Share::clamped(protein),
        fat: Share::clamped(fat),
        carbohydrate: Share::clamped(sugar),
        fibre: Share::clamped(sugar / 2.0),
        ash: Share::clamped(ash),
        sugar: Share::clamped(sugar / 2.0),
    })
}

proptest! {
    /// A food lies between its components, whatever it is made of and however its row sums.
    #[test]
    fn a_food_lies_between_its_components(of in some_composition(), at_c in -60.0..=400.0_f64) {
        let at = Celsius::clamped(at_c);
        let within = |got: f64, values: [f64; 6]| {
            let low = values.into_iter().fold(f64::INFINITY, f64::min);
            let high = values.into_iter().fold(f64::NEG_INFINITY, f64::max);
            got >= low - 1e-9 && got <= high + 1e-9
        };
        let c = choi_okos::specific_heat(&of, at).get();
        prop_assert!(within(c, Component::ALL.map(|part| part.specific_heat(at).get())));
        let rho = choi_okos::density(&of, at).get();
        prop_assert!(within(rho, Component::ALL.map(|part| part.density(at).get())));
        let k = choi_okos::conductivity(&of, at).get();
        prop_assert!(within(k, Component::ALL.map(|part| part.conductivity(at).get())));
    }

    /// More water never makes a food easier to warm.
    #[test]
    fn wetter_food_takes_more_heat(of in some_composition(), more in 0.0..=0.5_f64) {
        let wetter = Composition { water: Share::clamped(of.water.get() + more), ..of };
        let at = celsius(20.0);
        let (dry, wet) = (choi_okos::specific_heat(&of, at), choi_okos::specific_heat(&wetter, at));
        prop_assert!(wet.get() >= dry.get() - 1e-12);
    }
}
