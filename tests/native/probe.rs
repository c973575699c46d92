//! What a reading in the middle does to the rest, against Newton's law of cooling and the series solution.
//!
//! Sources: Newton's law and the one-term series in Incropera & DeWitt,
//! *Fundamentals of Heat and Mass Transfer*, ch. 5 (from memory); the weighted mean of two
//! measurements in the *Guide to the Expression of Uncertainty in Measurement*
//! (JCGM 100), from memory.

use crate::cooling::newton_body;
use checks::assert_close;
use domain::estimate::{Basis, Estimate};
use domain::thermal::cooling::{FilmSpread, HORIZON};
use domain::thermal::oven::{BakeForm, Baking, Fan, Heat, oven_course};
use domain::thermal::probe::{OFF, window_after};
use domain::thermal::vessel::{Cooling, Course, Surroundings, Vessel};
use domain::units::{Celsius, Minutes, Moment, celsius, grams, metres, millimetres, minutes};
use proptest::prelude::*;

const START: Moment = Moment::from_epoch_ms(1_700_000_000_000);

fn at(after: f64) -> Moment {
    START + minutes(after)
}

fn after(moment: Moment) -> f64 {
    (moment - START).get()
}

fn fridge() -> Surroundings {
    Surroundings::constant(celsius(4.0))
}

fn reached(course: &Course, target: Celsius) -> Moment {
    course
        .when_core_reaches(target, HORIZON)
        .expect("it gets there")
}

/// A window with these factors to its ends, as lengths from the start.
fn believed(course: &Course, target: Celsius, early: f64, late: f64) -> Estimate<Moment> {
    let likely = reached(course, target) - START;
    Estimate::new(
        START + likely * early,
        START + likely,
        START + likely * late,
        Basis::Model,
    )
}

/// Newton's law: T∞ + (T₀ − T∞) exp(−t/τ), from 64 to 10 °C in air of 4 °C: t = τ ln(60/6).
///
/// A lag of 40 min is forecast and 50 is true, so after 30 min the middle is at
/// 4 + 60 exp(−0.6). Where nothing was believed, all lags become 50 and the end
/// is Newton's; the tolerance is the halving's.
#[test]
fn a_reading_alone_finds_the_true_lag_of_newtons_law() {
    let course = newton_body(40.0).course(START, celsius(64.0), &fridge());
    let target = celsius(10.0);
    let core = celsius(4.0 + 60.0 * f64::exp(-30.0 / 50.0));
    let window = window_after(
        &course,
        &believed(&course, target, 1e-6, 1e6),
        None,
        &[],
        target,
        at(30.0),
        core,
    );
    let expected = 50.0 * f64::ln(60.0 / 6.0);
    assert_close("end in min", after(window.likely()), expected, 0.15);
    assert_eq!(window.basis(), Basis::Measured);
}

/// The same with a belief of a tenth either way: its spread and the reading's are weighed by their squares.
#[test]
fn a_reading_and_what_was_believed_are_weighed_by_their_squared_spreads() {
    let course = newton_body(40.0).course(START, celsius(64.0), &fridge());
    let target = celsius(10.0);
    let gap_k = 60.0 * f64::exp(-30.0 / 50.0);
    let early = f64::exp(-0.1);
    let late = f64::exp(0.1);
    let window = window_after(
        &course,
        &believed(&course, target, early, late),
        None,
        &[],
        target,
        at(30.0),
        celsius(4.0 + gap_k),
    );
    let said = |gap_k: f64| 40.0 * f64::ln(60.0 / gap_k);
    let seen = 0.5 * f64::ln(said(gap_k - OFF.get()) / said(gap_k + OFF.get()));
    let weight = 0.01 / (0.01 + seen * seen);
    let ln_slower = weight * f64::ln(30.0 / said(gap_k));
    let left = 40.0 * ln_slower.exp() * f64::ln(gap_k / 6.0);
    assert_close("end in min", after(window.likely()), 30.0 + left, 0.01);
    // What the reading leaves of the belief, and the reading's own error, which moves pace and place together.
    let pace = (1.0 - weight) * 0.1;
    let reading = weight * seen + f64::ln(f64::ln((gap_k + 1.0) / 6.0) / f64::ln(gap_k / 6.0));
    let latest = 30.0 + left * f64::exp(pace.hypot(reading));
    assert_close("late end in min", after(window.high()), latest, 0.02);
}

