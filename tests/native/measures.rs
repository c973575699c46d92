//! Masses, volumes, lengths and oven settings in metric, American and imperial units.
//!
//! Exact definitions: the pound is 0.453 592 37 kg, the inch 25.4 mm, the US gallon 231 in³ and the
//! imperial gallon 4.546 09 L (international yard and pound agreement of 1959; Weights and Measures
//! Act 1985). The rounded factors are those of NIST SP 811, appendix B.8 (from memory; the page was
//! found, its tables were not seen), in kg, m³ and m. The oracle has the same against pint.

use checks::assert_close;
use domain::thermal::oven::{Dial, DialSetting, Fan, GasMark, dial_setting};
use domain::units::measures::{INCH, Measure, OUNCE, POUND};
use domain::units::{Celsius, Grams, Millilitres, Millimetres, celsius, grams};
use proptest::prelude::*;

#[test]
fn measures_are_those_of_the_national_institute() {
    for (measure, cubic_metres) in [
        (Measure::UsQuart, 9.463_529e-4),
        (Measure::UsPint, 4.731_765e-4),
        (Measure::UsCup, 2.365_882e-4),
        (Measure::UsFluidOunce, 2.957_353e-5),
        (Measure::UsTablespoon, 1.478_676e-5),
        (Measure::UsTeaspoon, 4.928_922e-6),
        (Measure::ImperialFluidOunce, 2.841_306e-5),
    ] {
        let volume_ml = measure.volume().get();
        let expected_ml = cubic_metres * 1e6;
        // Seven figures are printed: half of the last is 5e-7 at most.
        assert_close(&format!("{measure:?}"), volume_ml / expected_ml, 1.0, 5e-7);
    }
    assert_close("ounce", OUNCE.get(), 28.349_52, 5e-6);
    assert_close("pound", POUND.get(), 453.592_37, 0.0);
    assert_close("inch", INCH.get(), 25.4, 0.0);
}

#[test]
fn measures_are_parts_of_their_gallons() {
    let gallon_ml = 231.0 * 2.54_f64.powi(3);
    for (measure, parts) in [
        (Measure::UsQuart, 4.0),
        (Measure::UsPint, 8.0),
        (Measure::UsCup, 16.0),
        (Measure::UsFluidOunce, 128.0),
        (Measure::UsTablespoon, 256.0),
        (Measure::UsTeaspoon, 768.0),
    ] {
        let all_ml = measure.volume().get() * parts;
        assert_close(&format!("{measure:?}"), all_ml, gallon_ml, 1e-9);
    }
    let pint_ml = Measure::ImperialPint.volume().get();
    assert_close("imperial pint", pint_ml, 568.261_25, 1e-9);
    let ounce_ml = Measure::ImperialFluidOunce.volume().get();
    assert_close("twenty ounces", 20.0 * ounce_ml, pint_ml, 1e-9);
}

#[test]
fn what_is_nearly_a_pound_is_a_pound() {
    for (mass_g, parts, pounds, ounces) in [
        (453.592_37, 1, 1, 0.0),
        // 15.98 ounces.
        (453.0, 4, 1, 0.0),
        (453.0, 100, 0, 15.98),
        (680.0, 4, 1, 8.0),
        (0.0, 4, 0, 0.0),
        (28.349_523_125, 4, 0, 1.0),
        // A quarter of an ounce is 7.09 g.
        (7.0, 4, 0, 0.25),
        (100.0, 0, 0, 4.0),
    ] {
        let shown = grams(mass_g).to_pounds_and_ounces(parts);
        assert_eq!(shown.pounds, pounds, "{mass_g} g");
        assert_close(&format!("{mass_g} g"), shown.ounces, ounces, 1e-9);
    }
}

