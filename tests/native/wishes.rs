//! The reverse question: what makes a rise ready at a wished moment.

mod filled;
mod whole_bake;

use checks::assert_close;
use domain::estimate::{Basis, Estimate};
use domain::formula::{Formula, Step, StepKind};
use domain::thermal::oven::BakeForm;
use domain::thermal::vessel::{Material, Surroundings, Vessel};
use domain::units::{Celsius, Minutes, Moment, celsius, grams, minutes};
use domain::yeast::dose::{LEAST_DOSE, MOST_DOSE};
use domain::yeast::proof::{COLDEST_RISE, HORIZON, Learnt, Proof, Unmet, WARMEST_RISE};
use proptest::prelude::*;
use records::starters;

const START: Moment = Moment::from_epoch_ms(1_700_000_000_000);
const FRIDGE: Celsius = celsius(4.0);
const SECOND: Minutes = minutes(1.0 / 60.0);

fn proof(dough: f64, kitchen: f64, vessel: Vessel) -> Proof {
    Proof {
        range: Estimate::new(minutes(75.0), minutes(90.0), minutes(110.0), Basis::Formula),
        reference: celsius(25.0),
        start: START,
        dough: Estimate::exact(celsius(dough), Basis::Measured),
        surroundings: Surroundings::constant(celsius(kitchen)),
        vessel,
        had: minutes(0.0),
        learnt: Learnt::default(),
    }
}

fn any_vessel() -> impl Strategy<Value = Vessel> {
    (0..3_u8, 100.0..2500.0_f64).prop_map(|(kind, mass)| match kind {
        0 => Vessel::dough_in_bowl(grams(mass)),
        1 => BakeForm::Round.rising(grams(mass / 10.0), Material::DOUGH),
        _ => BakeForm::Tin.rising(grams(mass), Material::DOUGH),
    })
}

prop_compose! {
    fn any_proof()(
        vessel in any_vessel(),
        dough in 18.0..30.0_f64,
        kitchen in 12.0..32.0_f64,
    ) -> Proof {
        proof(dough, kitchen, vessel)
    }
}

fn bowl() -> Proof {
    proof(25.0, 21.0, Vessel::dough_in_bowl(grams(680.0)))
}

fn off(proof: &Proof, ready: Moment) -> f64 {
    (proof.window().likely() - ready).get().abs()
}

proptest! {
    #[test]
    fn every_way_reckoned_forwards_is_ready_at_the_moment(
        proof in any_proof(),
        later in -0.6..12.0_f64,
    ) {
        let usual = proof.window().likely();
        let ready = usual + (usual - START) * later;
        if let Ok(times) = proof.dose_for(ready) {
            prop_assert!(off(&proof.dosed(times), ready) <= SECOND.get());
        }
        if let Ok(around) = proof.temperature_for(ready) {
            prop_assert!(off(&proof.around(Surroundings::constant(around)), ready) <= SECOND.get(), "{:?}", around);
        }
        if let Ok(out) = proof.out_of_fridge_for(ready, FRIDGE) {
            let chilled = proof.around(proof.fridge_until(out, FRIDGE));
            prop_assert!(off(&chilled, ready) <= SECOND.get(), "{:?}", out);
        }
    }

    #[test]
    fn a_later_wish_takes_less_yeast_cooler_air_and_longer_in_the_fridge(
        proof in any_proof(),
        wish in 0.5..8.0_f64,
        later in 0.01..4.0_f64,
    ) {
        let length = proof.window().likely() - START;
        let (one, other) = (START + length * wish, START + length * (wish + later));
        if let (Ok(one), Ok(other)) = (proof.dose_for(one), proof.dose_for(other)) {
            prop_assert!(other < one);
        }
        if let (Ok(one), Ok(other)) = (proof.temperature_for(one), proof.temperature_for(other)) {
            prop_assert!(other < one);
        }
        let out = |ready| proof.out_of_fridge_for(ready, FRIDGE);
        if let (Ok(first), Ok(second)) = (out(one), out(other)) {
            prop_assert!(second > first);
        }
        // And what is too late for one is too late for whatever is later.
        let too_late = |ready| proof.dose_for(ready) == Err(Unmet::TooLate);
        prop_assert!(!too_late(one) || too_late(other));
    }

    #[test]
    fn at_the_forecast_moment_nothing_changes(proof in any_proof()) {
        let usual = proof.window().likely();
        let times = proof.dose_for(usual).expect("its own dose");
        // Moments are whole milliseconds.
        prop_assert!((times - 1.0).abs() < 1e-5, "{}", times);
        let around = proof.temperature_for(usual).expect("its own kitchen");
        prop_assert!((around - proof.surroundings.at(START)).get().abs() < 1e-3, "{:?}", around);
        // A moment that is rounded down can't be met by any time in the fridge.
        let out = proof.out_of_fridge_for(usual + SECOND, FRIDGE).expect("none in the fridge");
        prop_assert!((out - START).get() < 0.5, "{:?}", out);
    }

    #[test]
    fn other_yeast_is_less_sure_and_the_window_says_so(proof in any_proof(), times in LEAST_DOSE..MOST_DOSE) {
        let width = |proof: &Proof| {
            let window = proof.window();
            let log = |end: Moment| (end - START).get().ln();
            log(window.high()) - log(window.low())
        };
        // Rises of another length live in other temperatures, so the comparison is with the same length.
        let dosed = proof.dosed(times);
        let sure = Proof {
            range: proof.range.map(|length| length * (dosed.range.likely() / proof.range.likely())),
            ..proof.clone()
        };
        prop_assert!(width(&dosed) >= width(&sure) - 1e-9);
    }
}

