//! A plan is redone at every event, and keeps what was promised where it can.

mod told_ends;
mod under_way;

use std::cell::Cell;

use domain::bake::{Bake, Event};
use domain::schedule::plan::{Made, NOTABLE, Named, What, moved, table_of};
use domain::units::Moment;
use proptest::prelude::*;
use proptest::test_runner::{RngSeed, TestRunner};

use super::days::{Day, any_day, times};

/// The same days every time, so that a run says something of what was changed; other seeds are for by hand.
pub(super) fn days(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        rng_seed: RngSeed::Fixed(20_261_126),
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

fn runner(cases: u32) -> TestRunner {
    TestRunner::new(days(cases))
}

fn made<'a>(day: &'a Day, bakes: &'a [&'a Bake], names: &'a [String]) -> Made<'a> {
    Made {
        timetable: &day.timetable,
        bakes,
        names,
    }
}

fn all(day: &Day) -> Vec<&Bake> {
    day.bakes.iter().collect()
}

/// Whatever has happened: a minute or ten later, with nothing that should have ended meanwhile, the plan is the same.
#[test]
fn a_plan_redone_with_no_news_is_the_same() {
    let judged = Cell::new(0);
    let held = runner(60).run(&(any_day(), 0.0..1.0_f64), |(drawn, part)| {
        // Of several it isn't so in every case; how seldom, a test in `several` counts.
        let Some(mut day) = Day::planned(&drawn).filter(|day| day.bakes.len() == 1) else {
            return Ok(());
        };
        for &slip in &drawn.slips {
            let again = day.again(day.now);
            same(&day, &again, "at once")?;
            if let Some((_, end)) = day.next() {
                let later = day.now + (before_a_fold(&day, end) - day.now) * part;
                if later > day.now {
                    judged.set(judged.get() + 1);
                    let again = day.again(later);
                    same(&day, &again, "later")?;
                    prop_assert_eq!(day.timetable.begins.clone(), again.begins.clone());
                    let (before, bakes) = (day.clone(), all(&day));
                    let after = Made {
                        timetable: &again,
                        bakes: &bakes,
                        names: &[],
                    };
                    prop_assert_eq!(moved(made(&before, &bakes, &[]), after, later), None);
                }
            }
            if day.go_on(slip).is_none() {
                break;
            }
            day.timetable = day.again(day.now);
        }
        Ok(())
    });
    assert!(held.is_ok(), "{held:?}");
    // A third of the days has one bread, and each of these some ten steps.
    assert!(judged.get() > 150, "{judged:?}");
}

/// Whatever is told is so: the ends are the plans', and something that is still to come has moved.
#[test]
fn what_moved_is_told_by_the_plans() {
    let told_of = Cell::new(0);
    let held = runner(60).run(&any_day(), |drawn| {
        let Some(mut day) = Day::planned(&drawn) else {
            return Ok(());
        };
        for &slip in &drawn.slips {
            let before = day.clone();
            if day.go_on(slip).is_none() {
                break;
            }
            day.timetable = day.again(day.now);
            let (was, is) = (ends(&before), ends(&day));
            let by = |ends: &(Moment, Moment)| (ends.1 - ends.0).get().abs();
            let both = was.iter().zip(&is).map(|(was, is)| (was.1, is.1));
            let farthest = both.clone().map(|ends| by(&ends)).fold(0.0, f64::max);
            let (old, new) = (all(&before), all(&day));
            let names: Vec<String> = day.bakes.iter().map(|bake| bake.id.0.clone()).collect();
            let told = moved(
                made(&before, &old, &names),
                made(&day, &new, &names),
                day.now,
            );
            match told {
                None => prop_assert!(farthest < NOTABLE.get()),
                Some(told) => {
                    told_of.set(told_of.get() + 1);
                    prop_assert!(
                        both.clone().any(|ends| ends == told.ready),
                        "{:?}",
                        told.ready
                    );
                    prop_assert_eq!(by(&told.ready), farthest);
                    let margin = day
                        .timetable
                        .margins
                        .iter()
                        .find(|margin| margin.ready.likely() == told.ready.1);
                    prop_assert_eq!(told.margin, margin.copied());
                    let shifted = told
                        .next
                        .as_ref()
                        .map(|next| (next.is - next.was).get().abs());
                    prop_assert!(
                        farthest >= NOTABLE.get() || shifted.is_some_and(|by| by >= NOTABLE.get())
                    );
                    prop_assert!(told.next.as_ref().is_none_or(|next| next.is > day.now));
                    // Whose a step is, is told only where there is more than one.
                    let several = new.len() > 1;
                    let is_named =
                        |step: &Named| step.whose == several.then(|| step.bake.0.clone());
                    prop_assert!(told.named().all(is_named), "{told:?}");
                    // And whose end it is, only where not all of it is for one table; what is ready is for none.
                    let table = |bake: &&Bake| table_of(bake.state());
                    let is_one = new.iter().all(|bake| table(bake) == table(&new[0]));
                    prop_assert_eq!(told.of.is_empty(), is_one);
                    let wished = told.margin.map(|margin| margin.table);
                    let for_it = new.iter().filter(|bake| table(bake) == wished);
                    let of: Vec<&String> = for_it.map(|bake| &bake.id.0).collect();
                    prop_assert!(told.of.is_empty() || told.of.iter().eq(of), "{:?}", told.of);
                }
            }
        }
        Ok(())
    });
    assert!(held.is_ok(), "{held:?}");
    assert!(told_of.get() > 100, "{told_of:?}");
}

