//! What a rise with a filling in it may be asked, and how long egg and milk stand.

use domain::bake::HOT_KITCHEN;
use domain::food::{FoodKind, food};
use domain::formula::{Formula, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::{
    EGG_AND_MILK_OUT, Filled, Unsafe, filled, is_long_for_egg_or_milk, rise_if_started,
    rises_if_started,
};
use domain::units::{Moment, celsius, minutes};
use domain::yeast::proof::Proof;

use super::{FRIDGE, START, rise, starter};

/// A step's rise and what limits it, if the bake started now.
fn of_rise(formula: &Formula, kitchen: &Kitchen, kind: StepKind) -> (Proof, Option<Filled>) {
    let step = rise(formula, kind).id;
    let proof = rise_if_started(formula, kitchen, START, step).expect("yeast works in it");
    (proof, filled(formula, kitchen, START, step))
}

fn kitchen_at(air: f64) -> Kitchen {
    Kitchen {
        air: celsius(air),
        ..Kitchen::UNMEASURED
    }
}

#[test]
fn only_what_was_filled_before_it_rises_is_limited() {
    for id in ["plum-almond-buns", "orange-braid", "overnight-tin-loaf"] {
        let formula = starter(id);
        for kind in [StepKind::Bulk, StepKind::FinalProof] {
            let (_, limited) = of_rise(&formula, &Kitchen::UNMEASURED, kind);
            let expected = id == "plum-almond-buns" && kind == StepKind::FinalProof;
            assert_eq!(limited.is_some(), expected, "{id}, {kind:?}");
        }
    }
}

#[test]
fn a_filled_bun_never_rises_until_its_filling_stood_out_two_hours() {
    let buns = starter("plum-almond-buns");
    let (_, filled) = of_rise(&buns, &Kitchen::UNMEASURED, StepKind::FinalProof);
    let filled = filled.expect("cream is in it");
    // 14 min of filling, 5 of egg wash and 1 into the oven count as well: 100 min are left for the proof.
    let air = Kitchen::UNMEASURED.air;
    assert_eq!(filled.bears(minutes(99.9), air), Ok(()));
    assert_eq!(
        filled.bears(minutes(100.1), air),
        Err(Unsafe::TooLong),
        "in the kitchen"
    );
    assert_eq!(
        filled.bears(minutes(100.1), celsius(12.0)),
        Err(Unsafe::TooLong)
    );
    // Warmth: up to 90 °F, and in a kitchen beyond that an hour in all.
    assert_eq!(filled.bears(minutes(30.0), HOT_KITCHEN), Ok(()));
    assert_eq!(
        filled.bears(minutes(30.0), celsius(32.5)),
        Err(Unsafe::TooWarm)
    );
    let (_, hot) = of_rise(&buns, &kitchen_at(34.0), StepKind::FinalProof);
    let hot = hot.expect("cream is in it");
    assert_eq!(hot.bears(minutes(39.9), celsius(34.0)), Ok(()));
    assert_eq!(
        hot.bears(minutes(40.1), celsius(20.0)),
        Err(Unsafe::TooLong)
    );
    // What is as cold as a fridge is a fridge, and no place for a proof.
    assert_eq!(
        filled.bears(minutes(30.0), celsius(5.0)),
        Err(Unsafe::TooLong)
    );
}

#[test]
fn a_late_wish_for_filled_buns_is_met_by_the_fridge_alone() {
    for air in [21.0, 30.0] {
        late_wish(air);
    }
}

fn late_wish(air: f64) {
    let (buns, kitchen) = (starter("plum-almond-buns"), kitchen_at(air));
    let (proof, filled) = of_rise(&buns, &kitchen, StepKind::FinalProof);
    let filled = filled.expect("cream is in it");
    let usual = proof.window().likely();
    for later in [60.0, 120.0, 360.0] {
        let ready = usual + minutes(later);
        let around = proof.temperature_for(ready).expect("cooler air does it");
        let length = ready - proof.start;
        assert_eq!(
            filled.bears(length, around),
            Err(Unsafe::TooLong),
            "{later}"
        );
        let out = proof
            .out_of_fridge_for(ready, FRIDGE)
            .expect("the fridge does it");
        // By likely times it would fit, but one time in ten it takes longer than the filling bears.
        let late = proof.around(proof.fridge_until(out, FRIDGE)).window();
        let bears = |end: Moment| filled.bears(end - out, kitchen.air).is_ok();
        assert!(bears(late.likely()), "{later}");
        assert_eq!(bears(late.high()), air > 24.0, "{later} in {air} °C");
    }
}

#[test]
fn less_yeast_for_a_first_rise_is_held_against_the_filled_one_that_follows() {
    let (buns, braid) = (starter("plum-almond-buns"), starter("orange-braid"));
    for (times, bears) in [
        (2.0, true),
        (1.1, true),
        // To the late end of its window, in a kitchen that may be two degrees colder than said; by
        // likely times it would bear 0.8.
        (1.0, false),
        (0.4, false),
    ] {
        let rises = |formula: &Formula| {
            rises_if_started(
                &formula.with_yeast(times, None),
                &Kitchen::UNMEASURED,
                START,
            )
        };
        assert_eq!(rises(&buns).bears_its_filling, bears, "{times}");
        assert!(rises(&braid).bears_its_filling, "nothing is in it, {times}");
    }
}

#[test]
fn a_dough_with_egg_or_milk_is_said_to_stand_long_after_four_hours() {
    let braid = starter("orange-braid");
    let (proof, filled) = of_rise(&braid, &Kitchen::UNMEASURED, StepKind::Bulk);
    assert_eq!(filled, None);
    let ready = |later: f64| proof.window().likely() + minutes(later) - proof.start;
    // The first rise takes 105 min, and 135 more are four hours.
    assert!(!is_long_for_egg_or_milk(&braid, ready(120.0)));
    assert!(is_long_for_egg_or_milk(&braid, ready(150.0)));
    let slow = rises_if_started(&braid.with_yeast(0.35, None), &Kitchen::UNMEASURED, START);
    assert!(slow.longest > EGG_AND_MILK_OUT);
    // Without either it may stand as long as it likes.
    let mut lean = braid.into_draft();
    for component in &mut lean.components {
        component.ingredients.retain(|part| {
            !matches!(part.food.kind, FoodKind::Egg | FoodKind::Milk) || part.tempered
        });
        for part in &mut component.ingredients {
            if part.tempered {
                part.food = food("water").expect("water is in the table");
            }
        }
    }
    let lean = Formula::new(lean).expect("only ingredients were changed");
    assert!(!is_long_for_egg_or_milk(&lean, ready(600.0)));
}