#[test]
fn the_dose_is_the_equations_where_dough_and_kitchen_are_as_the_formula_wants_them() {
    // At the reference temperature minutes are reference minutes, so twice the time is half the pace.
    let proof = proof(25.0, 25.0, Vessel::dough_in_bowl(grams(680.0)));
    let times = proof.dose_for(START + minutes(180.0)).expect("in range");
    assert_close("half the pace", times, 0.5_f64.powf(1.0 / 0.85), 1e-6);
}

#[test]
fn what_is_out_of_range_is_refused_with_the_reason() {
    let proof = bowl();
    let usual = proof.window().likely();
    let at = |length: f64| START + (usual - START) * length;
    // 2.5 times the yeast is 2.18 times as fast, a quarter of it 3.25 times as slow; the kitchen cools
    // the dough, which makes a long rise longer still.
    for (length, expected) in [
        (0.40, Some(Unmet::TooEarly)),
        (0.55, None),
        (3.0, None),
        (4.2, Some(Unmet::TooLate)),
    ] {
        assert_eq!(proof.dose_for(at(length)).err(), expected, "{length}");
    }
    assert_eq!(proof.temperature_for(at(0.3)), Err(Unmet::TooEarly));
    let fridge = |ready| proof.out_of_fridge_for(ready, FRIDGE);
    assert_eq!(fridge(at(0.99)), Err(Unmet::TooEarly));
    assert!(fridge(at(1.5)).is_ok());
    // A warm dough rises on for a while even in the fridge, and this one needs little.
    let quick = Proof {
        range: proof.range.map(|length| length * 0.3),
        ..proof.clone()
    };
    let late = START + minutes(600.0);
    assert_eq!(quick.temperature_for(late), Err(Unmet::TooLate));
    assert_eq!(quick.out_of_fridge_for(late, FRIDGE), Err(Unmet::TooLate));
    for (ready, expected) in [
        (START, Unmet::TooEarly),
        (START - minutes(5.0), Unmet::TooEarly),
        (START + HORIZON + minutes(1.0), Unmet::TooLate),
    ] {
        assert_eq!(proof.dose_for(ready), Err(expected));
        assert_eq!(proof.temperature_for(ready), Err(expected));
        assert_eq!(fridge(ready), Err(expected));
    }
}

#[test]
fn a_dough_that_stands_still_is_helped_by_warmth_but_by_no_dose() {
    let proof = proof(4.0, 1.0, Vessel::dough_in_bowl(grams(680.0)));
    assert!(proof.stalls());
    let ready = START + minutes(600.0);
    assert_eq!(proof.dose_for(ready), Err(Unmet::TooEarly));
    let around = proof.temperature_for(ready).expect("warmth helps");
    assert!(around > COLDEST_RISE && around < WARMEST_RISE);
}

#[test]
fn a_warm_middle_goes_on_rising_in_the_fridge() {
    let after = |mass: f64, hours: f64| {
        let proof = proof(25.0, 21.0, Vessel::dough_in_bowl(grams(mass)));
        let until = START + minutes(60.0 * hours);
        let chilled = proof.around(proof.fridge_until(until, FRIDGE));
        chilled.reference_minutes_at(until).get()
    };
    let (bun, dough) = (after(90.0, 12.0), after(700.0, 12.0));
    assert!(dough > 1.5 * bun && bun > 15.0, "{bun} {dough}");
    // So much dough is ready in the fridge itself, where so small a bun never is.
    let large = proof(25.0, 21.0, Vessel::dough_in_bowl(grams(1500.0)));
    let day = START + minutes(1440.0);
    assert_eq!(large.out_of_fridge_for(day, FRIDGE), Err(Unmet::TooLate));
    let bun = proof(
        25.0,
        21.0,
        BakeForm::Round.rising(grams(90.0), Material::DOUGH),
    );
    assert!(bun.out_of_fridge_for(day, FRIDGE).is_ok());
}

fn starter(id: &str) -> Formula {
    let mut all = starters::all().into_iter();
    all.find(|formula| formula.id.0 == id)
        .expect("it is a starter")
}

fn rise(formula: &Formula, kind: StepKind) -> &Step {
    let mut steps = formula.steps.iter().rev();
    steps.find(|step| step.kind == kind).expect("it has one")
}
