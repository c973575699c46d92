//! Mixing, kneading, the liquid's temperature and ice, against `reference/mixing.toml`,
//! where sources and tolerances stand, and against what must always hold.

mod frozen;
mod ice;
mod liquid;
mod preferment;
mod properties;
mod several;
mod trade;

use checks::assert_close;
use domain::food::{Food, food};
use domain::thermal::kneading::{KneadingMethod, after_kneading};
use domain::thermal::liquid::rule::rule_of_factors;
use domain::thermal::mixing::{Part, PartKind, Sources, melted_share, mixed_temperature};
use domain::units::{
    Celsius, CelsiusDelta, JoulesPerGram, celsius, celsius_delta, grams, joules_per_gram_kelvin,
};
use serde::Deserialize;

#[derive(Deserialize)]
struct Table {
    rule: Vec<RuleRow>,
    friction: Vec<FrictionRow>,
    friction_from_batch: BatchRow,
    balance: Vec<BalanceRow>,
    melted: Vec<MeltedRow>,
    constant: Vec<ConstantRow>,
    ice: Vec<IceRow>,
    trade_ice: Vec<IceRow>,
    ice_table: Vec<IceTableRow>,
}

#[derive(Deserialize)]
struct RuleRow {
    id: String,
    target_f: f64,
    known_f: Vec<f64>,
    friction_f: f64,
    expected_f: f64,
    tolerance_f: f64,
    source: String,
}

#[derive(Deserialize)]
struct FrictionRow {
    method: String,
    published_f: f64,
    tolerance_f: f64,
    why: String,
    source: String,
}

#[derive(Deserialize)]
struct BatchRow {
    dough_f: f64,
    used_f: Vec<f64>,
    expected_f: f64,
    tolerance_f: f64,
}

#[derive(Deserialize)]
struct BalanceRow {
    id: String,
    /// Kind, g, J/(g K), °C.
    parts: Vec<(String, f64, f64, f64)>,
    #[serde(default)]
    hydration: f64,
    #[serde(default)]
    work: f64,
    #[serde(default)]
    milk_fat: f64,
    expected_c: f64,
    tolerance_c: f64,
    why: String,
    source: String,
}

#[derive(Deserialize)]
struct MeltedRow {
    at_c: f64,
    expected: f64,
    tolerance: f64,
    why: String,
    source: String,
}

#[derive(Deserialize)]
struct ConstantRow {
    id: String,
    expected: f64,
    tolerance: f64,
    why: String,
    source: String,
}

#[derive(Deserialize)]
struct IceRow {
    total: f64,
    tap_c: f64,
    wanted_c: f64,
    #[serde(default)]
    ice_c: f64,
    expected: f64,
    tolerance: f64,
    source: String,
}

#[derive(Deserialize)]
struct IceTableRow {
    tap_f: f64,
    wanted_f: f64,
    expected: f64,
}

fn table() -> Table {
    toml::from_str(include_str!("../reference/mixing.toml")).expect("the table reads")
}

fn of(key: &str) -> &'static Food {
    food(key).unwrap_or_else(|| panic!("{key} is in the table"))
}

fn fahrenheit(value: f64) -> Celsius {
    Celsius::from_fahrenheit(value).expect("a kitchen temperature")
}

fn all_fahrenheit(values: &[f64]) -> Vec<Celsius> {
    values.iter().copied().map(fahrenheit).collect()
}

fn friction_from_fahrenheit(value: f64) -> CelsiusDelta {
    celsius_delta(value / 1.8)
}

#[test]
fn the_rule_of_factors_meets_its_printed_examples() {
    for row in table().rule {
        let got = rule_of_factors(
            fahrenheit(row.target_f),
            &all_fahrenheit(&row.known_f),
            friction_from_fahrenheit(row.friction_f),
        );
        let got = got.expect("a temperature").to_fahrenheit();
        let case = format!("{} ({})", row.id, row.source);
        assert_close(&case, got, row.expected_f, row.tolerance_f);
    }
    let hopeless = rule_of_factors(celsius(30.0), &[], celsius_delta(-450.0));
    assert_eq!(hopeless, None);
}

