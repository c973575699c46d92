//! More doughs that are planned to stand in the fridge at one time than a fridge is taken to have room for.

use checks::{begin, say, starter};
use domain::bake::{Bake, BakeId, Intent};
use domain::formula::{StepId, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Plan, RetardPart, What};
use domain::units::{Minutes, Moment, minutes};

use super::super::NINE;
use super::super::asked::{hours, planned};
use super::rising;

/// One more than a fridge is taken to have room for.
const DOUGHS: usize = 5;

/// The plan of some of one bread that are put into the fridge one after the other, and come out an hour apart each, so
/// that they don't get in each other's way at the oven.
fn nights(one: &Bake, rise: StepId, first: Minutes, now: Moment) -> Plan {
    let bread = |nth: usize| {
        let mut bake = one.clone();
        bake.id = BakeId(format!("bread {nth}"));
        let from = now + first + minutes(5.0) * nth as f64;
        let to = now + first + hours(9.0 + nth as f64);
        say(&mut bake, Intent::PlanRetard(rise, Some((from, to))), now);
        bake
    };
    let bakes: Vec<Bake> = (0..DOUGHS).map(bread).collect();
    planned(&bakes, now).expect("there is a plan").plan
}

/// How many doughs stand in the fridge at once.
fn stand_together(plan: &Plan) -> usize {
    let stands = plan.items.iter();
    let stands: Vec<_> = stands
        .filter(|item| matches!(item.what, What::Retard(_, _, RetardPart::Stands)))
        .collect();
    let at = stands.iter().map(|item| item.start).max();
    let holds = |at: Moment| {
        let stands = stands.iter();
        stands
            .filter(|item| item.start <= at && at < item.end)
            .count()
    };
    at.map_or(0, holds)
}

#[test]
fn a_planned_night_finds_room_beside_however_many() {
    let to_come = begin(starter("orange-braid"), Kitchen::UNMEASURED, NINE);
    let steps = &to_come.state().formula.steps;
    let rise = steps.iter().find(|step| step.kind == StepKind::Bulk);
    let rise = rise.expect("it rises").id;
    let plan = nights(&to_come, rise, hours(11.0), NINE);
    assert_eq!(stand_together(&plan), DOUGHS);
}

#[test]
fn so_does_that_of_a_rise_that_goes_on() {
    let (one, rise, now) = rising(1, StepKind::FinalProof).expect("it rises");
    let plan = nights(&one, rise, minutes(10.0), now);
    assert_eq!(stand_together(&plan), DOUGHS);
}
