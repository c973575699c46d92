//! No plan has a filling stand out beyond the two-hour rule where another plan need not.
//!
//! Two hours: USDA FSIS, the "danger zone", as in `perishable`.

mod lost;
mod to_spare;

use checks::{begin, say, starter, up_to};
use domain::bake::{Bake, Intent, PERISHABLE_LIMIT, State};
use domain::formula::StepKind;
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Goal, Plan, What, plan};
use domain::units::{Minutes, Moment, celsius, minutes};

use super::keeps::check;
use super::{NINE, bounds};

/// The next day: late enough for any bake to have got anywhere by then.
const NOW: Moment = Moment::from_epoch_ms(1_789_984_800_000);

/// How long the steps take, where cream waits so long for its way into the fridge once it is cold.
fn length(waited: f64) -> impl Fn(StepKind) -> Minutes {
    move |kind| match kind {
        StepKind::Prepare => minutes(waited),
        StepKind::Bulk => minutes(90.0),
        StepKind::Chill | StepKind::BenchRest => minutes(15.0),
        _ => minutes(5.0),
    }
}

/// Buns up to a step, whose cream waited so long for its way into the fridge once it was cold.
fn buns(to: StepKind, waited: f64) -> (Bake, Moment) {
    let mut bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, NINE);
    let (step, now) = up_to(&mut bake, to, NINE, length(waited));
    if to == StepKind::Fill {
        say(&mut bake, Intent::MarkNext(step), now);
    }
    (bake, now)
}

/// A bread that gets to a step at a moment, in a kitchen of that temperature.
fn there_at(id: &str, to: StepKind, waited: f64, air: f64, now: Moment) -> Bake {
    let kitchen = Kitchen {
        air: celsius(air),
        ..Kitchen::UNMEASURED
    };
    let from = |start: Moment| {
        let mut bake = begin(starter(id), kitchen, start);
        let (_, there) = up_to(&mut bake, to, start, length(waited));
        (bake, there)
    };
    // Gone through once, to know when it has to begin.
    let takes = from(NINE).1 - NINE;
    let (bake, there) = from(now - takes);
    assert_eq!(there, now);
    bake
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
    let mut judged = 0;
    for waited in [0.0, 10.0, 20.0, 27.0, 35.0] {
        for kind in [StepKind::Divide, StepKind::PreShape, StepKind::Shape] {
            let (one, now) = buns(kind, waited);
            let bakes = [one.clone(), one];
            // What one batch can't be spared by itself is lost.
            let alone = out(&planned(&bakes[..1], now), &bakes, 0);
            if minutes(waited + 6.0) + alone > PERISHABLE_LIMIT {
                continue;
            }
            judged += 1;
            let plan = planned(&bakes, now);
            for bake in [0, 1] {
                let stood = minutes(waited) + out(&plan, &bakes, bake);
                assert!(
                    stood <= PERISHABLE_LIMIT,
                    "{kind:?} {bake}: {stood:?} after {waited} min, alone {alone:?}"
                );
            }
        }
    }
    assert!(judged >= 6, "only {judged} could be kept");
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
