//! Work that goes on already when a plan is redone.

use checks::say;
use domain::bake::{Bake, Intent, State, marks_of};
use domain::formula::StepKind;
use domain::schedule::outline;
use domain::schedule::plan::{Made, NOTABLE, What, Why, moved, timetable};
use domain::units::{Moment, minutes};

use super::super::days::{Day, PLAIN};
use super::super::{NINE, TABLES, begun};
use super::{all, made};

/// Work that was turned to a quarter of an hour ago isn't planned as if it began now; nor is it in the outline.
#[test]
fn work_under_way_takes_what_is_left_of_it() {
    let mut bakes = begun(TABLES[0]);
    let gather = bakes[0].state().formula.steps[0].clone();
    say(&mut bakes[0], Intent::Pick(gather.id), NINE);
    let end = |bakes: &[Bake], now: Moment| {
        let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
        let plan = timetable(&states, now, None, &mut || true)
            .expect("there is one")
            .plan;
        let rest = outline(bakes[0].state(), now);
        let planned = rest.steps.iter().find(|planned| planned.step == gather.id);
        (
            plan.items[0],
            planned.expect("it hasn't ended").end,
            plan.end.likely(),
        )
    };
    let (first, outlined, table) = end(&bakes, NINE + minutes(1.0 / 600.0));
    let length = outlined - NINE;
    let (later, again, same) = end(&bakes, NINE + minutes(10.0));
    assert_eq!(
        (later.start, later.end),
        (bakes[0].state().newest, first.end)
    );
    assert!((again - outlined).get().abs() < 0.01);
    assert_eq!(table, same);
    // Of what should have ended nothing is known but that it hasn't.
    let late = NINE + length + minutes(15.0);
    let (item, again, _) = end(&bakes, late);
    assert_eq!(again, late);
    assert!((item.end - late).get() < 1.0);
    // Marks tell more than the clock: with half of them set, half of it is left.
    let marks = marks_of(bakes[0].state(), gather.id);
    let at = NINE + minutes(12.0);
    for &mark in &marks[..marks.len() / 2] {
        say(&mut bakes[0], Intent::Mark(gather.id, mark, true), at);
    }
    let half = length * (marks.len().div_ceil(2) as f64 / marks.len() as f64);
    let (_, again, _) = end(&bakes, at);
    assert!(((again - at) - half).get().abs() < 0.1, "{:?}", again - at);
}

fn up_to_the_rise() -> Day {
    let mut day = Day::planned(&PLAIN).expect("there is a plan");
    while !matches!(day.next(), Some((What::Step(bake, step), _)) if day.bakes[bake].state().formula.step(step).is_some_and(|step| step.kind == StepKind::Bulk))
    {
        day.go_on((0.0, 9)).expect("the rise is still to come");
        day.timetable = day.again(day.now);
    }
    day
}

/// A plan that was made while a rise was an hour late, and told of for another reason, expected it at any minute.
#[test]
fn what_was_late_before_the_last_plan_is_told_with_all_of_it() {
    let mut day = up_to_the_rise();
    let (What::Step(bake, rise), end) = day.next().expect("the rise goes on") else {
        panic!("it isn't the rise");
    };
    let told_at = end + minutes(65.0);
    day.timetable = day.again(told_at);
    let (before, mut is) = (day.clone(), day.clone());
    let was: Vec<&Bake> = before.bakes.iter().collect();
    let told = |is: &Day, now: Moment| {
        let bakes: Vec<&Bake> = is.bakes.iter().collect();
        let again = is.again(now);
        let after = Made {
            timetable: &again,
            bakes: &bakes,
            names: &[],
        };
        moved(made(&before, &was, &[]), after, now)
            .expect("it is later")
            .why
    };
    let late = |why: &Why| match why {
        Why::Overdue(step, by) | Why::Ready(step, by) if step.kind == StepKind::Bulk => by.get(),
        other => panic!("{other:?}"),
    };
    let now = end + minutes(77.0);
    assert!((late(&told(&day, now)) - 77.0).abs() < 1.5);
    say(&mut is.bakes[bake], Intent::Done(rise), now);
    assert!((late(&told(&is, now)) - 77.0).abs() < 1.5);
    // "Not yet" was said, and it ended before that was over: neither early nor late is the whole of it.
    let mut day = day.clone();
    say(
        &mut day.bakes[bake],
        Intent::NotYet(rise, minutes(30.0)),
        told_at,
    );
    day.timetable = day.again(told_at);
    let mut is = day.clone();
    say(&mut is.bakes[bake], Intent::Done(rise), now);
    let (was, bakes): (Vec<&Bake>, Vec<&Bake>) =
        (day.bakes.iter().collect(), is.bakes.iter().collect());
    let again = is.again(now);
    let after = Made {
        timetable: &again,
        bakes: &bakes,
        names: &[],
    };
    let told = moved(made(&day, &was, &[]), after, now).expect("it is sooner");
    assert_eq!(late(&told.why), 0.0);
}

/// Nobody says that a rise has ended: from its likely end on the plan says since when.
#[test]
fn what_is_past_its_end_is_told_with_since_when() {
    let day = up_to_the_rise();
    let (_, end) = day.next().expect("the rise goes on");
    let (before, bakes) = (
        day.clone(),
        all(&day).into_iter().cloned().collect::<Vec<_>>(),
    );
    let bakes: Vec<&Bake> = bakes.iter().collect();
    for late in [1.0, 7.0, 40.0] {
        let now = end + minutes(late);
        let again = before.again(now);
        let told = moved(
            made(&before, &bakes, &[]),
            Made {
                timetable: &again,
                bakes: &bakes,
                names: &[],
            },
            now,
        );
        match told {
            None => assert!(late < NOTABLE.get()),
            Some(told) => {
                let Why::Overdue(step, by) = &told.why else {
                    panic!("{:?}", told.why)
                };
                assert_eq!((step.kind, by.get().round()), (StepKind::Bulk, late));
                assert!(told.why.is_passing());
            }
        }
    }
}
