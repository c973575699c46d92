//! No plan has a filling stand out beyond the two-hour rule where another plan need not.
//!
//! Two hours: USDA FSIS, the "danger zone", as in `perishable`.

use checks::{begin, say, starter, up_to};
use domain::bake::{Bake, Intent, PERISHABLE_LIMIT, State};
use domain::formula::StepKind;
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Goal, Plan, What, plan};
use domain::units::{Minutes, Moment, minutes};

use super::keeps::check;
use super::{NINE, bounds};

/// Buns up to a step, whose cream waited so long for its way into the fridge once it was cold.
fn buns(to: StepKind, waited: f64) -> (Bake, Moment) {
    let mut bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, NINE);
    let length = |kind| match kind {
        StepKind::Prepare => minutes(waited),
        StepKind::Bulk => minutes(90.0),
        StepKind::Chill | StepKind::BenchRest => minutes(15.0),
        _ => minutes(5.0),
    };
    let (step, now) = up_to(&mut bake, to, NINE, length);
    if to == StepKind::Fill {
        say(&mut bake, Intent::MarkNext(step), now);
    }
    (bake, now)
}

fn planned(bakes: &[Bake], now: Moment) -> Plan {
    let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
    let plan = plan(&states, bounds(Goal::Soonest, &[]), now, None, &mut || true);
    let plan = plan.expect("there is a plan");
    assert_eq!(check(&states, &plan, now, &[]), Ok(()));
    plan
}

fn start_of(plan: &Plan, bakes: &[Bake], bake: usize, kind: StepKind) -> Moment {
    let mut steps = bakes[bake].state().formula.steps.iter();
    let step = steps.find(|step| step.kind == kind).expect("it has one");
    plan.item(What::Step(bake, step.id)).expect("planned").start
}

/// From filling to the oven, by the plan.
fn out(plan: &Plan, bakes: &[Bake], bake: usize) -> Minutes {
    start_of(plan, bakes, bake, StepKind::Bake) - start_of(plan, bakes, bake, StepKind::Fill)
}

#[test]
fn two_doughs_that_are_ready_at_once_are_filled_as_the_oven_can_take_them() {
    for waited in [0.0, 10.0, 20.0, 27.0, 35.0] {
        for kind in [StepKind::Divide, StepKind::PreShape, StepKind::Shape] {
            let (one, now) = buns(kind, waited);
            let bakes = [one.clone(), one];
            // What one batch has to stand out by itself, no plan can spare it.
            let alone = out(&planned(&bakes[..1], now), &bakes, 0);
            let most = PERISHABLE_LIMIT.max(minutes(waited + 1.0) + alone);
            let plan = planned(&bakes, now);
            for bake in [0, 1] {
                let stood = minutes(waited) + out(&plan, &bakes, bake);
                assert!(
                    stood <= most,
                    "{kind:?} {bake}: {stood:?} after {waited} min, alone {alone:?}"
                );
            }
        }
    }
}

#[test]
fn cream_that_is_yet_to_be_put_away_is_reckoned_with() {
    for kind in [StepKind::Gather, StepKind::Mix] {
        let (one, now) = buns(kind, 1.0);
        let bakes = [one.clone(), one.clone(), one];
        let plan = planned(&bakes, now);
        for (bake, one) in bakes.iter().enumerate() {
            let steps = &one.state().formula.steps;
            let item = |step| plan.item(What::Step(bake, step));
            let chill = steps.iter().find(|step| step.kind == StepKind::Chill);
            let puts = steps.iter().find(|step| step.needs.fridge);
            let (chill, puts) = (chill.expect("cream").id, puts.expect("cream").id);
            let waits = match (item(chill), item(puts)) {
                (Some(cools), Some(puts)) => puts.end - cools.end,
                _ => minutes(0.0),
            };
            let stood = waits + out(&plan, &bakes, bake);
            assert!(
                stood <= PERISHABLE_LIMIT,
                "{kind:?} {bake}: {stood:?}, of which {waits:?}"
            );
        }
    }
}

#[test]
fn what_is_lost_whatever_is_done_has_a_plan_all_the_same() {
    let (one, now) = buns(StepKind::Divide, 100.0);
    let bakes = [one.clone(), one];
    planned(&bakes, now);
    let (begun, now) = buns(StepKind::Fill, 27.0);
    planned(&[begun], now + minutes(90.0));
}
