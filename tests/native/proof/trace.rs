//! What must always hold of a drawn rise.

use domain::estimate::Estimate;
use domain::units::{Celsius, Quantity, celsius, minutes};
use domain::yeast::proof::{Point, Proof};
use proptest::prelude::*;

use super::{START, bulk};

fn in_order<T: Quantity>(estimate: &Estimate<T>) -> bool {
    estimate.low() <= estimate.likely() && estimate.likely() <= estimate.high()
}

fn shares(point: &Point) -> [f64; 3] {
    let progress = point.progress;
    [progress.low(), progress.likely(), progress.high()].map(|share| share.get())
}

/// A rise in a kitchen that changes once, perhaps measured on the way.
fn any_rise() -> impl Strategy<Value = Proof> {
    (
        5.0..40.0_f64,
        0.0..40.0_f64,
        0.0..40.0_f64,
        0.0..300.0_f64,
        0.0..90.0_f64,
    )
        .prop_map(|(dough, kitchen, then, at, had)| {
            let plain = bulk(dough, kitchen);
            let at = START + minutes(at);
            Proof {
                surroundings: plain.surroundings.clone().changed(at, celsius(then)),
                had: minutes(had),
                ..plain
            }
        })
}

proptest! {
    #[test]
    fn a_trace_is_in_order_and_what_has_risen_stays_risen(
        proof in any_rise(),
        from in 0.0..200.0_f64,
        length in 0.0..2_000.0_f64,
        steps in 1_u16..40,
    ) {
        let from = START + minutes(from);
        let until = from + minutes(length);
        let points = proof.trace(from, until, steps);
        prop_assert_eq!(points.len(), usize::from(steps) + 1);
        prop_assert_eq!((points[0].at, points[points.len() - 1].at), (from, until));
        for point in &points {
            prop_assert!(in_order(&point.dough) && in_order(&point.progress));
        }
        for pair in points.windows(2) {
            prop_assert!(pair[0].at <= pair[1].at);
            let (before, after) = (shares(&pair[0]), shares(&pair[1]));
            // A step in which yeast comes to a standstill is summed less exactly.
            prop_assert!(before.iter().zip(after).all(|(before, after)| after >= before - 1e-5));
        }
    }

    #[test]
    fn a_trace_tells_the_same_temperature_and_progress_as_the_proof(
        proof in any_rise(),
        length in 1.0..500.0_f64,
    ) {
        for point in proof.trace(START, START + minutes(length), 7) {
            let progress = proof.progress(point.at).get();
            prop_assert!((point.progress.likely().get() - progress).abs() < 1e-3);
            let dough = proof.dough_at(point.at) - point.dough.likely();
            prop_assert!(dough.get().abs() < 0.05, "{dough:?}");
        }
    }

    #[test]
    fn a_dough_stays_between_its_start_and_what_surrounds_it(
        proof in any_rise(),
        length in 1.0..2_000.0_f64,
    ) {
        let until = START + minutes(length);
        let around = [proof.surroundings.at(START), proof.surroundings.at(until)];
        let around = around.into_iter().chain([proof.surroundings.at(START + minutes(300.0))]);
        let likely: Vec<Celsius> = around.clone().chain([proof.dough.likely()]).collect();
        let band: Vec<Celsius> = around.chain([proof.dough.low(), proof.dough.high()]).collect();
        let within = |at: Celsius, of: &[Celsius], by: f64| {
            let least = of.iter().fold(Celsius::MAX, |least, &one| least.min(one));
            let most = of.iter().fold(Celsius::MIN, |most, &one| most.max(one));
            (least.get() - by..=most.get() + by).contains(&at.get())
        };
        for point in proof.trace(START, until, 12) {
            prop_assert!(within(point.dough.likely(), &likely, 1e-6), "{point:?}");
            // Distances in quadrature can pass what no single course does, by less than anybody could draw.
            prop_assert!(within(point.dough.low(), &band, 0.01), "{point:?}");
            prop_assert!(within(point.dough.high(), &band, 0.01), "{point:?}");
        }
    }

    #[test]
    fn the_likely_progress_is_whole_where_the_window_is_likely(
        dough in 15.0..32.0_f64,
        kitchen in 14.0..34.0_f64,
        had in 0.0..90.0_f64,
    ) {
        let proof = Proof { had: minutes(had), ..bulk(dough, kitchen) };
        let likely = proof.window().likely();
        let points = proof.trace(START, likely, 9);
        prop_assert!((shares(&points[9])[1] - 1.0).abs() < 1e-4);
        prop_assert!(shares(&points[8])[1] < 1.0);
    }

    #[test]
    fn the_band_reaches_the_whole_where_the_window_begins_and_ends(
        dough in 18.0..30.0_f64,
        kitchen in 16.0..32.0_f64,
    ) {
        let proof = bulk(dough, kitchen);
        let window = proof.window();
        let at = |moment| shares(&proof.trace(START, moment, 1)[1]);
        let [_, _, high] = at(window.low());
        let [low, _, _] = at(window.high());
        prop_assert!((high - 1.0).abs() < NEAR, "{high}");
        prop_assert!((low - 1.0).abs() < NEAR, "{low}");
        // Shares end at 1, so that alone would not tell a band that gets there much too early.
        let earlier = |moment| START + (moment - START) * (1.0 - 2.0 * NEAR);
        prop_assert!(at(earlier(window.low()))[2] < 1.0);
        prop_assert!(at(earlier(window.high()))[0] < 1.0);
    }
}

/// How far band and window may part: the one adds distances at a moment, the other at a progress.
const NEAR: f64 = 0.04;

/// Where nothing changes the temperature, time and progress are in proportion, and so are their logarithms.
#[test]
fn at_one_temperature_band_and_window_are_the_same() {
    let mut proof = bulk(24.0, 24.0);
    proof.dough = Estimate::exact(celsius(24.0), proof.dough.basis());
    let window = proof.window();
    let high = proof.trace(START, window.low(), 1)[1].progress.high();
    let low = proof.trace(START, window.high(), 1)[1].progress.low();
    assert!((high.get() - 1.0).abs() < 1e-5, "{high:?}");
    assert!((low.get() - 1.0).abs() < 1e-5, "{low:?}");
}

/// The start has no progress yet, whatever is uncertain; what was measured on the way has what it had.
#[test]
fn a_rise_begins_with_what_it_had() {
    let begins = |had: f64| {
        let proof = Proof {
            had: minutes(had),
            ..bulk(25.0, 22.0)
        };
        shares(&proof.trace(START, START + minutes(10.0), 1)[0])
    };
    assert!(begins(0.0).iter().all(|&share| share < 1e-8));
    let [low, likely, high] = begins(38.0);
    assert!((likely - 38.0 / 95.0).abs() < 1e-9);
    // The formula's range alone: 38 of 115, and of 80 minutes.
    assert!((low - 38.0 / 115.0).abs() < 1e-9, "{low}");
    assert!((high - 38.0 / 80.0).abs() < 1e-9, "{high}");
}
