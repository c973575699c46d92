//! Hands that can't come when a dough is to be put into the fridge, or taken out: there is a plan all the same.

use checks::{begin, say, starter};
use domain::bake::{Bake, Intent, Wishes};
use domain::formula::{StepId, StepKind};
use domain::kitchen::{Kitchen, Place};
use domain::schedule::plan::{Item, Plan, RetardPart, What};
use domain::units::{Moment, minutes};

use super::super::asked::{hours, planned, states, wish};
use super::super::keeps::check;
use super::super::{NINE, TABLES};
use super::rising;

/// The buns and the braid in the fridge from a moment on, and when each is to come out.
fn both_cold(outs: [f64; 2]) -> (Vec<Bake>, [StepId; 2], Moment) {
    let found = [0, 1].map(|which| rising(which, StepKind::Bulk).expect("it rises"));
    let since = found.each_ref().map(|&(.., now)| now);
    let since = since[0].max(since[1]);
    let steps = found.each_ref().map(|&(_, step, _)| step);
    let cold = found
        .into_iter()
        .zip(outs)
        .map(|((mut bake, step, _), out)| {
            let stay = (since, since + hours(out));
            say(&mut bake, Intent::Move(step, Place::Fridge), since);
            say(&mut bake, Intent::PlanRetard(step, Some(stay)), since);
            bake
        });
    (cold.collect(), steps, since)
}

fn plan_of(bakes: &[Bake], now: Moment, away: &[(Moment, Moment)]) -> Plan {
    let plan = planned(bakes, now).expect("there is a plan").plan;
    assert_eq!(check(&states(bakes), &plan, now, away), Ok(()));
    plan
}

fn out(plan: &Plan, bake: usize, step: StepId) -> Item {
    let item = plan.item(What::Retard(bake, step, RetardPart::Out));
    *item.expect("somebody takes it out")
}

#[test]
fn two_doughs_of_one_moment_come_out_one_after_the_other() {
    let (bakes, steps, since) = both_cold([9.0, 9.0]);
    let plan = plan_of(&bakes, since, &[]);
    let outs = [0, 1].map(|bake| out(&plan, bake, steps[bake]));
    let mut starts = outs.map(|out| out.start);
    starts.sort();
    let due = since + hours(9.0);
    assert_eq!(starts, [due, due + minutes(3.0)]);
    // That is no more than a fold may be late by.
    assert!(outs.iter().all(|out| out.too_late_by.is_none()));
}

#[test]
fn whoever_comes_after_both_moments_takes_out_one_after_the_other() {
    let (bakes, steps, since) = both_cold([8.0, 8.5]);
    let now = since + hours(8.6);
    let plan = plan_of(&bakes, now, &[]);
    let mut starts = [0, 1].map(|bake| out(&plan, bake, steps[bake]).start - now);
    starts.sort_by(|one, other| one.get().total_cmp(&other.get()));
    assert!(
        starts[0] <= minutes(1.0) && starts[1] <= minutes(4.0),
        "{starts:?}"
    );
}

/// What has no room for its own moment is taken out first thing, told as too late, and gone on with only then.
#[test]
fn whoever_sleeps_until_later_takes_it_out_first_thing() {
    // Half an hour later it still has to rise; half a day later it has risen long since, for all that the plan knows.
    for late in [30.0, 720.0] {
        takes_it_out_first_thing(late);
    }
}

fn takes_it_out_first_thing(late: f64) {
    let (mut bakes, steps, since) = both_cold([9.0, 9.0]);
    bakes.truncate(1);
    let due = since + hours(9.0);
    let asleep = (since + hours(2.0), due + minutes(late));
    let wishes = Wishes {
        away: vec![asleep],
        ..Wishes::default()
    };
    wish(&mut bakes, &wishes, since);
    let plan = plan_of(&bakes, since, &[asleep]);
    let out = out(&plan, 0, steps[0]);
    assert_eq!(out.start, asleep.1);
    assert_eq!(out.too_late_by, Some(minutes(late - 10.0)));
    let state = bakes[0].state();
    for item in &plan.items {
        let step = item
            .what
            .of()
            .and_then(|(_, step)| state.formula.step(step));
        let follows = step.is_some_and(|step| step.after.iter().any(|link| link.step == steps[0]));
        assert!(!follows || item.start >= out.end, "{item:?}");
    }
}

/// Kneading isn't put off, and goes on when the other dough is due.
#[test]
fn a_dough_that_is_due_in_the_midst_of_other_work_comes_out_after_it() {
    let (mut bakes, steps, since) = both_cold([9.0, 9.0]);
    bakes.truncate(1);
    let due = since + hours(9.0);
    let began = due - minutes(1.0);
    let mut other = begin(starter(TABLES[1][0]), Kitchen::UNMEASURED, NINE);
    let first = other
        .state()
        .formula
        .steps
        .iter()
        .find(|step| step.is_hands() && step.after.is_empty());
    let first = first.expect("it begins with work").id;
    say(&mut other, Intent::Pick(first), began);
    bakes.push(other);
    let plan = plan_of(&bakes, began, &[]);
    let work = *plan.item(What::Step(1, first)).expect("it is planned");
    assert!(work.end > due, "{work:?}");
    assert!(out(&plan, 0, steps[0]).start >= work.end);
}
