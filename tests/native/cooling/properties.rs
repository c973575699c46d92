//! What must always hold of vessels and cooling.

use checks::assert_close;
use domain::thermal::cooling::{HORIZON, cooling_window, two_stage};
use domain::thermal::oven::BakeForm;
use domain::thermal::vessel::{Body, Cooling, Course, Form, Material, Surroundings, Vessel};
use domain::units::{
    Celsius, Millimetres, Minutes, WattsPerSquareMetreKelvin, celsius, grams, millimetres, minutes,
};
use proptest::prelude::*;

use super::{START, fridge};

fn vessels() -> impl Strategy<Value = Vessel> {
    (0..6_u8, 30.0..2000.0_f64, 8.0..80.0_f64).prop_map(|(kind, mass, depth)| {
        let (mass, depth) = (grams(mass), millimetres(depth));
        match kind {
            0 => Vessel::dough_in_bowl(mass),
            1 => BakeForm::Tin.rising(mass, Material::DOUGH),
            2 => BakeForm::Round.cooling(mass),
            3 => Vessel::filling(mass, depth, Cooling::Fridge),
            4 => Vessel::filling(mass, depth, Cooling::IceBath),
            _ => Vessel::filling_stirred(mass, depth, Cooling::Kitchen),
        }
    })
}

/// A course in surroundings that change once, with the least of the three temperatures in °C, its own at the start, and
/// the greatest of the three.
fn some_course() -> impl Strategy<Value = (Course, (f64, f64, f64))> {
    let around = (-5.0..40.0_f64, -5.0..40.0_f64, 1.0..300.0_f64);
    (vessels(), 0.0..100.0_f64, around).prop_map(|(vessel, initial, (first, then, change))| {
        let surroundings =
            Surroundings::constant(celsius(first)).changed(START + minutes(change), celsius(then));
        let course = vessel.course(START, celsius(initial), &surroundings);
        let (least, most) = (first.min(then), first.max(then));
        (course, (initial.min(least), initial, initial.max(most)))
    })
}

