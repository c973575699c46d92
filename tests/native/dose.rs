//! What the dose of yeast, sugar and salt do to its pace, against `reference/dose.toml`.

mod kinds;
mod slowing;

use checks::{assert_close, starter};
use domain::estimate::{Basis, Estimate};
use domain::formula::usual::{Measure, readings};
use domain::formula::{Formula, Length};
use domain::kitchen::{FineScales, Scales};
use domain::thermal::vessel::{Surroundings, Vessel};
use domain::units::{Celsius, Minutes, Moment, celsius, grams, minutes};
use domain::yeast::dose::{self, LEAST_DOSE, MOST_DOSE};
use domain::yeast::proof::{Learnt, Proof, Unmet};
use proptest::prelude::*;
use records::starters;
use serde::Deserialize;

#[derive(Deserialize)]
struct Table {
    gas: Gas,
    rule: Rule,
    sugar: Sugar,
    salt: Salt,
}

#[derive(Deserialize)]
struct Gas {
    source: String,
    dose_percent: [f64; 2],
    gas_ml: [f64; 2],
    tolerance_share: f64,
}

#[derive(Deserialize)]
struct Rule {
    source: String,
    row: Vec<RuleRow>,
}

#[derive(Deserialize)]
struct RuleRow {
    times: f64,
    longer: f64,
}

#[derive(Deserialize)]
struct Sugar {
    source: String,
    percent: f64,
    rate: f64,
    tolerance_share: f64,
    low_source: String,
    low_percent: f64,
    low_rate: f64,
    low_tolerance_share: f64,
    high_source: String,
    high_percent: f64,
    high_rate_between: [f64; 2],
    harmless_source: String,
    harmless_percent: f64,
}

#[derive(Deserialize)]
struct Salt {
    source: String,
    percent: f64,
    slower: [f64; 3],
    tolerance: f64,
}

fn table() -> Table {
    toml::from_str(include_str!("../reference/dose.toml")).expect("the table is well formed")
}

fn buns() -> Formula {
    starter("plum-almond-buns")
}

/// The rises of a formula: their minutes and folds.
fn rises(formula: &Formula) -> Vec<(Estimate<Minutes>, Vec<Minutes>)> {
    let steps = formula.steps.iter();
    let rise = |length: &Length| match length {
        Length::Ferment {
            reference_minutes,
            folds,
            ..
        } => Some((*reference_minutes, folds.clone())),
        _ => None,
    };
    steps.filter_map(|step| rise(&step.length)).collect()
}

fn yeasts_g(formula: &Formula) -> Vec<f64> {
    let parts = formula.dough_ingredients();
    let yeast = parts.filter(|part| part.food.key.starts_with("yeast"));
    yeast.map(|part| part.mass.get()).collect()
}

#[test]
fn the_slowest_pace_is_the_measured_one() {
    let gas = table().gas;
    let [less, more] = gas.dose_percent;
    let got = dose::pace(more / less).low();
    let published = gas.gas_ml[1] / gas.gas_ml[0];
    assert_close(&gas.source, got, published, gas.tolerance_share * published);
}

#[test]
fn the_other_end_is_the_rule_of_thumb_and_the_likely_one_lies_between() {
    let rule = table().rule;
    for row in &rule.row {
        let pace = dose::pace(row.times);
        let longer = [pace.low(), pace.high()].map(|pace| 1.0 / pace);
        let nearest = longer.map(|longer| (longer - row.longer).abs());
        let case = format!("{} times: {}", row.times, rule.source);
        assert_close(&case, nearest[0].min(nearest[1]), 0.0, 1e-12);
        assert!(pace.low() < pace.likely() && pace.likely() < pace.high());
    }
}

