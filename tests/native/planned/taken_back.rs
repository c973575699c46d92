//! The same wishes give the same plan: what is asked and taken back is as if it had never been.

use domain::bake::{Bake, Intent, decide};
use domain::formula::Step;
use domain::schedule::plan::{Item, What, timetable};
use domain::units::{Moment, minutes};
use proptest::prelude::*;
use proptest::strategy::ValueTree as _;
use proptest::test_runner::TestRunner;

use super::days::{Day, any_day};
use super::redone::{days, same};

/// What is asked of every bake at a day: a time away, another table, nothing before a moment, or of one of them a step fixed.
fn asked(day: &Day, kind: u8, (far, much): (f64, f64)) -> Option<Day> {
    let mut asked = day.clone();
    let end = day.timetable.plan.end.likely();
    let at = day.now + minutes(((end - day.now).get() * far).round().max(1.0));
    let is_ahead = |item: &&Item| match item.what {
        What::Step(bake, step) => {
            let step = day.bakes[bake].state().formula.step(step);
            item.start > day.now && step.is_some_and(Step::is_hands)
        }
        _ => false,
    };
    let ahead: Vec<&Item> = day.timetable.plan.items.iter().filter(is_ahead).collect();
    let fixed = ahead.get((ahead.len() as f64 * far) as usize)?;
    for (place, bake) in asked.bakes.iter_mut().enumerate() {
        let mut wishes = bake.state().wishes.clone();
        match (kind, fixed.what) {
            (0, _) => wishes
                .away
                .push((at, at + minutes(20.0 + (100.0 * much).round()))),
            (1, _) => {
                let later = minutes((300.0 * (much - 0.3)).round());
                wishes.table = Some(wishes.table.unwrap_or(end) + later);
            }
            (2, _) => wishes.not_before = Some(at),
            (_, What::Step(of, step)) if of == place => {
                let at = fixed.start + minutes((120.0 * (much - 0.5)).round());
                let at = at.max(day.now + minutes(3.0));
                asked_of(bake, Intent::Pin(step, Some(at)), day.now);
                continue;
            }
            _ => continue,
        }
        asked_of(bake, Intent::Wish(Box::new(wishes)), day.now);
    }
    let is_asked = asked
        .bakes
        .iter()
        .zip(&day.bakes)
        .any(|(is, was)| is.log().len() > was.log().len());
    asked.timetable = timetable(
        &asked.states(),
        asked.now,
        Some(&day.timetable),
        &mut || true,
    )?;
    is_asked.then_some(asked)
}

fn asked_of(bake: &mut Bake, intent: Intent, now: Moment) {
    // A moment that has passed meanwhile is asked of nobody.
    if let Ok(entries) = decide(bake, intent, now) {
        bake.append(entries);
    }
}

/// One thing after the other is asked and all of it is taken back, and the plan is the one from before, in every start and
/// beginning. Of two breads lengths and schedule come to rest somewhere else now and then, as with no news (`several`).
#[test]
fn what_is_asked_and_taken_back_gives_the_plan_back() {
    let mut runner = TestRunner::new(days(0));
    let (mut judged, mut moved, mut knots) = ([0; 2], 0, Vec::new());
    for nth in 0..200 {
        let drawn = any_day().new_tree(&mut runner).expect("it can be drawn");
        let wishes = prop::collection::vec((0_u8..5, (0.0..1.0_f64, 0.0..1.0_f64)), 1..3);
        let wishes = wishes.new_tree(&mut runner).expect("they can be drawn");
        let (drawn, wishes) = (drawn.current(), wishes.current());
        let Some(mut day) = Day::planned(&drawn).filter(|day| day.bakes.len() < 3) else {
            continue;
        };
        for &slip in drawn.slips.iter().take(nth % 4) {
            if day.go_on(slip).is_some() {
                day.timetable = day.again(day.now);
            }
        }
        let mut back = day.clone();
        for &(kind, how) in &wishes {
            back.now = back.now + minutes(0.1);
            back = asked(&back, kind, how).unwrap_or(back);
        }
        for (bake, was) in back.bakes.iter_mut().zip(&day.bakes) {
            back.now = back.now + minutes(0.1);
            for _ in was.log().len()..bake.log().len() {
                asked_of(bake, Intent::Undo, back.now);
            }
            assert!(bake.state().stands_as(was.state()), "{drawn:?}");
        }
        let asked_last = back.timetable.clone();
        // As the app goes on from what it told before, where all bakes stand as they did then.
        back.timetable = day.timetable.clone();
        let again = back.again(back.now);
        // Some of a second has passed, and what should have ended by the last minute ends with the next.
        day.timetable = day.again(back.now);
        judged[day.bakes.len() - 1] += 1;
        moved += usize::from(same(&day, &asked_last, "asked").is_err());
        let is = same(&day, &again, "taken back");
        assert_eq!(day.timetable.begins, again.begins, "{drawn:?}");
        match day.bakes.len() {
            1 => assert!(is.is_ok(), "{is:?} {drawn:?}"),
            _ => knots.extend(is.err()),
        }
    }
    assert!(
        judged.iter().all(|&judged| judged > 40) && moved > 40,
        "{judged:?}, {moved} moved"
    );
    assert!(
        knots.len() * 50 <= judged[1],
        "{} of {judged:?}: {knots:?}",
        knots.len()
    );
}

/// Whoever has begun, or has heard a call, stands nowhere else for what was taken back, but no plan from before is of that.
#[test]
fn what_is_done_is_not_taken_back_with_what_was_asked() {
    let drawn = super::days::PLAIN;
    let day = Day::planned(&drawn).expect("there is a plan");
    let mut done = day.clone();
    assert!(done.go_on((0.0, 9)).is_some());
    let (was, is) = (day.bakes[0].state(), done.bakes[0].state());
    assert!(!is.stands_as(was));
    let mut pinned = day.bakes[0].clone();
    let step = day.bakes[0].state().formula.steps[5].id;
    asked_of(
        &mut pinned,
        Intent::Pin(step, Some(day.now + minutes(90.0))),
        day.now,
    );
    assert!(!pinned.state().stands_as(was));
    asked_of(&mut pinned, Intent::Pin(step, None), day.now + minutes(1.0));
    assert!(pinned.state().stands_as(was));
}
