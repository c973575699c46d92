//! Oven settings, bake windows of other sizes, and altitude, against
//! `reference/oven.toml`, where sources and tolerances stand.

use checks::reforecast::{TAKEN_UP, taken_up};
use checks::{assert_close, begin, say, starter, up_to};
use domain::bake::Intent;
use domain::estimate::{Basis, Estimate};
use domain::formula::StepKind;
use domain::kitchen::Kitchen;
use domain::thermal::constants::CORE_BELOW_BOILING;
use domain::thermal::oven::altitude::{boiling_point, pressure_ratio};
use domain::thermal::oven::{
    Dial, DialSetting, Fan, GasMark, bake_window, core_target, dial_setting, with_fan, without_fan,
};
use domain::units::{Celsius, Grams, Metres, Minutes, Moment, celsius, grams, metres, minutes};
use proptest::prelude::*;
use serde::Deserialize;

#[derive(Deserialize)]
struct Table {
    gas_mark: Vec<GasMarkRow>,
    fan: FanRow,
    fahrenheit: FahrenheitRow,
    mass_factor: Vec<MassFactorRow>,
    altitude: Vec<AltitudeRow>,
    core: Vec<CoreRow>,
}

#[derive(Deserialize)]
struct GasMarkRow {
    mark: String,
    fahrenheit: u16,
    printed_c: f64,
}

#[derive(Deserialize)]
struct FanRow {
    lower_by_k: f64,
    tolerance_k: f64,
}

#[derive(Deserialize)]
struct FahrenheitRow {
    fahrenheit: Vec<f64>,
    celsius: Vec<f64>,
    tolerance_c: f64,
}

#[derive(Deserialize)]
struct MassFactorRow {
    ratio: f64,
    expected: f64,
    tolerance: f64,
}

#[derive(Deserialize)]
struct AltitudeRow {
    metres: f64,
    pressure_pa: f64,
    boiling_c: f64,
    expansion: f64,
}

#[derive(Deserialize)]
struct CoreRow {
    id: String,
    wanted_c: f64,
    highest_with_m: f64,
    source: String,
}

fn table() -> Table {
    toml::from_str(include_str!("../reference/oven.toml")).expect("the table reads")
}

fn window(low: f64, likely: f64, high: f64) -> Estimate<Minutes> {
    Estimate::new(minutes(low), minutes(likely), minutes(high), Basis::Formula)
}

#[test]
fn gas_marks_are_those_of_the_printed_tables() {
    let rows = table().gas_mark;
    assert_eq!(rows.len(), GasMark::ALL.len());
    for (row, mark) in rows.iter().zip(GasMark::ALL) {
        assert_eq!(mark.to_string(), row.mark);
        assert_eq!(mark.fahrenheit(), row.fahrenheit, "mark {mark}");
        assert_close(&row.mark, mark.rounded().get(), row.printed_c, 0.0);
        assert_close(&row.mark, mark.exact().get(), row.printed_c, 7.5);
        let printed = celsius(row.printed_c);
        assert_eq!(GasMark::nearest(printed), Some(mark), "{printed:?}");
        let gas = dial_setting(printed, Fan::Off, Dial::Gas);
        assert_eq!(gas, Some(DialSetting::Gas(mark)));
        let fahrenheit = dial_setting(printed, Fan::Off, Dial::Fahrenheit);
        let expected = DialSetting::Fahrenheit(i32::from(row.fahrenheit));
        assert_eq!(fahrenheit, Some(expected), "mark {mark}");
    }
    assert_eq!(GasMark::nearest(celsius(60.0)), None);
    assert_eq!(GasMark::nearest(celsius(290.0)), None);
}

#[test]
fn a_fan_oven_is_set_lower_and_a_gas_oven_is_not() {
    let row = table().fan;
    let stated = celsius(200.0);
    assert_close(
        "fan",
        (stated - with_fan(stated)).get(),
        row.lower_by_k,
        row.tolerance_k,
    );
    assert_eq!(without_fan(with_fan(stated)), stated);
    let set = |fan, dial| dial_setting(stated, fan, dial);
    assert_eq!(
        set(Fan::Off, Dial::Celsius),
        Some(DialSetting::Celsius(200))
    );
    assert_eq!(set(Fan::On, Dial::Celsius), Some(DialSetting::Celsius(180)));
    assert_eq!(
        set(Fan::On, Dial::Fahrenheit),
        Some(DialSetting::Fahrenheit(350))
    );
    assert_eq!(set(Fan::On, Dial::Gas), set(Fan::Off, Dial::Gas));
    let odd = dial_setting(celsius(177.0), Fan::Off, Dial::Celsius);
    assert_eq!(odd, Some(DialSetting::Celsius(175)));
}

