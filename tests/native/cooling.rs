//! Vessels and cooling against `reference/cooling.toml`.

mod advice;
mod drawn;
mod lags;
mod properties;

use checks::assert_close;
use domain::thermal::cooling::{
    BOTH_STAGES, COLD, FIRST_STAGE, HOT, WARM, deepest_layer_that_passes, two_stage,
};
use domain::thermal::vessel::{Body, Cooling, Form, Material, Surroundings, Vessel};
use domain::units::{
    Moment, celsius, joules_per_gram_kelvin, kilograms_per_cubic_metre, millimetres,
    watts_per_metre_kelvin, watts_per_square_metre_kelvin,
};
use serde::Deserialize;

#[derive(Deserialize)]
struct Table {
    rule: Rule,
    newton: Newton,
    chill: Chill,
    deepest: Deepest,
    surely: Surely,
    held: HeldTable,
    lag: Lag,
    crumb: Crumb,
    proofer: Proofer,
}

#[derive(Deserialize)]
struct Rule {
    hot_c: f64,
    warm_c: f64,
    cold_c: f64,
    first_stage_min: f64,
    both_stages_min: f64,
}

#[derive(Deserialize)]
struct Newton {
    source: String,
    tolerance_min: f64,
    row: Vec<NewtonRow>,
}

#[derive(Deserialize)]
struct NewtonRow {
    around_c: f64,
    longest_min: f64,
}

#[derive(Deserialize)]
struct Chill {
    source: String,
    tolerance_min: f64,
    row: Vec<ChillRow>,
}

#[derive(Deserialize)]
struct ChillRow {
    name: String,
    layer_mm: Option<f64>,
    sphere_mm: Option<f64>,
    roll_radius_mm: Option<f64>,
    roll_length_mm: Option<f64>,
    film: f64,
    minutes_to_21: f64,
    minutes_to_5: Option<f64>,
    passes: bool,
}

#[derive(Deserialize)]
struct Deepest {
    source: String,
    tolerance_mm: f64,
    row: Vec<DeepestRow>,
}

#[derive(Deserialize)]
struct DeepestRow {
    cooling: String,
    around_c: f64,
    depth_mm: f64,
}

#[derive(Deserialize)]
struct Surely {
    source: String,
    row: Vec<SurelyRow>,
}

#[derive(Deserialize)]
struct SurelyRow {
    around_c: f64,
    off_k: f64,
    spread_mm: Option<f64>,
}

#[derive(Deserialize)]
struct HeldTable {
    source: String,
    row: Vec<HeldRow>,
}

#[derive(Deserialize)]
struct HeldRow {
    name: String,
    held: String,
    what: String,
    from_c: f64,
    around_c: f64,
    film: f64,
    tolerance_k: f64,
    /// Minutes, the mean and the middle in °C.
    at: Vec<(f64, f64, f64)>,
}

#[derive(Deserialize)]
struct Lag {
    source: String,
    radius_mm: f64,
    film: f64,
    series_min: f64,
    lumped_min: f64,
    tolerance_min: f64,
}

#[derive(Deserialize)]
struct Crumb {
    source: String,
    density: f64,
    diffusivity: f64,
    tolerance_share: f64,
}

#[derive(Deserialize)]
struct Proofer {
    source: String,
    initial_c: f64,
    around_c: f64,
    minutes: f64,
    between_c: [f64; 2],
}

fn table() -> Table {
    toml::from_str(include_str!("../reference/cooling.toml")).expect("the table is well formed")
}

const START: Moment = Moment::from_epoch_ms(1_700_000_000_000);

fn fridge() -> Surroundings {
    Surroundings::constant(celsius(4.0))
}

/// A stirred layer with the wanted lag: τ = ρ c depth / h, with ρ c = 1 MJ/(m³ K) and h = 10 W/(m² K).
pub(crate) fn newton_body(lag_min: f64) -> Vessel {
    Vessel::of(Body {
        form: Form::Layer {
            depth: millimetres(lag_min * 0.6),
        },
        material: Material {
            conductivity: watts_per_metre_kelvin(1.0),
            density: kilograms_per_cubic_metre(1000.0),
            specific_heat: joules_per_gram_kelvin(1.0),
        }
        .stirred(),
        film: watts_per_square_metre_kelvin(10.0),
    })
}

#[test]
fn the_rule_has_the_codes_limits() {
    let rule = table().rule;
    assert_eq!(HOT.get(), rule.hot_c);
    assert_eq!(WARM.get(), rule.warm_c);
    assert_eq!(COLD.get(), rule.cold_c);
    assert_eq!(FIRST_STAGE.get(), rule.first_stage_min);
    assert_eq!(BOTH_STAGES.get(), rule.both_stages_min);
}

#[test]
fn a_stirred_filling_passes_just_up_to_the_limit_of_newtons_law() {
    let table = table().newton;
    for row in &table.row {
        let surroundings = Surroundings::constant(celsius(row.around_c));
        let passes = |lag: f64| two_stage(&newton_body(lag), HOT, &surroundings, START).passes;
        assert!(
            passes(row.longest_min - table.tolerance_min),
            "{}",
            table.source
        );
        assert!(
            !passes(row.longest_min + table.tolerance_min),
            "{}",
            table.source
        );
    }
}

#[test]
fn a_custard_cools_as_reckoned_elsewhere() {
    let table = table().chill;
    for row in &table.row {
        let mm = |value: Option<f64>| millimetres(value.expect("a row names one form"));
        let form = if row.layer_mm.is_some() {
            Form::Layer {
                depth: mm(row.layer_mm),
            }
        } else if row.sphere_mm.is_some() {
            Form::Sphere {
                radius: mm(row.sphere_mm),
            }
        } else {
            Form::Roll {
                radius: mm(row.roll_radius_mm),
                length: mm(row.roll_length_mm),
            }
        };
        let vessel = Vessel::of(Body {
            form,
            material: Material::CUSTARD,
            film: watts_per_square_metre_kelvin(row.film),
        });
        let got = two_stage(&vessel, HOT, &fridge(), START);
        let case = format!("{}: {}", row.name, table.source);
        let to_21 = got.minutes_to_21.expect("a fridge gets it to 21 °C").get();
        assert_close(&case, to_21, row.minutes_to_21, table.tolerance_min);
        if let Some(expected) = row.minutes_to_5 {
            let to_5 = got.minutes_to_5.expect("a fridge gets it to 5 °C").get();
            assert_close(&case, to_5, expected, table.tolerance_min);
        }
        assert_eq!(got.passes, row.passes, "{case}");
    }
}

#[test]
fn the_deepest_layer_is_the_one_found_elsewhere() {
    let table = table().deepest;
    for row in &table.row {
        let cooling = match row.cooling.as_str() {
            "fridge" => Cooling::Fridge,
            "ice bath" => Cooling::IceBath,
            other => panic!("no cooling called {other}"),
        };
        let got = deepest_layer_that_passes(cooling, celsius(row.around_c))
            .expect("there is such a layer")
            .get();
        assert_close(&table.source, got, row.depth_mm, table.tolerance_mm);
    }
    assert_eq!(
        deepest_layer_that_passes(Cooling::Kitchen, celsius(20.0)),
        None
    );
}
