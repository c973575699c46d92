//! What follows work at once isn't put off while the hands are free for it.

use domain::bake::{Bake, Intent};
use domain::formula::{Step, StepId};
use domain::schedule::plan::{NOTABLE, What};
use domain::units::{Minutes, Moment};
use proptest::strategy::{Strategy as _, ValueTree as _};
use proptest::test_runner::TestRunner;

use super::days::{Day, Drawn, PLAIN, any_day};
use super::redone::days;

/// Work that is open, may wait only so long for work that has ended, and begins so much later than hands are free for it.
fn put_off(day: &Day) -> Vec<(String, Minutes)> {
    let plan = &day.timetable.plan;
    let step = |bake: usize, id: StepId| day.bakes[bake].state().formula.step(id);
    let takes_hands = |what: What| match what {
        What::Step(bake, id) => step(bake, id).is_some_and(Step::is_hands),
        What::Kept(..) => false,
        other => other == What::Away || other.is_in_passing(),
    };
    let mut found = Vec::new();
    for item in &plan.items {
        let What::Step(bake, id) = item.what else {
            continue;
        };
        let state = day.bakes[bake].state();
        let Some(step) = state.formula.step(id).filter(|step| step.is_hands()) else {
            continue;
        };
        let needs = step.needs.oven || step.needs.hob || step.needs.fridge;
        let follows = step.after.iter().any(|link| {
            let before = state.formula.step(link.step);
            link.greatest.is_some() && before.is_some_and(Step::is_hands)
        });
        if needs || !follows || !state.is_open(id) {
            continue;
        }
        let busy = plan.items.iter();
        let busy = busy.filter(|other| other.start < item.start && takes_hands(other.what));
        let free = busy.fold(day.now, |free, other| free.max(other.end));
        found.push((step.title.clone(), item.start - free));
    }
    found
}

fn step_called(bake: &Bake, title: &str) -> StepId {
    let mut steps = bake.state().formula.steps.iter();
    steps
        .find(|step| step.title == title)
        .expect("it is in the formula")
        .id
}

/// Somebody who is quicker than the plan stood at a bowl of mixed dough for a quarter of an hour, because the dough would
/// else be ripe before they are back; and was then told that they are late.
#[test]
fn whoever_is_early_goes_on_at_once() {
    let drawn = Drawn {
        table: Some(8.0),
        away: Some((3.0, 1.0)),
        ..PLAIN
    };
    let mut day = Day::planned(&drawn).expect("there is a plan");
    let item = |day: &Day, title: &str| {
        let id = step_called(&day.bakes[0], title);
        *day.timetable
            .plan
            .item(What::Step(0, id))
            .expect("it is planned")
    };
    // By the plan up to the spread cream, and on with the dough then, as long as that takes.
    let at = |day: &mut Day, title: &str, now: Moment| {
        let id = step_called(&day.bakes[0], title);
        checks::say(&mut day.bakes[0], Intent::Done(id), now);
        day.now = now;
        day.timetable = day.again(now);
    };
    for title in ["Gather", "Cook the cream", "Spread the cream"] {
        let end = item(&day, title).end;
        at(&mut day, title, end);
    }
    for title in [
        "Mix the dough",
        "Knead",
        "Dough temperature",
        "Cover the bowl",
    ] {
        let is = item(&day, title);
        let now = day.now + (is.end - is.start);
        at(&mut day, title, now);
        let over = put_off(&day);
        let is_late = over.iter().any(|(_, over)| *over >= NOTABLE);
        assert!(!is_late, "after {title}: {over:?}");
        for title in ["Knead", "Dough temperature", "Cover the bowl"] {
            let id = step_called(&day.bakes[0], title);
            let item = day.timetable.plan.item(What::Step(0, id));
            assert!(
                item.is_none_or(|item| item.too_late_by.is_none()),
                "{item:?}"
            );
        }
    }
}

/// On drawn days, whoever is early or late, with one bread or several.
#[test]
fn nothing_that_follows_at_once_is_put_off() {
    let mut runner = TestRunner::new(days(0));
    let (mut judged, mut wrong) = (0, Vec::new());
    for _ in 0..40 {
        let drawn = any_day()
            .new_tree(&mut runner)
            .expect("it can be drawn")
            .current();
        let Some(mut day) = Day::planned(&drawn) else {
            continue;
        };
        for &(off, other) in &drawn.slips {
            // Whoever is on time there is early here, and whoever is late is early by as much.
            let off = if off == 0.0 { -3.0 } else { -off };
            if day.go_on((off, other)).is_none() {
                break;
            }
            day.timetable = day.again(day.now);
            for (title, over) in put_off(&day) {
                judged += 1;
                if over >= NOTABLE {
                    wrong.push(format!(
                        "{title} by {over:?} after {:?}, {drawn:?}",
                        day.now
                    ));
                }
            }
        }
    }
    assert!(judged > 100, "{judged}");
    assert!(
        wrong.is_empty(),
        "{} of {judged}: {:#?}",
        wrong.len(),
        wrong.first()
    );
}