#[test]
fn half_the_yeast_lengthens_every_rise_and_widens_its_window() {
    let buns = buns();
    let half = buns.with_yeast(0.5, None);
    assert_eq!(yeasts_g(&half), [2.5]);
    let longer = 0.5_f64.powf(-0.85);
    for ((before, folds), (after, moved)) in rises(&buns).into_iter().zip(rises(&half)) {
        let by = after.likely() / before.likely();
        assert_close("longer", by, longer, 1e-12);
        // In quadrature with the exponent's 0.15 ln 2.
        let end = |of: Minutes, likely: Minutes| (of / likely).ln();
        for (now, then) in [(after.low(), before.low()), (after.high(), before.high())] {
            let then = end(then, before.likely());
            let wanted = then.hypot(0.15 * 2.0_f64.ln());
            assert_close("wider", end(now, after.likely()).abs(), wanted, 1e-12);
        }
        for (fold, moved) in folds.iter().zip(moved) {
            assert_close("fold", moved / *fold, longer, 1e-12);
        }
    }
    // The dough has lost 2.5 of its 680 g, and every bun its part.
    let (dough, bun) = (half.dough_mass().get(), half.pieces.mass.get());
    assert_close("dough", dough, buns.dough_mass().get() - 2.5, 1e-9);
    assert_close("buns", bun * f64::from(half.pieces.count), dough, 1e-9);
    // All else is as it was: what was done can be done backwards.
    let again = half.with_yeast(2.0, None);
    assert_close("yeast", yeasts_g(&again)[0], 5.0, 1e-12);
    assert_close(
        "buns",
        again.pieces.mass.get(),
        buns.pieces.mass.get(),
        1e-9,
    );
    let fillings = |formula: &Formula| formula.components[1..].to_vec();
    assert_eq!(fillings(&half), fillings(&buns));
}

#[test]
fn its_own_dose_changes_nothing() {
    for formula in starters::all() {
        assert_eq!(rises(&formula.with_yeast(1.0, None)), rises(&formula));
        assert_eq!(yeasts_g(&formula.with_yeast(1.0, None)), yeasts_g(&formula));
    }
}

#[test]
fn weighed_yeast_is_what_scales_show_and_the_rises_follow_that() {
    // 5 g of instant; 0.7 times that is 3.5 g.
    let on = |scales: &Scales| {
        let dosed = buns().with_yeast(0.7, Some(scales));
        let (rise, _) = rises(&dosed)[0].clone();
        (yeasts_g(&dosed)[0], rise.likely() / minutes(90.0))
    };
    let (mass, longer) = on(&Scales::KITCHEN);
    assert_close("whole grams", mass, 4.0, 1e-12);
    assert_close("of 4 g", longer, 0.8_f64.powf(-0.85), 1e-12);
    let fine = FineScales {
        step: grams(0.1),
        up_to: grams(50.0),
    };
    let (mass, longer) = on(&Scales {
        fine: Some(fine),
        ..Scales::KITCHEN
    });
    assert_close("tenths", mass, 3.5, 1e-12);
    assert_close("of 3.5 g", longer, 0.7_f64.powf(-0.85), 1e-12);
}

#[test]
fn a_preferment_follows_its_own_yeast_and_the_dough_all_of_it() {
    // 1 g in the poolish and 3 g in the dough; half of 1 g is still 1 g on these scales.
    let loaf = starter("overnight-tin-loaf");
    let dosed = loaf.with_yeast(0.5, Some(&Scales::KITCHEN));
    assert_eq!(yeasts_g(&dosed), [1.0, 2.0]);
    let (before, after) = (rises(&loaf), rises(&dosed));
    assert_eq!(after[0], before[0], "the poolish keeps its time");
    for (before, after) in before.iter().zip(&after).skip(1) {
        let longer = after.0.likely() / before.0.likely();
        assert_close("3 g in place of 4", longer, 0.75_f64.powf(-0.85), 1e-12);
    }
    let wait = |formula: &Formula| {
        let step = formula
            .steps
            .iter()
            .find(|step| step.title == "Night in fridge");
        step.expect("it has a night").length.clone()
    };
    assert_eq!(wait(&dosed), wait(&loaf));
}

