//! How a piece warms in the oven, and what its time hangs on, against finite differences and
//! measured breads (`reference/oven.toml`).

use checks::{assert_close, starter};
use domain::bake::{Bake, BakeId, Entry, Event, Intent, Start, decide};
use domain::estimate::{Basis, Estimate};
use domain::formula::{Formula, Length, Size, Step, StepKind};
use domain::kitchen::{FURTHEST_OVEN, Kitchen, OvenKind};
use domain::thermal::oven::altitude::boiling_point;
use domain::thermal::oven::{
    Baked, Baking, Fan, Heat, form_ratio, oven_course, window_in, with_fan,
};
use domain::units::{
    Celsius, CelsiusDelta, Grams, Millimetres, Minutes, Moment, celsius, celsius_delta, grams,
    metres, minutes,
};
use proptest::prelude::*;
use serde::Deserialize;

const START: Moment = Moment::from_epoch_ms(1_700_000_000_000);

#[derive(Deserialize)]
struct Table {
    measured_bread: MeasuredBread,
    measured_loaf: MeasuredLoaf,
}

#[derive(Deserialize)]
struct MeasuredBread {
    grams: f64,
    dough_c: f64,
    oven_c: f64,
    through_c: f64,
    through_min: f64,
    late_c: f64,
    tolerance_k: f64,
    late_tolerance_k: f64,
    minutes: Vec<f64>,
    centre_c: Vec<f64>,
}

#[derive(Deserialize)]
struct MeasuredLoaf {
    grams: f64,
    dough_c: f64,
    oven_c: f64,
    through_c: f64,
    through_min: f64,
    later_c: Vec<f64>,
    later_min: Vec<f64>,
    tolerance_min: Vec<f64>,
}

fn table() -> Table {
    toml::from_str(include_str!("../reference/oven.toml")).expect("the table reads")
}

