//! What must always hold of proofs.

use domain::estimate::{Basis, Estimate};
use domain::thermal::oven::BakeForm;
use domain::thermal::vessel::{Material, Surroundings, Vessel};
use domain::units::{Celsius, Minutes, celsius, grams, minutes};
use domain::yeast::proof::{HORIZON, Proof};
use proptest::prelude::*;

use super::{START, bulk, later};

/// Moments are whole milliseconds, so two of them may round apart.
const ROUNDING: Minutes = minutes(2.0 / 60_000.0);

fn any_vessel() -> impl Strategy<Value = Vessel> {
    (0..3_u8, 40.0..2500.0_f64).prop_map(|(kind, mass)| match kind {
        0 => Vessel::dough_in_bowl(grams(mass)),
        1 => BakeForm::Round.rising(grams(mass / 10.0), Material::DOUGH),
        _ => BakeForm::Tin.rising(grams(mass), Material::DOUGH),
    })
}

proptest! {
    #[test]
    fn a_colder_kitchen_never_shortens_a_proof(
        vessel in any_vessel(),
        dough in 15.0..33.0_f64,
        kitchen in 10.0..34.0_f64,
        colder_by in 0.0..8.0_f64,
    ) {
        let proof = Proof { vessel, ..bulk(dough, kitchen) };
        let colder = Proof {
            surroundings: Surroundings::constant(celsius(kitchen - colder_by)),
            ..proof.clone()
        };
        let (warm, cold) = (proof.window(), colder.window());
        prop_assert!(cold.likely() + ROUNDING >= warm.likely());
        // Towards a stall the spreads grow without limit, and the earliest end may move back a little.
        if kitchen - colder_by >= 12.0 {
            prop_assert!(cold.low() + ROUNDING >= warm.low());
            prop_assert!(cold.high() + ROUNDING >= warm.high());
        }
    }

    #[test]
    fn a_change_to_colder_never_shortens_a_proof(
        dough in 18.0..32.0_f64,
        kitchen in 15.0..34.0_f64,
        colder_by in 0.0..12.0_f64,
        at in 0.0..120.0_f64,
    ) {
        let proof = bulk(dough, kitchen);
        let colder = Proof {
            surroundings: proof
                .surroundings
                .clone()
                .changed(START + minutes(at), celsius(kitchen - colder_by)),
            ..proof.clone()
        };
        prop_assert!(colder.window().likely() + ROUNDING >= proof.window().likely());
    }

    #[test]
    fn warmer_dough_never_lengthens_a_proof(
        vessel in any_vessel(),
        dough in 10.0..33.0_f64,
        warmer_by in 0.0..4.0_f64,
        kitchen in 10.0..34.0_f64,
    ) {
        let proof = Proof { vessel, ..bulk(dough, kitchen) };
        let warmer = Proof { dough: bulk(dough + warmer_by, kitchen).dough, ..proof.clone() };
        prop_assert!(warmer.window().likely() <= proof.window().likely() + ROUNDING);
    }

    #[test]
    fn what_has_been_proofed_stays_proofed(
        dough in 5.0..40.0_f64,
        kitchen in -5.0..45.0_f64,
        then in -5.0..45.0_f64,
        change in 0.0..400.0_f64,
        share in 0.0..=1.0_f64,
    ) {
        let proof = bulk(dough, kitchen);
        let at = START + minutes(change);
        let changed = Proof {
            surroundings: proof.surroundings.clone().changed(at, celsius(then)),
            ..proof.clone()
        };
        let earlier = START + minutes(change * share);
        prop_assert_eq!(
            changed.reference_minutes_at(earlier),
            proof.reference_minutes_at(earlier)
        );
    }

    #[test]
    fn reference_minutes_only_grow(
        dough in 5.0..45.0_f64,
        kitchen in 0.0..45.0_f64,
        at in 0.0..2000.0_f64,
        later in 0.0..500.0_f64,
    ) {
        let proof = bulk(dough, kitchen);
        let at = START + minutes(at);
        // A step in which yeast comes to a standstill is summed less exactly: a tenth of a second.
        prop_assert!(
            proof.reference_minutes_at(at + minutes(later)).get()
                >= proof.reference_minutes_at(at).get() - 1.0 / 600.0
        );
    }

    #[test]
    fn the_window_is_in_order_and_holds_the_moment_of_its_minutes(
        dough in 0.0..45.0_f64,
        kitchen in -5.0..45.0_f64,
        had in 0.0..150.0_f64,
    ) {
        let proof = Proof { had: minutes(had), ..bulk(dough, kitchen) };
        let window = proof.window();
        prop_assert!(START <= window.low());
        prop_assert!(window.low() <= window.likely() && window.likely() <= window.high());
        prop_assert!(window.high() <= START + HORIZON);
        prop_assert_eq!(window.likely(), proof.moment_when(minutes(95.0)));
        prop_assert_eq!(proof.stalls(), had < 95.0 && window.likely() == START + HORIZON);
    }

    #[test]
    fn the_window_is_continuous_in_the_kitchens_temperature(
        dough in 18.0..30.0_f64,
        kitchen in 8.0..36.0_f64,
    ) {
        let near = |by: f64| bulk(dough, kitchen + by).window();
        let (here, there) = (near(0.0), near(1e-4));
        // Below 10 °C a degree is worth hundreds of minutes, so the step is in proportion to the time.
        for (one, other) in [
            (here.low(), there.low()),
            (here.likely(), there.likely()),
            (here.high(), there.high()),
        ] {
            let (one, other) = ((one - START).get(), (other - START).get());
            prop_assert!((one - other).abs() < 1e-3 * one, "{} {}", one, other);
        }
    }

    #[test]
    fn a_measurement_that_finds_what_was_reckoned_moves_nothing_much(
        dough in 20.0..30.0_f64,
        kitchen in 16.0..30.0_f64,
        at in 0.0..60.0_f64,
    ) {
        let proof = bulk(dough, kitchen);
        let at = START + minutes(at);
        let found = Estimate::exact(proof.dough_at(at), Basis::Measured);
        let by = later(&proof, &proof.measured(at, found));
        // The gradient inside the dough is forgotten, which is worth a little.
        prop_assert!(by.get().abs() < 2.0, "{:?}", by);
    }
}

#[test]
fn odd_numbers_do_not_panic() {
    for dough in [Celsius::MIN, Celsius::MAX] {
        for reference in [Celsius::MIN, celsius(2.0), Celsius::MAX] {
            for range in [Minutes::MIN, minutes(0.0), Minutes::MAX] {
                let proof = Proof {
                    range: Estimate::exact(range, Basis::Formula),
                    reference,
                    dough: Estimate::exact(dough, Basis::Model),
                    vessel: BakeForm::Round.rising(grams(0.0), Material::DOUGH),
                    ..bulk(25.0, 20.0)
                };
                let window = proof.window();
                assert!(window.low() <= window.high());
                assert!(proof.progress(START).get() <= 1.0);
                let _ = proof.measured(START + HORIZON, proof.dough).window();
            }
        }
    }
}
