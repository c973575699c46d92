//! How a piece warms in the oven, and what its time hangs on, against finite differences and
//! measured breads (`reference/oven.toml`).

mod forms;
mod height;
mod measured;
mod shells;
mod windows;

use checks::assert_close;
use domain::bake::Bake;
use domain::estimate::Estimate;
use domain::formula::{Formula, Step, StepKind};
use domain::kitchen::Kitchen;
use domain::thermal::oven::{BakeForm, Baking, Fan, Heat, oven_course, with_fan};
use domain::units::{Celsius, Grams, Minutes, Moment, celsius, metres, minutes};
use proptest::prelude::*;
use shells::Shells;

const START: Moment = Moment::from_epoch_ms(1_700_000_000_000);

fn baking(piece_g: f64, dough_c: f64, core_c: f64) -> Baking {
    Baking {
        piece: Grams::clamped(piece_g),
        form: BakeForm::Round,
        dough: Celsius::clamped(dough_c),
        core: Celsius::clamped(core_c),
        altitude: metres(0.0),
    }
}

fn still(air_c: f64) -> Heat {
    Heat {
        air: Celsius::clamped(air_c),
        fan: Fan::Off,
    }
}

fn bake_step(formula: &Formula) -> &Step {
    let mut steps = formula.steps.iter();
    let bake = steps.find(|step| step.kind == StepKind::Bake);
    bake.expect("it bakes")
}

fn begin(formula: Formula, kitchen: Kitchen) -> Bake {
    checks::begin(formula, kitchen, START)
}

fn in_oven(formula: Formula, kitchen: Kitchen) -> Estimate<Minutes> {
    let bake = begin(formula, kitchen);
    let step = bake_step(&bake.state().formula);
    bake.state().length_if_started(step, START)
}

/// 0.3 % for the modes that are left out.
#[test]
fn times_in_two_ovens_are_those_of_finite_differences() {
    for (form, piece_g) in [
        (BakeForm::Round, 60.0),
        (BakeForm::Round, 130.0),
        (BakeForm::Round, 900.0),
        (BakeForm::Long, 750.0),
        (BakeForm::Touching, 85.0),
    ] {
        let bread = Baking {
            form,
            ..baking(piece_g, 25.0, 92.0)
        };
        let shells = |air_c| Shells::of(form, piece_g, air_c, 25.0).reaches(92.0);
        let (mild, usual, hot) = (shells(160.0), shells(190.0), shells(230.0));
        let ratio = |to_c| bread.time_ratio(still(190.0), still(to_c));
        let case = format!("{piece_g} g, {form:?}");
        assert_close(&case, ratio(160.0), mild / usual, 0.003 * mild / usual);
        assert_close(&case, ratio(230.0), hot / usual, 0.003 * hot / usual);
        assert_close(&case, ratio(190.0), 1.0, 1e-9);
    }
}

/// 0.5 K for the surface's way up to boiling in six steps.
#[test]
fn the_middle_goes_the_way_of_finite_differences() {
    for (form, piece_g, oven_c, likely) in [
        (BakeForm::Round, 60.0, 200.0, 12.0),
        (BakeForm::Round, 900.0, 190.0, 40.0),
        (BakeForm::Ring, 600.0, 180.0, 25.0),
        (BakeForm::Touching, 60.0, 190.0, 20.0),
    ] {
        let shells = Shells::of(form, piece_g, oven_c, 25.0);
        let bread = Baking {
            form,
            ..baking(piece_g, 25.0, 92.0)
        };
        let course = oven_course(&bread, still(oven_c), START, minutes(likely));
        let done = shells.reaches(92.0);
        for tenth in 1..=12 {
            let part = f64::from(tenth) / 10.0;
            let got = course.core_at(START + minutes(likely * part)).get();
            let case = format!("{piece_g} g, {form:?} at {part}");
            assert_close(&case, got, shells.at(done * part), 0.5);
        }
        let at_likely = course.core_at(START + minutes(likely)).get();
        assert_close("done", at_likely, 92.0, 1e-3);
    }
}

/// What the model leaves out by taking in every dough at its formula's reference, as its documentation has it.
#[test]
fn a_cold_dough_bakes_a_tenth_longer() {
    for (form, piece_g, core, longer) in [
        (BakeForm::Round, 85.0, 92.0, 1.115),
        (BakeForm::Long, 750.0, 92.0, 1.112),
        (BakeForm::Tin, 900.0, 94.0, 1.084),
    ] {
        let with = |dough| Baking {
            form,
            ..baking(piece_g, dough, core)
        };
        let (cold, warm) = (with(8.0), with(25.0));
        let got = cold.longer_than(still(190.0), &warm, still(190.0));
        assert_close(&format!("{piece_g} g, {form:?}"), got, longer, 0.003);
        let lukewarm = with(30.0).longer_than(still(190.0), &warm, still(190.0));
        assert!((0.96..0.98).contains(&lukewarm), "{lukewarm}");
    }
}

/// The chart's 20 K make a fan oven's time that of a still one; h of 30 says 2 to 7 % less.
#[test]
fn a_fan_oven_set_lower_bakes_about_as_long() {
    for piece_g in [40.0, 100.0, 900.0] {
        let fan = Heat {
            air: with_fan(celsius(200.0)),
            fan: Fan::On,
        };
        let ratio = baking(piece_g, 25.0, 92.0).time_ratio(still(200.0), fan);
        assert!((0.92..=1.0).contains(&ratio), "{piece_g} g: {ratio}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_hotter_oven_never_takes_longer(
        piece_g in 20.0..=2500.0_f64,
        oven_c in 130.0..=260.0_f64,
        hotter_k in 0.0..=60.0_f64,
        core_c in 75.0..=98.0_f64,
        dough_c in 4.0..=35.0_f64,
        fan in any::<bool>(),
        form in prop::sample::select(&BakeForm::ALL[..]),
    ) {
        let bread = Baking { form, ..baking(piece_g, dough_c, core_c) };
        let oven = |air_c| Heat {
            air: Celsius::clamped(air_c),
            fan: if fan { Fan::On } else { Fan::Off },
        };
        let ratio = bread.time_ratio(oven(oven_c), oven(oven_c + hotter_k));
        prop_assert!(ratio > 0.2 && ratio <= 1.0 + 1e-6, "{}", ratio);
    }

    #[test]
    fn the_middle_only_warms_and_never_boils(
        piece_g in 20.0..=2500.0_f64,
        oven_c in 130.0..=260.0_f64,
        likely in 5.0..=90.0_f64,
        form in prop::sample::select(&BakeForm::ALL[..]),
    ) {
        let bread = Baking { form, ..baking(piece_g, 25.0, 92.0) };
        let course = oven_course(&bread, still(oven_c), START, minutes(likely));
        let mut before = 25.0;
        for tenth in 0..=20 {
            let now = course.core_at(START + minutes(likely * f64::from(tenth) / 10.0)).get();
            // The truncated series ripples by so much in the beginning.
            prop_assert!(now >= before - 0.3 && now < 100.0, "{} after {}", now, before);
            before = now;
        }
    }
}
