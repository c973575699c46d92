//! Work that takes longer, and rises that do.

use std::cell::{Cell, RefCell};

use domain::bake::{Bake, Entry, Event, Start};
use domain::estimate::Estimate;
use domain::formula::{Draft, Formula, Length, StepId};
use domain::schedule::plan::{Goal, Plan, away, plan};
use domain::units::{Minutes, Moment, minutes};
use proptest::prelude::*;
use proptest::test_runner::TestRunner;

use super::asked::{any_wishes, states};
use super::bounds;
use super::redone::days;

/// Plans that are held against each other, and how many of them must let go of nothing for that to say much.
const CASES: u32 = 200;
const LEAST_JUDGED: usize = 40;

/// A bake of a formula in which one piece of work or one rise takes so much longer, and nothing may wait but so long for it.
fn longer(bake: &Bake, step: StepId, more: Minutes) -> Bake {
    let mut log = bake.log().to_vec();
    let Event::Started(start) = &log[0].event else {
        panic!("a log begins with its start")
    };
    let mut draft: Draft = start.formula.clone().into_draft();
    for other in &mut draft.steps {
        let takes = match &mut other.length {
            Length::Hands(takes) => Some(takes),
            Length::Ferment {
                reference_minutes, ..
            } => Some(reference_minutes),
            _ => None,
        };
        if let Some(takes) = takes.filter(|_| other.id == step) {
            *takes = Estimate::new(
                takes.low() + more,
                takes.likely() + more,
                takes.high() + more,
                takes.basis(),
            );
        }
        for link in other.after.iter_mut().filter(|link| link.step == step) {
            link.greatest = None;
        }
    }
    let start = Start {
        formula: Formula::new(draft).expect("it fitted before"),
        kitchen: start.kitchen,
    };
    log[0] = Entry {
        at: log[0].at,
        event: Event::Started(Box::new(start)),
    };
    Bake::from_log(bake.id.clone(), log).expect("it begins with its start")
}

fn soonest(bakes: &[Bake], now: Moment) -> Option<Plan> {
    let states = states(bakes);
    let away = away(&states);
    let bounds = bounds(Goal::Soonest, &away);
    plan(&states, bounds, now, None, &mut || true)
}

/// Work that is left of a bake, or rises.
fn left(bake: &Bake, rises: bool) -> Vec<StepId> {
    let state = bake.state();
    let steps = state.formula.steps.iter();
    let left = steps.filter(|step| {
        let is_meant = match step.length {
            Length::Ferment { .. } => rises,
            _ => step.is_hands() && !rises,
        };
        is_meant && state.progress(step.id).ended.is_none()
    });
    left.map(|step| step.id).collect()
}

/// With nobody there at times, steps that were fixed, and several breads. Where something waits too long already, more of
/// it is let go of in steps of minutes, and by that a table can come sooner.
#[test]
fn a_longer_step_makes_no_earlier_table() {
    let wrong = RefCell::new(Vec::new());
    let judged = [Cell::new(0), Cell::new(0)];
    let mut runner = TestRunner::new(days(CASES));
    let drawn = (
        any_wishes(),
        any::<prop::sample::Index>(),
        1..40_u8,
        any::<bool>(),
    );
    let held = runner.run(&drawn, |(asked, which, more, rises)| {
        let (bakes, now) = asked.bakes();
        let bake = which.index(bakes.len());
        let left = left(&bakes[bake], rises);
        if left.is_empty() {
            return Ok(());
        }
        let step = left[which.index(left.len())];
        let with = |more: Minutes| {
            let mut bakes = bakes.clone();
            bakes[bake] = longer(&bakes[bake], step, more);
            soonest(&bakes, now)
        };
        let (Some(short), Some(long)) = (with(minutes(0.0)), with(minutes(f64::from(more)))) else {
            return Ok(());
        };
        if short.items.iter().all(|item| item.too_late_by.is_none()) {
            let judged = &judged[usize::from(rises)];
            judged.set(judged.get() + 1);
            let sooner = short.end.likely() - long.end.likely();
            // A dough that has risen longer is nearer to the kitchen, and by another time in it when it goes into the fridge:
            // its next rise takes a little less, and each is rounded.
            let cold = bakes.iter().any(|bake| !bake.state().retards.is_empty());
            let rounded = f64::from(u8::from(rises) + 2 * u8::from(cold));
            if sooner.get() > rounded {
                wrong.borrow_mut().push(format!(
                    "{sooner:?} by {more} more of {step:?} {rises}: {asked:?}"
                ));
            }
        }
        Ok(())
    });
    assert!(held.is_ok(), "{held:?}");
    let wrong = wrong.into_inner();
    assert!(wrong.is_empty(), "of {judged:?}: {wrong:#?}");
    let judged = judged.map(|judged| judged.get());
    assert!(
        judged.iter().all(|&judged| judged >= LEAST_JUDGED),
        "{judged:?} judged"
    );
}
