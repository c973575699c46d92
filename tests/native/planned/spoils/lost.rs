//! What can't be saved any more gives way to what can.

use checks::say;
use domain::bake::{Bake, Intent, PERISHABLE_LIMIT, PERISHABLE_LIMIT_HOT};
use domain::formula::StepKind;
use domain::units::{Minutes, celsius, minutes};

use super::{NOW, planned, start_of, there_at};

/// Filling took so long.
const FILLED: f64 = 5.0;

/// Buns that begin to proof now, whose cream had stood out for so long before it was taken to them, and how warm the kitchen
/// was until now and is.
fn proofing(waited: f64, (was, is): (f64, f64)) -> Bake {
    let mut bake = there_at("plum-almond-buns", StepKind::FinalProof, waited, was, NOW);
    say(&mut bake, Intent::KitchenIs(celsius(is)), NOW);
    bake
}

/// For how long each filling stands out by the plan.
fn stands<const N: usize>(bakes: [Bake; N], waited: [f64; N]) -> [Minutes; N] {
    let plan = planned(&bakes, NOW);
    std::array::from_fn(|bake| {
        let baked = start_of(&plan, &bakes, bake, StepKind::Bake);
        minutes(waited[bake] + FILLED) + (baked - NOW)
    })
}

/// Whichever of both is named first: one batch is lost however soon it is baked, and the other is baked as soon as if it
/// were alone.
fn saves(kept: f64, lost: f64, air: (f64, f64), limit: Minutes) {
    let [alone] = stands([proofing(kept, air)], [kept]);
    assert!(alone <= limit, "{kept} min, {air:?} °C: {alone:?} alone");
    let [too_long] = stands([proofing(lost, air)], [lost]);
    assert!(too_long > limit, "{lost} min, {air:?} °C: {too_long:?}");
    for waited in [[kept, lost], [lost, kept]] {
        let both = stands(waited.map(|waited| proofing(waited, air)), waited);
        let saved = both[usize::from(waited[0] == lost)];
        assert_eq!(saved, alone, "{waited:?} min, {air:?} °C: {both:?}");
    }
}

#[test]
fn what_can_be_saved_is_baked_before_what_is_lost() {
    for kept in [30.0, 38.0] {
        for lost in [50.0, 70.0, 100.0] {
            saves(kept, lost, (22.0, 22.0), PERISHABLE_LIMIT);
        }
    }
}

/// One hour above 90 °F: USDA FSIS, the "danger zone". It counts from when the food came out, and an hour of heat isn't made
/// good by a cooler one, as in `perishable`.
#[test]
fn in_the_heat_and_after_it_an_hour_is_all_there_is() {
    for air in [(34.0, 34.0), (34.0, 31.0)] {
        for kept in [0.0, 4.0] {
            saves(kept, 30.0, air, PERISHABLE_LIMIT_HOT);
        }
    }
}
