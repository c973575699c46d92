//! What must always hold of vessels and cooling.

use checks::assert_close;
use domain::thermal::cooling::{HORIZON, cooling_window, two_stage};
use domain::thermal::vessel::{Cooling, Surroundings, Vessel};
use domain::units::{Celsius, Millimetres, Minutes, celsius, grams, millimetres, minutes};
use proptest::prelude::*;

use super::{START, fridge};

fn vessels() -> impl Strategy<Value = Vessel> {
    (0..6_u8, 30.0..2000.0_f64, 8.0..80.0_f64).prop_map(|(kind, mass, depth)| {
        let (mass, depth) = (grams(mass), millimetres(depth));
        match kind {
            0 => Vessel::dough_in_bowl(mass),
            1 => Vessel::loaf_in_tin(mass),
            2 => Vessel::baked_piece(mass),
            3 => Vessel::filling(mass, depth, Cooling::Fridge),
            4 => Vessel::filling(mass, depth, Cooling::IceBath),
            _ => Vessel::filling_stirred(mass, depth, Cooling::Kitchen),
        }
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
        vessel in vessels(),
        initial in 0.0..100.0_f64,
        first in -5.0..40.0_f64,
        then in -5.0..40.0_f64,
        change in 1.0..300.0_f64,
        at in 0.0..900.0_f64,
    ) {
        let surroundings =
            Surroundings::constant(celsius(first)).changed(START + minutes(change), celsius(then));
        let course = vessel.course(START, celsius(initial), &surroundings);
        let mean = course.mean_at(START + minutes(at)).get();
        prop_assert!(mean >= initial.min(first).min(then) - 1e-6);
        prop_assert!(mean <= initial.max(first).max(then) + 1e-6);
        let before = course.mean_at(START - minutes(at)).get();
        prop_assert!((before - initial).abs() < 1e-9);
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