proptest! {
    #[test]
    fn the_weights_of_a_vessel_sum_to_one_slowest_first(vessel in vessels()) {
        let mean: f64 = vessel.modes().iter().map(|mode| mode.mean).sum();
        let core: f64 = vessel.modes().iter().map(|mode| mode.core).sum();
        prop_assert!((mean - 1.0).abs() < 1e-9);
        prop_assert!((core - 1.0).abs() < 1e-9);
        let slowest_first = vessel
            .modes()
            .windows(2)
            .all(|pair| pair[0].time_constant >= pair[1].time_constant);
        prop_assert!(slowest_first);
        prop_assert!(vessel.modes().iter().all(|mode| mode.time_constant > minutes(0.0)));
    }

    #[test]
    fn the_mean_stays_between_the_start_and_the_surroundings(
        (course, (least, initial, most)) in some_course(), at in 0.0..900.0_f64,
    ) {
        let mean = course.mean_at(START + minutes(at)).get();
        prop_assert!(mean >= least - 1e-6);
        prop_assert!(mean <= most + 1e-6);
        let before = course.mean_at(START - minutes(at)).get();
        prop_assert!((before - initial).abs() < 1e-9);
    }

    /// The middle is the last to follow, so it stays between as well, but for the first moments, in which the series
    /// is cut short: 1.04 thousandths beyond was drawn once, and in 300,000 further draws nothing beyond two.
    #[test]
    fn the_middle_stays_between_the_start_and_the_surroundings(
        (course, (least, _, most)) in some_course(), at in 0.0..900.0_f64,
    ) {
        let core = course.core_at(START + minutes(at)).get();
        let off = 2e-3 * (most - least) + 1e-6;
        prop_assert!(core >= least - off && core <= most + off, "{core} from {least} to {most}");
    }

    /// Energy: a change of the surroundings adds no heat at its own moment, neither to the whole nor to the middle.
    #[test]
    fn no_temperature_jumps_with_its_surroundings(
        vessel in vessels(),
        initial in 0.0..100.0_f64,
        first in -5.0..40.0_f64,
        then in -5.0..40.0_f64,
        change in 1.0..300.0_f64,
    ) {
        let at = START + minutes(change);
        let surroundings = Surroundings::constant(celsius(first)).changed(at, celsius(then));
        let course = vessel.course(START, celsius(initial), &surroundings);
        let still = vessel.course(START, celsius(initial), &Surroundings::constant(celsius(first)));
        prop_assert!((course.mean_at(at) - still.mean_at(at)).get().abs() < 1e-9);
        prop_assert!((course.core_at(at) - still.core_at(at)).get().abs() < 1e-9);
    }

    /// More film and less mass follow quicker, at every moment.
    #[test]
    fn a_stronger_film_and_a_smaller_piece_never_cool_slower(
        mass in 40.0..1500.0_f64,
        larger in 1.0..3.0_f64,
        film in 1.0..3.0_f64,
        at in 5.0..400.0_f64,
    ) {
        let mean = |vessel: &Vessel| {
            let course = vessel.course(START, celsius(95.0), &fridge());
            course.mean_at(START + minutes(at)).get()
        };
        let piece = BakeForm::Round.cooling(grams(mass));
        prop_assert!(mean(&piece.with_film_times(film)) <= mean(&piece) + 1e-6);
        prop_assert!(mean(&BakeForm::Round.cooling(grams(mass * larger))) >= mean(&piece) - 1e-6);
    }

    #[test]
    fn a_later_change_does_not_touch_the_past(
        vessel in vessels(),
        change in 1.0..300.0_f64,
        share in 0.0..1.0_f64,
    ) {
        let constant = Surroundings::constant(celsius(22.0));
        let changed = constant.clone().changed(START + minutes(change), celsius(4.0));
        let at = START + minutes(change * share);
        let one = vessel.course(START, celsius(27.0), &constant);
        let other = vessel.course(START, celsius(27.0), &changed);
        prop_assert_eq!(one.mean_at(at), other.mean_at(at));
        prop_assert_eq!(one.core_at(at), other.core_at(at));
    }

    #[test]
    fn the_found_moment_is_the_one_at_which_the_core_is_there(
        vessel in vessels(),
        initial in 40.0..95.0_f64,
        target in 6.0..39.0_f64,
    ) {
        let course = vessel.course(START, celsius(initial), &fridge());
        let moment = course
            .when_core_reaches(celsius(target), HORIZON)
            .expect("a fridge at 4 °C gets there");
        // A moment is a whole millisecond.
        prop_assert!((course.core_at(moment).get() - target).abs() < 1e-3);
        prop_assert!(course.core_at(moment - minutes(0.01)).get() > target - 1e-6);
    }

    #[test]
    fn a_deeper_filling_and_a_warmer_fridge_never_cool_sooner(
        mass in 100.0..1500.0_f64,
        depth in 8.0..60.0_f64,
        deeper in 1.02..2.0_f64,
        ambient in 0.0..7.0_f64,
        warmer in 0.0..1.0_f64,
    ) {
        let when = |depth: f64, ambient: f64| {
            let vessel = Vessel::filling(grams(mass), millimetres(depth), Cooling::Fridge);
            let around = Surroundings::constant(celsius(ambient));
            cooling_window(&vessel, celsius(85.0), celsius(8.5), &around, START)
        };
        let window = when(depth, ambient);
        prop_assert!(window.low() <= window.likely() && window.likely() <= window.high());
        prop_assert!(when(depth, ambient + warmer).likely() >= window.likely());
        // A narrow deep dish has more side than a wide one has top; then depth stops mattering.
        let area_mm2 = mass * 1e6 / 1053.0 / (depth * deeper);
        if area_mm2.sqrt() > 4.0 * depth * deeper {
            prop_assert!(when(depth * deeper, ambient).likely() >= window.likely());
        }
    }
}

/// A body just below and just above the Biot number at which the series takes the place of one lumped temperature.
fn around_a_tenth(form: Form) -> [Vessel; 2] {
    let cooled_mm = match form {
        Form::Sphere { radius } => radius.get() / 3.0,
        Form::Stick { radius } => radius.get() / 2.0,
        Form::Layer { depth } => depth.get(),
        Form::Roll { radius, length } => 1.0 / (2.0 / radius.get() + 2.0 / length.get()),
        Form::Dish { radius, depth } => 1.0 / (2.0 / radius.get() + 1.0 / depth.get()),
    };
    let film_at_a_tenth = 0.1 * Material::DOUGH.conductivity.get() / (cooled_mm / 1000.0);
    [1.0 - 1e-6, 1.0 + 1e-6].map(|times| {
        Vessel::of(Body {
            form,
            material: Material::DOUGH,
            film: WattsPerSquareMetreKelvin::clamped(film_at_a_tenth * times),
        })
    })
}