#[test]
fn fahrenheit_converts_exactly() {
    let row = table().fahrenheit;
    for (fahrenheit, expected) in row.fahrenheit.into_iter().zip(row.celsius) {
        let case = format!("{fahrenheit} °F");
        let got = Celsius::from_fahrenheit(fahrenheit).expect("a temperature");
        assert_close(&case, got.get(), expected, row.tolerance_c);
        assert_close(&case, got.to_fahrenheit(), fahrenheit, 1e-9);
    }
}

#[test]
fn a_bake_window_follows_the_mass() {
    let formula = window(14.0, 16.0, 18.0);
    for row in table().mass_factor {
        let case = format!("× {}", row.ratio);
        let piece = grams(80.0 * row.ratio);
        let got = bake_window(&formula, grams(80.0), piece);
        assert_close(
            &case,
            got.likely() / formula.likely(),
            row.expected,
            row.tolerance,
        );
        assert_eq!(got.basis(), Basis::Formula);
        // The window takes in an oven whose air is the bottleneck: the square root of the factor.
        let by_surface = row.expected.sqrt();
        let (low, high) = (row.expected.min(by_surface), row.expected.max(by_surface));
        assert_close(&case, got.low() / formula.low(), low, row.tolerance);
        assert_close(&case, got.high() / formula.high(), high, row.tolerance);
    }
    assert_eq!(bake_window(&formula, grams(80.0), grams(80.0)), formula);
    assert_eq!(bake_window(&formula, grams(0.0), grams(80.0)), formula);
    assert_eq!(bake_window(&formula, grams(80.0), grams(0.0)), formula);
}

#[test]
fn water_boils_where_the_standard_atmosphere_says() {
    for row in table().altitude {
        let (case, at) = (format!("{} m", row.metres), metres(row.metres));
        let pressure_pa = 101_325.0 * pressure_ratio(at);
        assert_close(&case, pressure_pa, row.pressure_pa, 15.0);
        assert_close(&case, 1.0 / pressure_ratio(at), row.expansion, 0.0005);
        assert_close(&case, boiling_point(at).get(), row.boiling_c, 0.02);
    }
}

#[test]
fn a_core_target_is_kept_below_boiling() {
    for row in table().core {
        let wanted = celsius(row.wanted_c);
        let case = format!("{} ({})", row.id, row.source);
        assert_eq!(core_target(wanted, metres(0.0)), wanted, "{case}");
        assert_eq!(
            core_target(wanted, metres(row.highest_with_m)),
            wanted,
            "{case}"
        );
        let higher = metres(row.highest_with_m + 1000.0);
        let capped = boiling_point(higher) - CORE_BELOW_BOILING;
        assert_eq!(core_target(wanted, higher), capped, "{case}");
    }
}