/// A fold that is due is due until it is made, and a beginning until somebody is there for it: so news is what goes by them.
pub(super) fn before_a_fold(day: &Day, end: Moment) -> Moment {
    let items = day.timetable.plan.items.iter();
    let folds = items.filter(|item| matches!(item.what, What::Fold(..)));
    let folds = folds.map(|fold| fold.start);
    let seen = seen(day);
    let begins = day.timetable.begins.iter().flatten().copied();
    let begins = begins.filter(|&begins| begins - seen >= NOTABLE);
    folds.chain(begins).fold(end, Moment::min)
}

/// When the baker last started or ended something.
fn seen(day: &Day) -> Moment {
    let logs = day.bakes.iter().flat_map(Bake::log);
    let seen = logs.filter(|entry| {
        matches!(
            entry.event,
            Event::Started(_) | Event::Done { .. } | Event::Skipped { .. } | Event::Folded { .. }
        )
    });
    seen.map(|entry| entry.at).max().expect("it was started")
}

/// By table: when the last of what is for it is ready.
fn ends(day: &Day) -> Vec<(Option<Moment>, Moment)> {
    let mut ends: Vec<(Option<Moment>, Moment)> = Vec::new();
    for (place, bake) in day.bakes.iter().enumerate() {
        let table = bake.state().wishes.table;
        let Some(end) = day
            .timetable
            .plan
            .of(place)
            .map(|outline| outline.table.likely())
        else {
            continue;
        };
        match ends.iter_mut().find(|(other, _)| *other == table) {
            Some(known) => known.1 = known.1.max(end),
            None => ends.push((table, end)),
        }
    }
    ends.sort();
    ends
}

/// What differs, by its names and in minutes from now.
pub(super) fn same(
    day: &Day,
    again: &domain::schedule::plan::Timetable,
    case: &str,
) -> Result<(), TestCaseError> {
    let is = times(&again.plan);
    let from = |moment: Moment| (moment - day.now).get();
    let mut wrong = String::new();
    for (what, start, end) in times(&day.timetable.plan) {
        // Work that was turned to and has to give way to a fold is told from when it goes on.
        let is_picked = |bake: usize, step| day.bakes[bake].state().picked == Some(step);
        if matches!(what, What::Step(bake, step) if is_picked(bake, step)) {
            continue;
        }
        let now = is.iter().find(|(other, ..)| *other == what);
        if now.is_none_or(|&(_, is, ends)| is != start || ends != end) {
            let title = match what {
                What::Step(bake, step)
                | What::Fold(bake, step, _)
                | What::Retard(bake, step, _)
                | What::Kept(bake, step) => {
                    let step = day.bakes[bake].state().formula.step(step);
                    step.map(|step| step.title.clone()).unwrap_or_default()
                }
                What::Away => String::new(),
            };
            let now = now.map(|&(_, is, ends)| (from(is), from(ends)));
            wrong += &format!(
                "\n{what:?} {title}: {} to {}, now {now:?}",
                from(start),
                from(end)
            );
        }
    }
    prop_assert!(wrong.is_empty(), "{case}: {wrong}");
    Ok(())
}
