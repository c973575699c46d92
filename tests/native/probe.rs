//! What a reading in the middle does to the rest, against Newton's law of cooling and the series solution.
//!
//! Sources: Newton's law and the one-term series in Incropera & DeWitt,
//! *Fundamentals of Heat and Mass Transfer*, ch. 5; the centre of a ball whose
//! surface is held at one temperature in Carslaw & Jaeger, *Conduction of Heat in
//! Solids*, §9.3 (section numbers from memory); the weighted mean of two
//! measurements in the *Guide to the Expression of Uncertainty in Measurement*
//! (JCGM 100), from memory.

use crate::cooling::newton_body;
use checks::assert_close;
use domain::estimate::{Basis, Estimate};
use domain::thermal::cooling::{FilmSpread, HORIZON};
use domain::thermal::oven::core_course;
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
        Vessel::baked_piece(grams(900.0)),
    ] {
        let hot = vessel.course(START, celsius(80.0), &fridge());
        let cooler = vessel.course(START, celsius(70.0), &fridge());
        let target = celsius(10.0);
        let sure = believed(&hot, target, 1.0, 1.0);
        for read_at in [20.0, 60.0, 110.0] {
            let core = cooler.core_at(at(read_at));
            let window = window_after(&hot, &sure, None, target, at(read_at), core);
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
    let window = window_after(&course, &sure, None, target, at(30.0), core);
    // Half an hour at 22 °C, then towards 4 °C.
    let at_60 = 22.0 + 48.0 * f64::exp(-30.0 / 50.0);
    let expected = 60.0 + 50.0 * f64::ln((at_60 - 4.0) / 6.0);
    assert_close("end in min", after(window.likely()), expected, 0.01);
}

/// θ = 2 Σ (−1)ⁿ⁺¹ exp(−n² π² Fo), scaled so that the middle has 92 °C after 40 min.
#[test]
fn the_middle_of_a_loaf_warms_as_the_ball_of_the_handbook() {
    let (dough, wanted, likely) = (24.0, 92.0, 40.0);
    let course = core_course(
        grams(900.0),
        START,
        minutes(likely),
        celsius(dough),
        celsius(wanted),
        metres(0.0),
    );
    let theta = |fo: f64| {
        let term = |n: i32| {
            let n = f64::from(n);
            let sign = if n % 2.0 == 0.0 { -1.0 } else { 1.0 };
            2.0 * sign * f64::exp(-n * n * std::f64::consts::PI.powi(2) * fo)
        };
        (1..40).map(term).sum::<f64>()
    };
    // Fo at which θ is (100 − 92) / (100 − 24), by the first term, which is all that is left there.
    let fo_done = f64::ln(2.0 * 76.0 / 8.0) / std::f64::consts::PI.powi(2);
    for after in [10.0, 20.0, 30.0, 38.0, 40.0] {
        let expected = 100.0 - 76.0 * theta(fo_done * after / likely);
        // 0.3 K: standard boiling is 99.97 °C, and the surface is held by a film of Bi about a thousand.
        assert_close(
            "middle in °C",
            course.core_at(at(after)).get(),
            expected,
            0.3,
        );
    }
}

#[test]
fn a_middle_that_is_there_already_was_there_at_the_latest_when_it_was_read() {
    let course = newton_body(40.0).course(START, celsius(64.0), &fridge());
    let target = celsius(10.0);
    let before = believed(&course, target, 0.8, 1.2);
    for core in [10.0, 9.0, -3.0] {
        let window = window_after(&course, &before, None, target, at(50.0), celsius(core));
        assert_eq!(window, Estimate::exact(at(50.0), Basis::Measured));
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// Nothing in the oven is colder than it went in, nor hotter than boiling, and it only ever warms.
    #[test]
    fn the_middle_of_a_piece_goes_from_its_dough_towards_boiling(
        piece in 30.0..2_000.0_f64,
        likely in 5.0..90.0_f64,
        dough in 4.0..35.0_f64,
        wanted in 70.0..97.0_f64,
        share in 0.05..3.0_f64,
        later in 0.0..30.0_f64,
    ) {
        // In the first moments the series is cut short.
        let after = share * likely;
        let course = core_course(
            grams(piece),
            START,
            minutes(likely),
            celsius(dough),
            celsius(wanted),
            metres(0.0),
        );
        let (now, then) = (course.core_at(at(after)).get(), course.core_at(at(after + later)).get());
        prop_assert!(now >= dough - 0.02 && now <= 100.0, "{now}");
        prop_assert!(then >= now - 0.02, "{now} and then {then}");
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
        let window = window_after(&course, &before, Some(&passing), target, read_at, core);
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
            window_after(&course, &before, Some(&passing), target, at(read_at), core).likely()
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
        let window = window_after(&course, &before, None, target, at(read_at), Celsius::clamped(core));
        prop_assert!(window.low() >= at(read_at));
        prop_assert!(window.high() <= at(read_at) + HORIZON + Minutes::clamped(1e-6));
    }
}