#[test]
fn the_friction_factor_of_a_batch_gives_its_liquid_back() {
    let row = table().friction_from_batch;
    let used = all_fahrenheit(&row.used_f);
    let (liquid, known) = used.split_last().expect("something went in");
    let friction = friction_from_fahrenheit(row.expected_f);
    let got = rule_of_factors(fahrenheit(row.dough_f), known, friction);
    assert_close(
        "batch",
        got.expect("a temperature").to_fahrenheit(),
        liquid.to_fahrenheit(),
        row.tolerance_f,
    );
}

#[test]
fn kneading_meets_published_friction_factors() {
    for row in table().friction {
        let method = KneadingMethod::ALL
            .into_iter()
            .find(|method| format!("{method:?}") == row.method)
            .expect("the method exists");
        let published = friction_from_fahrenheit(row.published_f);
        let constant = method.published_friction().expect("it has one");
        assert_close(&row.method, constant.get(), published.get(), 1e-9);

        let kitchen = fahrenheit(71.0);
        let water = rule_of_factors(fahrenheit(78.0), &[kitchen, kitchen], published);
        let water = water.expect("a temperature");
        let parts = [
            Part::of(of("bread-flour"), grams(1000.0), kitchen),
            Part::of(of("salt"), grams(20.0), kitchen),
            Part::of(of("water"), grams(620.0), water),
        ];
        let mixed = mixed_temperature(&parts, &Sources::USUAL).expect("a dough");
        let dough = after_kneading(method, mixed, kitchen, method.parameters().usual);
        // The rule turned round: the factor is what the dough has beyond all that went in.
        let used_c = kitchen.get() + kitchen.get() + water.get();
        let factor = CelsiusDelta::clamped(3.0 * dough.likely().get() - used_c);
        let case = format!("{} ({}; {})", row.method, row.source, row.why);
        assert_close(
            &case,
            factor.to_fahrenheit(),
            row.published_f,
            row.tolerance_f,
        );
    }
}

fn part_of_row((kind, mass_g, specific_heat, at_c): &(String, f64, f64, f64)) -> Part {
    let (kind, fat_g) = match kind.as_str() {
        "Flour" => (PartKind::Flour, 0.0),
        "Sugar" => (PartKind::Sugar, 0.0),
        "Salt" => (PartKind::Salt, 0.0),
        "Butter" => (PartKind::Other, mass_g * 0.8111),
        "Other" => (PartKind::Other, 0.0),
        unknown => panic!("the table has no part of kind {unknown}"),
    };
    Part {
        kind,
        mass: grams(*mass_g),
        temperature: celsius(*at_c),
        specific_heat: joules_per_gram_kelvin(*specific_heat),
        milk_fat: grams(fat_g),
        off: celsius_delta(0.0),
    }
}

#[test]
fn heat_balances_meet_worked_examples() {
    for row in table().balance {
        let parts: Vec<Part> = row.parts.iter().map(part_of_row).collect();
        let sources = Sources {
            hydration: JoulesPerGram::clamped(row.hydration),
            work: JoulesPerGram::clamped(row.work),
            milk_fat: JoulesPerGram::clamped(row.milk_fat),
            ..Sources::NONE
        };
        let got = mixed_temperature(&parts, &sources).expect("something is mixed");
        let case = format!("{} ({}; {})", row.id, row.source, row.why);
        assert_close(&case, got.get(), row.expected_c, row.tolerance_c);
    }
}

#[test]
fn milk_fat_melts_as_measured() {
    for row in table().melted {
        let case = format!("{} °C ({}; {})", row.at_c, row.source, row.why);
        let got = melted_share(celsius(row.at_c)).get();
        assert_close(&case, got, row.expected, row.tolerance);
    }
}

#[test]
fn a_preferment_is_not_hydrated_twice() {
    let kitchen = celsius(20.0);
    let parts = [
        Part::of(of("bread-flour"), grams(100.0), kitchen),
        Part::of(of("water"), grams(100.0), kitchen),
    ];
    let fresh = mixed_temperature(&parts, &Sources::USUAL).expect("a mixture");
    assert!(fresh > celsius(22.0));
    let preferment = Part::preferment(&parts, kitchen).expect("it weighs something");
    let still = mixed_temperature(&[preferment], &Sources::USUAL).expect("a mixture");
    assert_close("preferment", still.get(), 20.0, 1e-6);
}