#[test]
fn what_does_not_fit_says_so() {
    let cause = Grams::from_pounds(1e4).expect_err("five tonnes of flour");
    assert!(cause.to_string().contains("100000 g"), "{cause}");
    assert!(Grams::from_ounces(-1.0).is_err());
    assert!(Grams::from_kilograms(f64::NAN).is_err());
    assert!(Millimetres::from_inches(100.0).is_err());
    assert!(Millilitres::from_measures(f64::INFINITY, Measure::UsCup).is_err());
}

#[test]
fn every_mark_is_set_and_read_back() {
    for mark in GasMark::ALL {
        for fan in [Fan::Off, Fan::On] {
            let means = DialSetting::Gas(mark).without_fan(fan);
            assert_eq!(
                dial_setting(means, fan, Dial::Gas),
                Some(DialSetting::Gas(mark))
            );
        }
    }
    // 350 °F and mark 4 are the same oven; with a fan 320 °F is meant for 180 °C.
    let mark = DialSetting::Gas(GasMark::Four).without_fan(Fan::Off);
    let dial = DialSetting::Fahrenheit(350).without_fan(Fan::Off);
    assert_close("mark 4", mark.get(), dial.get(), 1e-9);
    let fan = DialSetting::Fahrenheit(320).without_fan(Fan::On);
    assert_close("320 °F with a fan", fan.get(), 180.0, 1e-9);
}

fn near(got: f64, expected: f64) -> bool {
    (got - expected).abs() <= 1e-9 * expected.abs().max(1.0)
}

proptest! {
    #[test]
    fn there_and_back_is_where_it_began(
        mass_g in 0.0..100_000.0_f64,
        volume_ml in 0.0..1_000_000.0_f64,
        length_mm in 0.0..1999.0_f64,
        parts in 0_u32..100,
    ) {
        let mass = grams(mass_g);
        for back in [
            Grams::from_kilograms(mass.to_kilograms()),
            Grams::from_ounces(mass.to_ounces()),
            Grams::from_pounds(mass.to_pounds()),
        ] {
            prop_assert!(back.is_ok_and(|back| near(back.get(), mass_g)));
        }
        let shown = mass.to_pounds_and_ounces(parts);
        prop_assert!((0.0..16.0).contains(&shown.ounces));
        let back = Grams::from_pounds_and_ounces(f64::from(shown.pounds), shown.ounces);
        let half_g = OUNCE.get() / 2.0 / f64::from(parts.max(1));
        // The heaviest of all may be rounded to beyond the range.
        let back_g = back.map_or(mass_g, Grams::get);
        prop_assert!((back_g - mass_g).abs() <= half_g + 1e-6, "{back_g} g for {mass_g} g");
        let volume = Millilitres::clamped(volume_ml);
        for measure in Measure::ALL {
            let back = Millilitres::from_measures(volume.to_measures(measure), measure);
            prop_assert!(back.is_ok_and(|back| near(back.get(), volume_ml)));
        }
        let length = Millimetres::clamped(length_mm);
        for back in [
            Millimetres::from_inches(length.to_inches()),
            Millimetres::from_centimetres(length.to_centimetres()),
        ] {
            prop_assert!(back.is_ok_and(|back| near(back.get(), length_mm)));
        }
    }

    #[test]
    fn a_dial_is_read_back_to_half_its_step(oven_c in 110.0..260.0_f64, with_fan in any::<bool>()) {
        let fan = if with_fan { Fan::On } else { Fan::Off };
        let oven: Celsius = celsius(oven_c);
        for (dial, half_k) in [
            (Dial::Celsius, 2.5),
            (Dial::Fahrenheit, 12.5 / 1.8),
            // Beyond the last mark by up to a whole one.
            (Dial::Gas, if oven_c > 253.0 { 25.0 / 1.8 } else { 12.5 / 1.8 }),
        ] {
            let Some(setting) = dial_setting(oven, fan, dial) else {
                prop_assert!(dial == Dial::Gas && oven_c > 259.0);
                continue;
            };
            let off_k = (setting.without_fan(fan) - oven).get().abs();
            prop_assert!(off_k <= half_k + 1e-9, "{setting:?} for {oven_c} °C");
        }
    }
}
