//! How foods take up heat, conduct it and fill a room, against Choi and Okos and handbook values.
//!
//! Sources and tolerances stand in `reference/food-heat.toml`.

use checks::assert_close;
use domain::food::choi_okos::{self, Component};
use domain::food::{Composition, conductivity, density, specific_heat};
use domain::units::{Celsius, Share, celsius};
use proptest::prelude::*;
use serde::Deserialize;

use super::known;

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
    toml::from_str(include_str!("../../reference/food-heat.toml")).expect("the table reads")
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
