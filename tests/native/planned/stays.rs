//! What an event moves in a plan couldn't have stayed.

use std::cell::Cell;

use domain::formula::StepKind;
use domain::schedule::plan::{Item, NOTABLE, What};
use domain::units::Moment;
use proptest::prelude::*;
use proptest::test_runner::TestRunner;

use super::days::{Day, any_day};
use super::keeps::check;
use super::redone::days;

/// Days in which what moved is judged, and how much of it there must be for that to say anything: one thing in every
/// third day. With fewer the days that are drawn no longer have what this is about.
const CASES: u32 = 36;
const LEAST_JUDGED: usize = 12;

/// What has moved has moved for a reason: put back alone to where it was, it breaks a link, meets something else,
/// waits longer, or makes the table later.
#[test]
fn after_an_event_nothing_moves_that_could_have_stayed() {
    let moved = Cell::new(0);
    let judged = Cell::new(0);
    let mut runner = TestRunner::new(days(CASES));
    let held = runner.run(&any_day(), |drawn| {
        let Some(mut day) = Day::planned(&drawn) else {
            return Ok(());
        };
        for &slip in &drawn.slips {
            let before = day.clone();
            if day.go_on(slip).is_none() {
                break;
            }
            day.timetable = day.again(day.now);
            let (states, away) = (day.states(), day.away());
            let plan = &day.timetable.plan;
            prop_assert_eq!(check(&states, plan, day.now, &away), Ok(()));
            for (place, item) in plan.items.iter().enumerate() {
                let Some(was) = moved_from(&before, &day, item) else {
                    continue;
                };
                moved.set(moved.get() + 1);
                let mut other = plan.clone();
                let takes = item.end - item.start;
                let other_item = &mut other.items[place];
                (other_item.start, other_item.end) = (was, was + takes);
                if other_item.end > plan.end.likely() {
                    continue;
                }
                judged.set(judged.get() + 1);
                let stays = check(&states, &other, day.now, &away);
                prop_assert!(stays.is_err(), "{item:?} could have stayed at {was:?}");
            }
        }
        Ok(())
    });
    assert!(held.is_ok(), "{held:?}");
    let (moved, judged) = (moved.get(), judged.get());
    assert!(judged >= LEAST_JUDGED, "{moved} moved, {judged} judged");
}

/// From where an item was moved, if it was worth a word and it may wait at all: an oven that heats for longer and what
/// spoils wait longer, and that is a reason.
fn moved_from(before: &Day, day: &Day, item: &Item) -> Option<Moment> {
    let mut items = before.timetable.plan.items.iter();
    let was = items.find(|was| was.what == item.what)?.start;
    let What::Step(bake, step) = item.what else {
        return None;
    };
    let formula = &day.bakes[bake].state().formula;
    let step = formula.step(step)?;
    let may_wait = step.is_hands()
        && step.after.iter().all(|link| link.greatest.is_none())
        && step.kind != StepKind::OvenOn
        && step.cautions.is_empty();
    // Done sooner it would be waited after, where that is weighed: what may wait only so long should wait little.
    let mut links = formula.steps.iter().flat_map(|other| &other.after);
    let is_awaited = links.any(|link| link.step == step.id && link.greatest.is_some());
    let may_wait = may_wait && !(was < item.start && is_awaited);
    let moved = was > day.now && (was - item.start).get().abs() >= NOTABLE.get();
    (may_wait && moved).then_some(was)
}