#[test]
fn an_unusual_dose_is_told_of() {
    let usual = |formula: &Formula| {
        let readings = readings(formula);
        let yeast = readings
            .iter()
            .find(|one| one.measure == Measure::FreshYeast);
        yeast.expect("yeast is looked at").is_usual()
    };
    // 5 g of instant in 345 g of flour count as 4.4 % of fresh; usual is up to 8 %.
    assert!(usual(&buns().with_yeast(1.5, None)));
    assert!(!usual(&buns().with_yeast(2.0, None)));
}

#[test]
fn odd_doses_and_ranges_do_not_panic() {
    for times in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        for range in [Minutes::MIN, minutes(0.0), Minutes::MAX] {
            let longer = dose::lengthened(&Estimate::exact(range, Basis::Formula), times);
            assert!(longer.low() <= longer.high());
        }
        let _ = buns().with_yeast(times, None);
        let _ = buns().with_yeast(times, Some(&Scales::KITCHEN));
    }
}

fn any_scales() -> impl Strategy<Value = Scales> {
    (1..=4_u8, proptest::option::of(1..=10_u8)).prop_map(|(step, fine)| Scales {
        step: grams(f64::from(step) * 0.5),
        fine: fine.map(|step| FineScales {
            step: grams(f64::from(step) * 0.01),
            up_to: grams(50.0),
        }),
    })
}

/// A rise that asks for nothing has no dose that would make it ready later.
#[test]
fn a_rise_of_no_length_has_no_dose() {
    let start = Moment::from_epoch_ms(1_795_251_600_000);
    let proof = |reference: f64, dough: Celsius| Proof {
        range: Estimate::exact(minutes(reference), Basis::Formula),
        reference: celsius(24.0),
        start,
        dough: Estimate::exact(dough, Basis::Measured),
        surroundings: Surroundings::constant(dough),
        vessel: Vessel::dough_in_bowl(grams(500.0)),
        had: Minutes::MIN.max(minutes(0.0)),
        learnt: Learnt::default(),
    };
    let unmet = Err(Unmet::TooLate);
    // Where yeast works, and where nothing is gained either.
    for dough in [celsius(24.0), celsius(-2.0)] {
        let answer = proof(0.0, dough).dose_for(start + minutes(60.0));
        assert_eq!(answer, unmet, "{dough:?}");
    }
}

proptest! {
    #[test]
    fn more_yeast_never_lengthens_a_rise(times in LEAST_DOSE..MOST_DOSE, more in 1.0..2.0_f64) {
        let (less, more) = (buns().with_yeast(times, None), buns().with_yeast(times * more, None));
        for ((one, _), (other, _)) in rises(&less).into_iter().zip(rises(&more)) {
            prop_assert!(other.likely() <= one.likely());
        }
    }

    #[test]
    fn the_pace_gives_its_dose_back(times in LEAST_DOSE..MOST_DOSE) {
        let back = dose::for_pace(dose::pace(times).likely());
        prop_assert!((back - times).abs() < 1e-12 * times);
    }

    #[test]
    fn weighed_yeast_is_whole_steps_within_what_is_covered(
        times in LEAST_DOSE..=MOST_DOSE,
        scales in any_scales(),
    ) {
        for formula in starters::all() {
            let dosed = formula.with_yeast(times, Some(&scales));
            for (own, mass) in yeasts_g(&formula).into_iter().zip(yeasts_g(&dosed)) {
                let step = scales.step_for(grams(mass)).get();
                let steps = mass / step;
                prop_assert!((steps - steps.round()).abs() < 1e-6 && steps > 0.5, "{} g", mass);
                // Of a gram of yeast coarse scales show no part.
                prop_assert!(mass >= own * LEAST_DOSE - 1e-9, "{} g", mass);
                prop_assert!(mass <= (own * MOST_DOSE + 1e-9).max(step), "{} g", mass);
            }
        }
    }
}