/// Conduction is linear: a body that began at 70 instead of 80 °C has 66/76 of every
/// gap to 4 °C. With no doubt about the pace a reading has to give back its whole course.
#[test]
fn with_no_doubt_about_the_pace_a_cooler_body_goes_its_own_course() {
    for vessel in [
        Vessel::filling(grams(360.0), millimetres(40.0), Cooling::Fridge),
        BakeForm::Round.cooling(grams(900.0)),
    ] {
        let hot = vessel.course(START, celsius(80.0), &fridge());
        let cooler = vessel.course(START, celsius(70.0), &fridge());
        let target = celsius(10.0);
        let sure = believed(&hot, target, 1.0, 1.0);
        for read_at in [20.0, 60.0, 110.0] {
            let core = cooler.core_at(at(read_at));
            let window = window_after(&hot, &sure, None, &[], target, at(read_at), core);
            let expected = after(reached(&cooler, target));
            assert_close("end in min", after(window.likely()), expected, 0.01);
        }
    }
}

/// From there on it follows a change of what surrounds it like any other body.
#[test]
fn a_change_after_the_reading_counts() {
    let kitchen = Surroundings::constant(celsius(22.0)).changed(at(60.0), celsius(4.0));
    let vessel = newton_body(50.0);
    let course = vessel.course(START, celsius(80.0), &kitchen);
    let target = celsius(10.0);
    let sure = believed(&course, target, 1.0, 1.0);
    let core = celsius(70.0);
    let window = window_after(&course, &sure, None, &[], target, at(30.0), core);
    // Half an hour at 22 °C, then towards 4 °C.
    let at_60 = 22.0 + 48.0 * f64::exp(-30.0 / 50.0);
    let expected = 60.0 + 50.0 * f64::ln((at_60 - 4.0) / 6.0);
    assert_close("end in min", after(window.likely()), expected, 0.01);
}

fn bun() -> Baking {
    Baking {
        piece: grams(130.0),
        form: BakeForm::Round,
        dough: celsius(25.0),
        core: celsius(90.0),
        altitude: metres(0.0),
    }
}

fn still_oven() -> Heat {
    Heat {
        air: celsius(190.0),
        fan: Fan::Off,
    }
}

/// What bakes goes its own course at another pace, boiling and all. Where nothing was believed, a
/// reading from a bun that takes 24 min instead of 18 finds the 24, before its surface boils and after.
#[test]
fn a_reading_alone_finds_the_true_time_of_what_bakes() {
    for form in BakeForm::ALL {
        let bread = Baking { form, ..bun() };
        let course = |likely| oven_course(&bread, still_oven(), START, minutes(likely));
        let (forecast, true_course) = (course(18.0), course(24.0));
        let anything = Estimate::new(at(1e-3), at(18.0), at(1.8e4), Basis::Model);
        for read_at in [6.0, 12.0, 20.0] {
            let core = true_course.core_at(at(read_at));
            let window = window_after(
                &forecast,
                &anything,
                None,
                &[],
                celsius(90.0),
                at(read_at),
                core,
            );
            assert_close("end in min", after(window.likely()), 24.0, 0.1);
        }
    }
}

/// With no doubt about the pace, what has the middle of a later minute has so much less to go.
#[test]
fn with_no_doubt_about_the_pace_a_warmer_bun_is_only_further_on_its_way() {
    let course = oven_course(&bun(), still_oven(), START, minutes(18.0));
    let target = celsius(90.0);
    let sure = believed(&course, target, 1.0, 1.0);
    for (read_at, as_of) in [(6.0, 8.0), (12.0, 10.0), (10.0, 17.0)] {
        let core = course.core_at(at(as_of));
        let window = window_after(&course, &sure, None, &[], target, at(read_at), core);
        let expected = read_at + 18.0 - as_of;
        assert_close("end in min", after(window.likely()), expected, 1e-3);
    }
}

