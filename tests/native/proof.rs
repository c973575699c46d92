//! Yeast's rate and proofs against `reference/proof.toml`.

mod properties;
mod trace;

use checks::assert_close;
use domain::estimate::{Basis, Estimate};
use domain::thermal::vessel::{Surroundings, Vessel};
use domain::units::{Minutes, Moment, celsius, grams, minutes};
use domain::yeast::activity::{Cardinals, relative_rate};
use domain::yeast::proof::{HORIZON, Learnt, Proof};
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
        learnt: Learnt::default(),
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