fn baking(piece_g: f64, dough_c: f64, core_c: f64) -> Baking {
    Baking {
        piece: Grams::clamped(piece_g),
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

/// The middle of a ball by finite differences: u = r T over a hundred shells, explicit in time.
/// Heat comes through a film until the surface boils, and then the surface is held there.
struct Shells {
    fourier: Vec<f64>,
    centre_c: Vec<f64>,
}

impl Shells {
    fn of(biot: f64, oven_c: f64, dough_c: f64) -> Self {
        const SHELLS: usize = 100;
        let boiling_c = boiling_point(metres(0.0)).get();
        let dr = 1.0 / SHELLS as f64;
        let dt = 0.4 * dr * dr;
        let mut t_c = [dough_c; SHELLS + 1];
        let (mut fourier, mut centre_c) = (vec![0.0], vec![dough_c]);
        let mut boils = false;
        for step in 1..=40_000 {
            let old = t_c;
            for i in 1..SHELLS {
                let r = i as f64;
                // ∂(rT)/∂Fo = ∂²(rT)/∂r²
                let curve = (r + 1.0) * old[i + 1] - 2.0 * r * old[i] + (r - 1.0) * old[i - 1];
                t_c[i] = old[i] + 0.4 * curve / r;
            }
            // A parabola through the inner shells is level at the centre.
            t_c[0] = (4.0 * t_c[1] - t_c[2]) / 3.0;
            // A parabola through the outer shells meets dT/dr = Bi (T_oven − T).
            let inner = 4.0 * t_c[SHELLS - 1] - t_c[SHELLS - 2];
            let by_film = (inner + 2.0 * dr * biot * oven_c) / (3.0 + 2.0 * dr * biot);
            boils |= by_film >= boiling_c;
            t_c[SHELLS] = if boils { boiling_c } else { by_film };
            if step % 20 == 0 {
                fourier.push(f64::from(step) * dt);
                centre_c.push(t_c[0]);
            }
        }
        Self { fourier, centre_c }
    }

    fn reaches(&self, wanted_c: f64) -> f64 {
        let after = self.centre_c.partition_point(|&centre| centre < wanted_c);
        let (low, high) = (self.centre_c[after - 1], self.centre_c[after]);
        let part = (wanted_c - low) / (high - low);
        self.fourier[after - 1] + part * (self.fourier[after] - self.fourier[after - 1])
    }

    fn at(&self, fourier: f64) -> f64 {
        let after = self.fourier.partition_point(|&at| at < fourier).max(1);
        let (low, high) = (self.fourier[after - 1], self.fourier[after]);
        let part = (fourier - low) / (high - low);
        self.centre_c[after - 1] + part * (self.centre_c[after] - self.centre_c[after - 1])
    }
}

/// h R / k with the model's own h of 21 W/(m² K), k of 0.8 W/(m K) and 484 kg/m³.
fn biot(piece_g: f64, film: f64) -> f64 {
    let radius_m = (piece_g / 1000.0 / 484.0 * 0.75 / std::f64::consts::PI).cbrt();
    film * radius_m / 0.8
}

/// 0.3 % for the modes that are left out.
#[test]
fn times_in_two_ovens_are_those_of_finite_differences() {
    for piece_g in [60.0, 130.0, 900.0] {
        let shells = |air_c| Shells::of(biot(piece_g, 21.0), air_c, 25.0).reaches(92.0);
        let (mild, usual, hot) = (shells(160.0), shells(190.0), shells(230.0));
        let ratio = |to_c| baking(piece_g, 25.0, 92.0).time_ratio(still(190.0), still(to_c));
        let case = format!("{piece_g} g");
        assert_close(&case, ratio(160.0), mild / usual, 0.003 * mild / usual);
        assert_close(&case, ratio(230.0), hot / usual, 0.003 * hot / usual);
        assert_close(&case, ratio(190.0), 1.0, 1e-9);
    }
}

/// 0.5 K for the surface's way up to boiling in six steps.
#[test]
fn the_middle_goes_the_way_of_finite_differences() {
    for (piece_g, oven_c, likely) in [(60.0, 200.0, 12.0), (900.0, 190.0, 40.0)] {
        let shells = Shells::of(biot(piece_g, 21.0), oven_c, 25.0);
        let bread = baking(piece_g, 25.0, 92.0);
        let course = oven_course(&bread, still(oven_c), START, minutes(likely));
        let done = shells.reaches(92.0);
        for tenth in 1..=12 {
            let part = f64::from(tenth) / 10.0;
            let got = course.core_at(START + minutes(likely * part)).get();
            assert_close(
                &format!("{piece_g} g at {part}"),
                got,
                shells.at(done * part),
                0.5,
            );
        }
        let at_likely = course.core_at(START + minutes(likely)).get();
        assert_close("done", at_likely, 92.0, 1e-3);
    }
}

#[test]
fn the_middle_goes_the_way_of_a_measured_bread() {
    let bread = table().measured_bread;
    let course = oven_course(
        &baking(bread.grams, bread.dough_c, bread.through_c),
        still(bread.oven_c),
        START,
        minutes(bread.through_min),
    );
    for (minute, measured_c) in bread.minutes.into_iter().zip(bread.centre_c) {
        let got = course.core_at(START + minutes(minute)).get();
        let late = measured_c >= bread.late_c;
        let tolerance = if late {
            bread.late_tolerance_k
        } else {
            bread.tolerance_k
        };
        assert_close(&format!("{minute} min"), got, measured_c, tolerance);
    }
}

#[test]
fn the_middle_goes_the_way_of_measured_loaves() {
    let loaf = table().measured_loaf;
    let course = oven_course(
        &baking(loaf.grams, loaf.dough_c, loaf.through_c),
        still(loaf.oven_c),
        START,
        minutes(loaf.through_min),
    );
    let tolerances = loaf.tolerance_min.into_iter();
    let rows = loaf.later_c.into_iter().zip(loaf.later_min).zip(tolerances);
    for ((core_c, measured_min), tolerance) in rows {
        let reached = course.when_core_reaches(celsius(core_c), minutes(120.0));
        let got = reached.expect("it gets there") - START;
        assert_close(&format!("{core_c} °C"), got.get(), measured_min, tolerance);
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

/// Three formulas of ours, written apart from each other: from the buns' time follow the others'.
/// A quarter, for a braid is no stick, and tins and kneaders differ.
#[test]
fn the_starters_times_follow_from_one_another() {
    let bun = Baked::Ball { mass: grams(130.0) };
    let tin = Baked::Filled {
        mass: grams(900.0),
        width: Millimetres::clamped(100.0),
        length: Millimetres::clamped(230.0),
    };
    let stick = Baked::Roll {
        mass: grams(750.0),
        length: Millimetres::clamped(300.0),
    };
    for (name, form, piece_g, oven_c, minutes) in [
        ("loaf", tin, 900.0, 200.0, 40.0),
        ("braid", stick, 750.0, 180.0, 32.0),
    ] {
        let ratio = form_ratio(bun, form, celsius(25.0), celsius(92.0), metres(0.0));
        let ratio = ratio.expect("it bakes through").likely();
        let oven = baking(piece_g, 25.0, 92.0).time_ratio(still(190.0), still(oven_c));
        assert_close(name, 18.0 * ratio * oven, minutes, 0.25 * minutes);
    }
}

/// Products of the series, each with its own one-term solution: `θ = C exp(−ζ² Fo)` for the
/// directions that are short, and 1 along a length that heat hasn't crossed.
#[test]
fn forms_follow_the_handbook_s_one_term_solutions() {
    let (dough, core) = (celsius(25.0), celsius(92.0));
    let boiling_c = boiling_point(metres(0.0)).get();
    let theta = (boiling_c - 92.0) / (boiling_c - 25.0);
    let ratio = |to| {
        let ball = Baked::Ball { mass: grams(484.0) };
        form_ratio(ball, to, dough, core, metres(0.0)).expect("it bakes through")
    };
    // 484 g are a litre of risen dough, a ball of 62.04 mm radius: C = 2, ζ = π.
    let ball = f64::ln(2.0 / theta) / std::f64::consts::PI.powi(2) * 62.04_f64.powi(2);
    // 25 mm deep on a tray of 200 mm square: C = 4/π, ζ = π/2, on the half depth.
    let tray = Baked::Filled {
        mass: grams(484.0),
        width: Millimetres::clamped(200.0),
        length: Millimetres::clamped(200.0),
    };
    let pi = std::f64::consts::PI;
    let slab = f64::ln(4.0 / pi / theta) / (pi * pi / 4.0) * 12.5_f64.powi(2);
    // 1.5 %: a film that isn't endless, and lengths that heat has begun to cross.
    assert_close(
        "tray",
        ratio(tray).likely(),
        slab / ball,
        0.015 * slab / ball,
    );
    let twice = ratio(Baked::Ball { mass: grams(968.0) });
    assert_close("ball", twice.likely(), 2.0_f64.powf(2.0 / 3.0), 0.002);
    assert_close("ball", twice.low(), 2.0_f64.cbrt(), 1e-9);
    let unreached = form_ratio(tray, tray, dough, celsius(101.0), metres(0.0));
    assert_eq!(unreached, None);
}

fn window(low: f64, likely: f64, high: f64) -> Estimate<Minutes> {
    Estimate::new(minutes(low), minutes(likely), minutes(high), Basis::Formula)
}

#[test]
fn a_window_takes_in_the_oven_and_its_load() {
    let (stated, bread) = (window(16.0, 18.0, 22.0), baking(130.0, 25.0, 90.0));
    let oven = celsius(190.0);
    let within = |fan, off, load| window_in(&stated, &bread, oven, fan, celsius_delta(off), load);
    let sure = within(Fan::Off, 0.0, 1.0);
    assert_close("low", sure.low().get(), 16.0, 1e-9);
    assert_close("high", sure.high().get(), 22.0, 1e-9);
    let by_oven = |to_c: f64| bread.time_ratio(still(190.0), still(to_c)).ln();
    let unsure = within(Fan::Off, 10.0, 1.0);
    let end = |stated: f64, by_oven: f64| (stated / 18.0).ln().hypot(by_oven).exp();
    assert_close(
        "low",
        unsure.low().get(),
        18.0 / end(16.0, by_oven(200.0)),
        1e-9,
    );
    assert_close(
        "high",
        unsure.high().get(),
        18.0 * end(22.0, by_oven(180.0)),
        1e-9,
    );
    assert_eq!(unsure.likely(), stated.likely());
    assert!(within(Fan::On, 10.0, 1.0).low() < unsure.low());
    assert_eq!(within(Fan::On, 10.0, 1.0).high(), unsure.high());
    // 5 % for twice the load, 10 for four times and no more than that; nothing for less.
    for (load, longer) in [(0.5, 1.0), (2.0, 1.05), (4.0, 1.1), (40.0, 1.1)] {
        let high = within(Fan::Off, 0.0, load).high().get();
        assert_close(&format!("× {load}"), high, 22.0 * longer, 1e-9);
    }
    let nothing = window(0.0, 0.0, 0.0);
    let off = celsius_delta(10.0);
    assert_eq!(
        window_in(&nothing, &bread, oven, Fan::On, off, 1.0),
        nothing
    );
}

fn bake_step(formula: &Formula) -> &Step {
    let mut steps = formula.steps.iter();
    let bake = steps.find(|step| step.kind == StepKind::Bake);
    bake.expect("it bakes")
}

fn begin(formula: Formula, kitchen: Kitchen) -> Bake {
    let event = Event::Started(Box::new(Start { formula, kitchen }));
    Bake::from_log(BakeId("oven".to_owned()), vec![Entry { at: START, event }]).expect("its start")
}

fn in_oven(formula: Formula, kitchen: Kitchen) -> Estimate<Minutes> {
    let bake = begin(formula, kitchen);
    let step = bake_step(&bake.state().formula);
    bake.state().length_if_started(step, START)
}

#[test]
fn an_oven_that_was_checked_narrows_the_window() {
    let buns = || starter("plum-almond-buns");
    let unchecked = Kitchen::UNMEASURED;
    let checked = Kitchen {
        oven_off: Some(celsius_delta(-10.0)),
        ..unchecked
    };
    let (wide, narrow) = (in_oven(buns(), unchecked), in_oven(buns(), checked));
    assert!(wide.low() < narrow.low() && narrow.high() < wide.high());
    assert!(narrow.low() < minutes(16.0) && narrow.high() > minutes(22.0));
    assert_eq!(wide.likely(), narrow.likely());
    assert_eq!(checked.dial_for(celsius(190.0)), celsius(200.0));
    assert_eq!(unchecked.dial_for(celsius(190.0)), celsius(190.0));
    assert_eq!(OvenKind::Gas.fan(), Fan::Off);
}

#[test]
fn more_buns_at_once_may_take_longer_and_fewer_don_t_take_less() {
    let buns = starter("plum-almond-buns");
    let made = |formula: &Formula, count| {
        let mass = grams(85.0);
        formula
            .scaled(Size::Pieces { count, mass })
            .expect("it can be made")
    };
    let kitchen = Kitchen::UNMEASURED;
    let as_written = in_oven(buns.clone(), kitchen);
    let sixteen = made(&buns, 16);
    let more = in_oven(sixteen.clone(), kitchen);
    assert_close(
        "16",
        more.high().get(),
        as_written.high().get() * 1.05,
        1e-6,
    );
    assert_close("16", more.likely().get(), as_written.likely().get(), 1e-9);
    let fewer = in_oven(made(&buns, 4), kitchen);
    assert_close("4", fewer.high().get(), as_written.high().get(), 1e-9);
    // Made from what was scaled already, it still knows what its time was written for.
    let back = in_oven(made(&sixteen, 8), kitchen);
    assert_close("8 again", back.high().get(), as_written.high().get(), 1e-9);
    let Length::Bake { load, .. } = bake_step(&sixteen).length else {
        panic!("it bakes");
    };
    assert_close(
        "load",
        load.expect("it was scaled").get(),
        8.0 * 130.0,
        1e-9,
    );
}

#[test]
fn an_oven_too_far_from_its_dial_is_refused() {
    let bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED);
    let changed = |off: CelsiusDelta| {
        let kitchen = Kitchen {
            oven_off: Some(off),
            ..Kitchen::UNMEASURED
        };
        decide(&bake, Intent::KitchenChanged(Box::new(kitchen)), START)
    };
    assert!(changed(FURTHEST_OVEN).is_ok());
    assert!(changed(celsius_delta(-40.5)).is_err());
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
    ) {
        let bread = baking(piece_g, dough_c, core_c);
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
    ) {
        let course = oven_course(&baking(piece_g, 25.0, 92.0), still(oven_c), START, minutes(likely));
        let mut before = 25.0;
        for tenth in 0..=20 {
            let now = course.core_at(START + minutes(likely * f64::from(tenth) / 10.0)).get();
            // The truncated series ripples by so much in the beginning.
            prop_assert!(now >= before - 0.3 && now < 100.0, "{} after {}", now, before);
            before = now;
        }
    }
}
