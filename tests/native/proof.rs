//! Yeast's rate and proofs against `reference/proof.toml`, and what a proof must never do.

use checks::assert_close;
use domain::estimate::{Basis, Estimate};
use domain::thermal::vessel::{Surroundings, Vessel};
use domain::units::{Celsius, Minutes, Moment, celsius, grams, minutes};
use domain::yeast::activity::{Cardinals, relative_rate};
use domain::yeast::proof::{HORIZON, Proof};
use proptest::prelude::*;
use serde::Deserialize;

#[derive(Deserialize)]
struct Table {
    growth: Growth,
    q10: Q10,
    trade: Trade,
    limits: Limits,
}

#[derive(Deserialize)]
struct Growth {
    source: String,
    tolerance: f64,
    row: Vec<RateRow>,
}

#[derive(Deserialize)]
struct RateRow {
    t_c: f64,
    rate: f64,
}

#[derive(Deserialize)]
struct Q10 {
    growth: f64,
    growth_source: String,
    dough: f64,
    dough_source: String,
    dough_tolerance: f64,
    least: f64,
    greatest: f64,
}

#[derive(Deserialize)]
struct Trade {
    source: String,
    tolerance_share: f64,
    reference_c: f64,
    reference_min: f64,
    row: Vec<TradeRow>,
}

#[derive(Deserialize)]
struct TradeRow {
    t_c: f64,
    minutes: f64,
}

#[derive(Deserialize)]
struct Limits {
    optimum_between_c: [f64; 2],
    optimum_source: String,
    retarder_c: f64,
    retarder_source: String,
    retarder_rate_at_most: f64,
    dead_c: f64,
    dead_source: String,
}

fn table() -> Table {
    toml::from_str(include_str!("../reference/proof.toml")).expect("the table is well formed")
}

const START: Moment = Moment::from_epoch_ms(1_700_000_000_000);

/// A bulk fermentation of 80 to 115 min at 26 °C in 900 g of dough.
fn bulk(dough: f64, kitchen: f64) -> Proof {
    Proof {
        range: Estimate::new(minutes(80.0), minutes(95.0), minutes(115.0), Basis::Formula),
        reference: celsius(26.0),
        start: START,
        dough: Estimate::new(
            celsius(dough - 0.5),
            celsius(dough),
            celsius(dough + 0.5),
            Basis::Measured,
        ),
        surroundings: Surroundings::constant(celsius(kitchen)),
        vessel: Vessel::dough_in_bowl(grams(900.0)),
        had: minutes(0.0),
    }
}

fn likely_minutes(proof: &Proof) -> f64 {
    (proof.window().likely() - proof.start).get()
}

fn q10(cardinals: &Cardinals) -> f64 {
    relative_rate(celsius(30.0), cardinals) / relative_rate(celsius(20.0), cardinals)
}

#[test]
fn growth_follows_the_published_curve() {
    let table = table().growth;
    for row in &table.row {
        let case = format!("{} °C, {}", row.t_c, table.source);
        let got = relative_rate(celsius(row.t_c), &Cardinals::GROWTH);
        assert_close(&case, got, row.rate, table.tolerance);
    }
}

#[test]
fn dough_speeds_up_with_warmth_as_the_trade_says() {
    let table = table().q10;
    assert_close(
        &table.growth_source,
        q10(&Cardinals::GROWTH),
        table.growth,
        0.0006,
    );
    assert_close(
        &table.dough_source,
        q10(&Cardinals::DOUGH),
        table.dough,
        table.dough_tolerance,
    );
    let hardy = q10(&Cardinals::DOUGH_HARDY);
    let tender = q10(&Cardinals::DOUGH_TENDER);
    assert!(table.least < hardy && hardy < q10(&Cardinals::DOUGH));
    assert!(q10(&Cardinals::DOUGH) < tender && tender < table.greatest);
}

#[test]
fn yeast_has_its_best_its_standstill_and_its_end_where_bakers_put_them() {
    let limits = table().limits;
    let [least, greatest] = limits.optimum_between_c;
    let optimum = Cardinals::DOUGH.optimum.get();
    assert!(
        (least..=greatest).contains(&optimum),
        "{}",
        limits.optimum_source
    );
    assert_close(
        &limits.optimum_source,
        relative_rate(celsius(optimum), &Cardinals::DOUGH),
        1.0,
        1e-12,
    );
    let retarded = relative_rate(celsius(limits.retarder_c), &Cardinals::DOUGH);
    assert!(
        retarded > 0.0 && retarded < limits.retarder_rate_at_most,
        "{}",
        limits.retarder_source
    );
    let dead = relative_rate(celsius(limits.dead_c), &Cardinals::DOUGH);
    assert_close(&limits.dead_source, dead, 0.0, 0.0);
}

#[test]
fn a_dough_at_kitchen_temperature_takes_the_trades_time() {
    let table = table().trade;
    for row in &table.row {
        let proof = Proof {
            range: Estimate::exact(minutes(table.reference_min), Basis::Formula),
            reference: celsius(table.reference_c),
            ..bulk(row.t_c, row.t_c)
        };
        let case = format!("{} °C, {}", row.t_c, table.source);
        assert_close(
            &case,
            likely_minutes(&proof) / row.minutes,
            1.0,
            table.tolerance_share,
        );
    }
}

