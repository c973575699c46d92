//! Work that takes longer.

use std::cell::Cell;

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
const CASES: u32 = 120;
const LEAST_JUDGED: usize = 60;

/// A bake of a formula in which one piece of work takes so much longer, and nothing may wait but so long for it.
fn longer(bake: &Bake, step: StepId, more: Minutes) -> Bake {
    let mut log = bake.log().to_vec();
    let Event::Started(start) = &log[0].event else {
        panic!("a log begins with its start")
    };
    let mut draft: Draft = start.formula.clone().into_draft();
    for other in &mut draft.steps {
        if let Length::Hands(takes) = &mut other.length
            && other.id == step
        {
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

/// Work that is left of a bake.
fn work(bake: &Bake) -> Vec<StepId> {
    let state = bake.state();
    let steps = state.formula.steps.iter();
    let left = steps.filter(|step| step.is_hands() && state.progress(step.id).ended.is_none());
    left.map(|step| step.id).collect()
}

/// With nobody there at times, steps that were fixed, and several breads. Where something waits too long already, more of
/// it is let go of in steps of minutes, and by that a table can come sooner.
#[test]
fn a_longer_step_makes_no_earlier_table() {
    let judged = Cell::new(0);
    let mut runner = TestRunner::new(days(CASES));
    let drawn = (any_wishes(), any::<prop::sample::Index>(), 1..40_u8);
    let held = runner.run(&drawn, |(asked, which, more)| {
        let (bakes, now) = asked.bakes();
        let bake = which.index(bakes.len());
        let work = work(&bakes[bake]);
        if work.is_empty() {
            return Ok(());
        }
        let step = work[which.index(work.len())];
        let with = |more: Minutes| {
            let mut bakes = bakes.clone();
            bakes[bake] = longer(&bakes[bake], step, more);
            soonest(&bakes, now)
        };
        let (Some(short), Some(long)) = (with(minutes(0.0)), with(minutes(f64::from(more)))) else {
            return Ok(());
        };
        if short.items.iter().all(|item| item.too_late_by.is_none()) {
            judged.set(judged.get() + 1);
            prop_assert!(
                long.end.likely() >= short.end.likely(),
                "{:?} longer by {}",
                step,
                more
            );
        }
        Ok(())
    });
    assert!(held.is_ok(), "{held:?}");
    assert!(judged.get() >= LEAST_JUDGED, "{} judged", judged.get());
}