proptest! {
    #[test]
    fn larger_pieces_never_bake_faster(
        piece_g in 20.0..=1500.0_f64,
        more_g in 0.0..=500.0_f64,
        low in 5.0..=30.0_f64,
        wide in 0.0..=20.0_f64,
    ) {
        let formula = window(low, low + wide / 2.0, low + wide);
        let of = |mass_g| bake_window(&formula, grams(100.0), Grams::clamped(mass_g));
        let (smaller, larger) = (of(piece_g), of(piece_g + more_g));
        prop_assert!(larger.low() >= smaller.low());
        prop_assert!(larger.likely() >= smaller.likely());
        prop_assert!(larger.high() >= smaller.high());
        prop_assert!(smaller.low() <= smaller.likely() && smaller.likely() <= smaller.high());
    }

    #[test]
    fn higher_up_water_never_boils_hotter_nor_is_the_core(
        at_m in -500.0..=6000.0_f64,
        higher_m in 0.0..=1000.0_f64,
        wanted_c in 80.0..=99.0_f64,
    ) {
        let (low, high) = (Metres::clamped(at_m), Metres::clamped(at_m + higher_m));
        prop_assert!(boiling_point(high) <= boiling_point(low));
        let wanted = Celsius::clamped(wanted_c);
        prop_assert!(core_target(wanted, high) <= core_target(wanted, low));
        prop_assert!(core_target(wanted, low) <= wanted);
    }

    #[test]
    fn a_dial_is_at_most_half_a_step_off(stated_c in 100.0..=250.0_f64) {
        let stated = Celsius::clamped(stated_c);
        match dial_setting(stated, Fan::Off, Dial::Celsius) {
            Some(DialSetting::Celsius(set)) => prop_assert!((f64::from(set) - stated_c).abs() <= 2.5),
            other => prop_assert!(false, "{other:?}"),
        }
        match dial_setting(stated, Fan::Off, Dial::Fahrenheit) {
            Some(DialSetting::Fahrenheit(set)) => {
                prop_assert!((f64::from(set) - stated.to_fahrenheit()).abs() <= 12.5 + 1e-9);
            }
            other => prop_assert!(false, "{other:?}"),
        }
        match dial_setting(stated, Fan::Off, Dial::Gas) {
            Some(DialSetting::Gas(mark)) => {
                prop_assert!((mark.exact() - stated).get().abs() <= 25.0 / 1.8);
            }
            other => prop_assert!(false, "{other:?}"),
        }
    }
}

#[test]
fn an_oven_is_on_for_a_bread_from_its_switch_until_it_is_out() {
    let points = taken_up();
    let is_on = points.iter().map(|point| point.bake.state().has_oven_on());
    // At none of the others was it turned on, or is anything still in it.
    let names = TAKEN_UP.iter().zip(is_on);
    let on: Vec<_> = names.filter(|&(_, on)| on).map(|(name, _)| *name).collect();
    assert_eq!(on, ["Bake"]);
}

#[test]
fn a_bread_whose_bake_has_ended_is_to_be_taken_out_until_it_is() {
    let place = TAKEN_UP.iter().position(|name| *name == "Bake");
    let mut point = taken_up().swap_remove(place.expect("it is taken up there"));
    let steps = &point.bake.state().formula.steps;
    let bake = steps.iter().find(|step| step.kind == StepKind::Bake);
    let bake = bake.expect("it is baked").id;
    assert_eq!(point.bake.state().to_take_out(), None);
    say(&mut point.bake, Intent::Done(bake), point.now);
    let out = point.bake.state().to_take_out().expect("it is done");
    assert_eq!(point.bake.state().formula.title(out), "Out of the oven");
    say(&mut point.bake, Intent::Done(out), point.now);
    assert_eq!(point.bake.state().to_take_out(), None);
    assert!(!point.bake.state().has_oven_on());
}

/// Common practice, no source: an oven is turned off once nothing is baked in it any more.
#[test]
fn an_oven_is_to_be_turned_off_as_its_bread_is_out_and_when_all_is_done() {
    for id in ["plum-almond-buns", "orange-braid", "overnight-tin-loaf"] {
        let at = Moment::from_epoch_ms(1_789_894_800_000);
        let mut bake = begin(starter(id), Kitchen::UNMEASURED, at);
        let quick = |_: StepKind| minutes(5.0);
        let (baked, mut now) = up_to(&mut bake, StepKind::Bake, at, quick);
        assert!(!bake.state().is_done_with_oven(), "{id}: it bakes");
        say(&mut bake, Intent::Done(baked), now);
        let out = bake.state().to_take_out().expect("it is baked");
        assert!(bake.state().is_done_with_oven(), "{id}: it comes out");
        now = now + minutes(1.0);
        say(&mut bake, Intent::Done(out), now);
        let steps: Vec<_> = bake
            .state()
            .formula
            .steps
            .iter()
            .map(|step| step.id)
            .collect();
        for done in 0..steps.len() {
            let state = bake.state();
            let is_said = done == 0 || state.all_ended();
            assert_eq!(
                state.is_done_with_oven(),
                is_said,
                "{id}: {done} steps after it"
            );
            let Some(&open) = steps.iter().find(|&&step| state.is_open(step)) else {
                break;
            };
            now = now + minutes(1.0);
            say(&mut bake, Intent::Done(open), now);
        }
        assert!(
            bake.state().all_ended() && bake.state().is_done_with_oven(),
            "{id}"
        );
    }
}
