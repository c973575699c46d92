//! Why hands aren't done sooner before nobody is there any more.

use checks::{begin, say, starter};
use domain::bake::{Bake, Intent, Wishes};
use domain::formula::StepKind;
use domain::kitchen::Kitchen;
use domain::schedule::plan::{BeforeAway, Hinders, Timetable, away};
use domain::units::{Minutes, Moment, minutes};

use super::asked::{hours, planned, states};
use super::levers::step_of;
use super::{NINE, TABLES};

/// Breads that are begun at a moment for a table behind a night that begins at another.
fn evening(ids: &[&str], at: Moment, bed: Moment, not_before: Option<Moment>) -> Vec<Bake> {
    let bake = |id: &&str| {
        let mut bake = begin(starter(id), Kitchen::UNMEASURED, at);
        let wishes = Wishes {
            table: Some(bed + hours(11.0)),
            not_before,
            away: vec![(bed, bed + hours(7.5))],
        };
        say(&mut bake, Intent::Wish(Box::new(wishes)), at);
        bake
    };
    ids.iter().map(bake).collect()
}

fn told(bakes: &[Bake], now: Moment) -> Option<(Timetable, BeforeAway)> {
    let made = planned(bakes, now)?;
    let states = states(bakes);
    let before = made.plan.before_away(&states, &away(&states), now);
    let before = *before.first()?;
    Some((made, before))
}

/// What is short by more than plans are rounded by.
fn short(bakes: &[Bake], now: Moment) -> Option<(Timetable, BeforeAway)> {
    told(bakes, now).filter(|(_, before)| before.buffer - before.spare > minutes(5.0))
}

fn beds() -> impl Iterator<Item = Moment> {
    (6..60).map(|tens| NINE + minutes(10.0 * f64::from(tens)))
}

/// One bread that could only have begun sooner: had it, there would be as much more to spare.
#[test]
fn what_begins_at_once_can_only_be_done_sooner_if_it_had_begun_sooner() {
    let mut judged = 0;
    for id in &TABLES[..2] {
        for bed in beds() {
            let bakes = evening(id, NINE, bed, None);
            let Some((_, before)) = short(&bakes, NINE) else {
                continue;
            };
            if before.why != Some(Hinders::Now) {
                continue;
            }
            let sooner = NINE - minutes(30.0);
            let earlier = evening(id, sooner, bed, None);
            // With more time, other work may have been put before the night, or all of it have time enough.
            let Some((made, more)) = told(&earlier, sooner) else {
                continue;
            };
            let begins = made.plan.items[0].start;
            judged += usize::from(begins < NINE);
            assert!(
                more.spare > before.spare
                    || more.spare >= more.buffer - minutes(5.0)
                    || begins >= NINE,
                "{id:?}, {:?} before bed: {before:?}, {more:?}",
                bed - NINE
            );
        }
    }
    assert!(judged > 3, "{judged}");
}

#[test]
fn each_reason_is_told_where_it_is_so() {
    let (mut nows, mut rises, mut others, mut fixed, mut from) = (0, 0, 0, 0, 0);
    let ten = NINE + minutes(60.0);
    for bed in beds() {
        for table in [TABLES[0], TABLES[1], TABLES[3]] {
            let bakes = evening(table, NINE, bed, None);
            match short(&bakes, NINE).map(|(made, before)| (made, before.why)) {
                Some((made, Some(Hinders::Now))) => {
                    nows += 1;
                    assert!(made.plan.items[0].start - NINE < minutes(1.0));
                }
                Some((_, Some(Hinders::Bake(other)))) => {
                    others += 1;
                    assert!(other < bakes.len() && bakes.len() > 1);
                }
                _ => {}
            }
            let bakes = evening(table, NINE, bed, Some(ten));
            if let Some((made, before)) = short(&bakes, NINE)
                && let Some(Hinders::NotBefore(at)) = before.why
            {
                from += 1;
                assert_eq!(at, ten);
                assert!(made.plan.items.iter().any(|item| item.start == ten));
            }
        }
        // Kneaded and in its first rise.
        let mut bake = evening(TABLES[1], NINE, bed, None);
        let steps: Vec<_> = bake[0].state().formula.steps.clone();
        let mut at = NINE;
        for step in &steps {
            if step.kind == StepKind::Bulk {
                break;
            }
            if step.is_hands() && bake[0].state().is_open(step.id) {
                at = at + minutes(5.0);
                say(&mut bake[0], Intent::Done(step.id), at);
            }
        }
        if let Some((_, before)) = short(&bake, at)
            && let Some(Hinders::GoesOn(0, step)) = before.why
        {
            rises += 1;
            let progress = bake[0].state().progress(step);
            assert!(progress.open_since.is_some() && progress.ended.is_none());
        }
        let mut bake = evening(TABLES[1], NINE, bed, None);
        let mix = step_of(&bake[0], StepKind::Mix);
        let late: Minutes = minutes(45.0);
        say(&mut bake[0], Intent::Pin(mix, Some(NINE + late)), NINE);
        if let Some((_, before)) = short(&bake, NINE)
            && before.why == Some(Hinders::Fixed(0, mix))
        {
            fixed += 1;
        }
    }
    let all = [nows, rises, others, fixed, from];
    assert!(all.iter().all(|&seen| seen > 0), "{all:?}");
}