#[test]
fn at_its_reference_temperature_a_proof_takes_the_formulas_minutes() {
    let window = bulk(26.0, 26.0).window();
    // A moment is a whole millisecond.
    assert_close("likely", (window.likely() - START).get(), 95.0, 2e-5);
    // Only the dough's half degree and its lag add to the formula's own range.
    let low = (window.low() - START).get();
    let high = (window.high() - START).get();
    assert!((78.0..80.0).contains(&low), "{low}");
    assert!((115.0..118.0).contains(&high), "{high}");
    assert_eq!(window.basis(), Basis::Measured);
}

#[test]
fn the_integral_agrees_with_a_hundred_times_finer_steps() {
    // Independent of the code's own integration: the midpoint rule over the public temperatures.
    for (dough, kitchen, fridge_at) in [
        (24.0, 17.0, None),
        (28.0, 21.0, Some(40.0)),
        (20.0, 35.0, Some(10.0)),
    ] {
        let mut proof = bulk(dough, kitchen);
        if let Some(at) = fridge_at {
            proof.surroundings = proof
                .surroundings
                .changed(START + minutes(at), celsius(6.0));
        }
        let end = START + minutes(150.0);
        let per_rate = 1.0 / relative_rate(celsius(26.0), &Cardinals::DOUGH);
        let step = 0.01;
        let fine: f64 = (0..15_000)
            .map(|n| {
                let middle = START + minutes((f64::from(n) + 0.5) * step);
                relative_rate(proof.dough_at(middle), &Cardinals::DOUGH) * per_rate * step
            })
            .sum();
        let got = proof.reference_minutes_at(end).get();
        assert_close("150 min", got / fine, 1.0, 1e-5);
    }
}

#[test]
fn a_dough_too_cold_stalls_and_says_so() {
    let cold = bulk(3.0, 1.0);
    assert!(cold.stalls());
    let window = cold.window();
    assert_eq!(window.likely(), START + HORIZON);
    assert_eq!(window.high(), START + HORIZON);
    assert_eq!(cold.moment_when(minutes(50.0)), START + HORIZON);
    assert!(!bulk(25.0, 20.0).stalls());
    // Warm dough in a cold place has done some work before it stalls.
    let retarded = bulk(25.0, 1.0);
    assert!(retarded.stalls());
    assert!(retarded.reference_minutes_at(START + HORIZON).get() > 40.0);
}

#[test]
fn measuring_on_the_way_keeps_what_was_had() {
    let proof = bulk(26.0, 22.0);
    let at = START + minutes(45.0);
    let had = proof.reference_minutes_at(at);
    let cooler = proof.measured(at, Estimate::exact(celsius(23.0), Basis::Measured));
    assert_eq!(cooler.reference_minutes_at(at), had);
    assert!(cooler.window().likely() > proof.window().likely());
    assert!(cooler.window().low() >= at);
    assert!(later(&proof, &cooler) > minutes(5.0));

    // After the formula's least time the earliest moment is now, not before.
    let late = START + minutes(140.0);
    let measured = proof.measured(late, Estimate::exact(celsius(24.0), Basis::Measured));
    assert_eq!(measured.window().likely(), late);
    assert_eq!(measured.progress(late).get(), 1.0);
}

#[test]
fn a_colder_kitchen_and_a_cooler_dough_each_make_it_later() {
    let proof = bulk(25.0, 22.0);
    let cooled = Proof {
        surroundings: proof
            .surroundings
            .clone()
            .changed(START + minutes(30.0), celsius(17.0)),
        ..proof.clone()
    };
    assert!(later(&proof, &cooled) > minutes(3.0));

    let both = cooled.measured(
        START + minutes(40.0),
        Estimate::exact(celsius(22.0), Basis::Measured),
    );
    assert!(later(&cooled, &both) > minutes(0.5));
}

fn later(before: &Proof, after: &Proof) -> Minutes {
    after.window().likely() - before.window().likely()
}

#[test]
fn folds_fall_at_shares_of_the_reference_minutes() {
    let proof = bulk(24.0, 20.0);
    let fold = proof.moment_when(minutes(30.0));
    assert_close("fold", proof.reference_minutes_at(fold).get(), 30.0, 1e-4);
    assert_eq!(proof.moment_when(minutes(0.0)), START);
    assert_close(
        "half",
        proof.progress(proof.moment_when(minutes(47.5))).get(),
        0.5,
        1e-5,
    );
}

/// Moments are whole milliseconds, so two of them may round apart.
const ROUNDING: Minutes = minutes(2.0 / 60_000.0);

fn any_vessel() -> impl Strategy<Value = Vessel> {
    (0..3_u8, 40.0..2500.0_f64).prop_map(|(kind, mass)| match kind {
        0 => Vessel::dough_in_bowl(grams(mass)),
        1 => Vessel::piece(grams(mass / 10.0)),
        _ => Vessel::loaf_in_tin(grams(mass)),
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
                    vessel: Vessel::piece(grams(0.0)),
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