/// 1/τ of a form's series by the expansion of its first root: d Bi / (1 + Bi / (d + 2)) / L² for each of its axes,
/// and without the resistance inside, d Bi / L², which is what lumped capacity has.
fn expanded(form: Form) -> (f64, f64) {
    let mm = |length: Millimetres| length.get();
    let axes = match form {
        Form::Layer { depth } => vec![(1.0, mm(depth))],
        Form::Sphere { radius } => vec![(3.0, mm(radius))],
        Form::Stick { radius } => vec![(2.0, mm(radius))],
        Form::Roll { radius, length } => vec![(2.0, mm(radius)), (1.0, 0.5 * mm(length))],
        Form::Dish { radius, depth } => vec![(2.0, mm(radius)), (1.0, mm(depth))],
    };
    let per_volume: f64 = axes.iter().map(|(d, length)| d / length).sum();
    let sum = |rate: &dyn Fn(f64, f64) -> f64| -> f64 {
        let rates = axes.iter().map(|&(d, length)| {
            let biot = 0.1 * per_volume * length;
            rate(d, biot) / (length * length)
        });
        rates.sum()
    };
    (
        sum(&|d, biot| d * biot),
        sum(&|d, biot| d * biot / (1.0 + biot / (d + 2.0))),
    )
}

/// Where one lumped temperature gives way to the series, the lag grows at once by what the way to the middle is
/// worth. Vessels document these jumps: 3 % for a layer, 5 % for a stick, 6 % for a ball, 8 % for a roll or a dish.
#[test]
fn lumped_and_series_meet_within_a_tenth() {
    for (form, most) in [
        (
            Form::Layer {
                depth: millimetres(10.0),
            },
            0.034,
        ),
        (
            Form::Dish {
                radius: millimetres(60.0),
                depth: millimetres(10.0),
            },
            0.085,
        ),
        (
            Form::Sphere {
                radius: millimetres(20.0),
            },
            0.062,
        ),
        (
            Form::Stick {
                radius: millimetres(20.0),
            },
            0.052,
        ),
        (
            Form::Roll {
                radius: millimetres(20.0),
                length: millimetres(80.0),
            },
            0.085,
        ),
    ] {
        let [lumped, series] = around_a_tenth(form);
        assert_eq!(lumped.modes().len(), 1, "{form:?}");
        assert!(series.modes().len() > 1, "{form:?}");
        let jump = series.time_constant() / lumped.time_constant() - 1.0;
        let (without, with) = expanded(form);
        assert_close(&format!("lag, {form:?}"), jump, without / with - 1.0, 0.004);
        assert!(jump > 0.0 && jump < most, "{form:?}: {jump}");
        // The mean itself is never further apart than a thirtieth of the difference at the start, and the middle than an eighth.
        let courses = [lumped, series].map(|vessel| {
            let lag = vessel.time_constant();
            (vessel.course(START, celsius(90.0), &fridge()), lag)
        });
        for lags in [0.1, 0.5, 1.0, 2.0, 4.0] {
            let at = START + courses[0].1 * lags;
            let [one, other] = [0, 1].map(|which: usize| courses[which].0.mean_at(at).get());
            assert!(
                (one - other).abs() < 86.0 / 30.0,
                "{form:?} after {lags} lags: {one} {other}"
            );
            let [one, other] = [0, 1].map(|which: usize| courses[which].0.core_at(at).get());
            assert!(
                (one - other).abs() < 86.0 / 8.0,
                "{form:?} after {lags} lags: {one} {other}"
            );
        }
    }
}

#[test]
fn units_at_the_edge_do_not_panic() {
    for mass in [0.0, 1e-9, 100_000.0] {
        for depth in [Millimetres::MIN, Millimetres::MAX] {
            let vessel = Vessel::filling(grams(mass), depth, Cooling::IceBath);
            let course = vessel.course(START, Celsius::MAX, &fridge());
            assert!(course.core_at(START + minutes(30.0)) <= Celsius::MAX);
            let _ = two_stage(&vessel, Celsius::MAX, &fridge(), START);
        }
    }
    let still = Vessel::dough_in_bowl(grams(500.0)).with_film_times(0.0);
    let course = still.course(START, celsius(30.0), &fridge());
    assert_close(
        "no cooling",
        course.mean_at(START + minutes(600.0)).get(),
        30.0,
        0.05,
    );
    assert_eq!(
        course.when_core_reaches(celsius(8.0), Minutes::MAX.min(HORIZON)),
        None
    );
}