#[test]
fn a_middle_that_is_there_already_was_there_at_the_latest_when_it_was_read() {
    let course = newton_body(40.0).course(START, celsius(64.0), &fridge());
    let target = celsius(10.0);
    let before = believed(&course, target, 0.8, 1.2);
    for core in [10.0, 9.0, -3.0] {
        let window = window_after(&course, &before, None, &[], target, at(50.0), celsius(core));
        assert_eq!(window, Estimate::exact(at(50.0), Basis::Measured));
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// A later reading of the same temperature never lets it be done sooner, nor a hotter one later.
    #[test]
    fn a_bun_that_is_read_hotter_is_never_done_later(
        read_at in 3.0..30.0_f64,
        core in 35.0..88.0_f64,
        hotter in 0.1..20.0_f64,
        form in prop::sample::select(&BakeForm::ALL[..]),
    ) {
        let course = oven_course(&Baking { form, ..bun() }, still_oven(), START, minutes(18.0));
        let target = celsius(90.0);
        let before = believed(&course, target, 0.85, 1.25);
        let end = |core: f64| {
            window_after(&course, &before, None, &[], target, at(read_at), Celsius::clamped(core))
        };
        let (one, other) = (end(core), end(core + hotter));
        prop_assert!((other.likely() - one.likely()).get() < 1e-3, "{one:?} {other:?}");
        prop_assert!(one.low() >= at(read_at) && one.high() < at(read_at + 200.0), "{one:?}");
    }

    #[test]
    fn a_reading_as_forecast_changes_nothing_but_narrows_the_window(
        depth in 10.0..40.0_f64,
        share in 0.2..0.95_f64,
    ) {
        let spread = FilmSpread::of(Vessel::filling(grams(400.0), millimetres(depth), Cooling::Fridge));
        let (from, target) = (celsius(80.0), celsius(8.0));
        let before = spread.window(from, target, &fridge(), START);
        let course = spread.likely().course(START, from, &fridge());
        let read_at = START + (before.likely() - START) * share;
        let core = course.core_at(read_at);
        let passing = spread.window(from, core, &fridge(), START);
        let window = window_after(&course, &before, Some(&passing), &[], target, read_at, core);
        prop_assert!((window.likely() - before.likely()).get().abs() < 0.01);
        prop_assert!(window.low() >= before.low() && window.low() >= read_at);
        prop_assert!(window.high() <= before.high());
    }

    /// Once the middle has begun to fall: before that its pace can hardly be seen, and the less the hotter it is.
    #[test]
    fn a_cooler_reading_is_never_ready_later(
        read_at in 0.0..300.0_f64,
        core in 5.5..60.0_f64,
        cooler in 0.1..20.0_f64,
    ) {
        let spread = FilmSpread::of(Vessel::filling(grams(400.0), millimetres(25.0), Cooling::Fridge));
        let (from, target) = (celsius(80.0), celsius(5.0));
        let before = spread.window(from, target, &fridge(), START);
        let course = spread.likely().course(START, from, &fridge());
        let end = |core: f64| {
            let core = Celsius::clamped(core);
            let passing = spread.window(from, core, &fridge(), START);
            window_after(&course, &before, Some(&passing), &[], target, at(read_at), core).likely()
        };
        let (one, other) = (end(core), end(core - cooler));
        prop_assert!((other - one).get() < 1e-3, "{one:?} {other:?}");
    }

    #[test]
    fn any_reading_gives_a_window_that_is_not_before_it(
        read_at in 0.0..2_000.0_f64,
        core in -20.0..130.0_f64,
        wanted in 1.0..79.0_f64,
    ) {
        let course = newton_body(40.0).course(START, celsius(80.0), &fridge());
        let target = Celsius::clamped(wanted);
        let end = course.when_core_reaches(target, HORIZON).unwrap_or(START + HORIZON);
        let before = Estimate::new(at(1.0).min(end), end, end + minutes(30.0), Basis::Model);
        let window = window_after(&course, &before, None, &[], target, at(read_at), Celsius::clamped(core));
        prop_assert!(window.low() >= at(read_at));
        prop_assert!(window.high() <= at(read_at) + HORIZON + Minutes::clamped(1e-6));
    }
}
