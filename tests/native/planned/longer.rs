//! Work, rises, rests, bakes and coolings that take longer.

use std::cell::RefCell;

use domain::bake::{Bake, Entry, Event, Start};
use domain::estimate::Estimate;
use domain::formula::{Draft, Formula, Length, StepId};
use domain::schedule::plan::{Bounds, Goal, away, plan, table_of};
use domain::units::{Celsius, Minutes, Moment, minutes};
use proptest::prelude::*;
use proptest::test_runner::TestRunner;

use super::asked::{any_wishes, states};
use super::bounds;
use super::redone::days;

/// Plans that are held against each other, and how many of them must let go of nothing for that to say much.
const CASES: u32 = 300;
/// By what is asked; with a table, and another for each, few draws keep everything.
const LEAST_JUDGED: [usize; 3] = [40, 30, 6];
/// By how many minutes more a bread has to be a kelvin cooler before it is on the table.
const COOLER: f64 = 8.0;

/// A bake of a formula in which one step takes so much longer, and nothing may wait but so long for it.
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
            Length::Wait(takes) => Some(takes),
            Length::Bake { range, .. } => Some(range),
            // What has to get cooler takes longer.
            Length::Cool { to } if other.id == step => {
                *to = Celsius::clamped(to.get() - more.get() / COOLER);
                None
            }
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

/// What is asked: when everything has ended, when what is for the first table has, or when the first bread can begin at the
/// latest for all of their tables.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Asks {
    End,
    Table,
    Begin,
}

/// What comes of that by the best plan, where it lets nothing wait too long.
fn found(bakes: &[Bake], asks: Asks, now: Moment) -> Option<(Moment, bool)> {
    let states = states(bakes);
    let away = away(&states);
    let ready_by: Vec<Option<Moment>> = states.iter().map(|state| table_of(state)).collect();
    let goal = match asks {
        Asks::Begin => Goal::By(ready_by.iter().copied().max()??),
        _ => Goal::Soonest,
    };
    let bounds = Bounds {
        ready_by: if asks == Asks::End { &[] } else { &ready_by },
        ..bounds(goal, &away)
    };
    let plan = plan(&states, bounds, now, None, &mut || true)?;
    let waits = plan.items.iter().any(|item| item.too_late_by.is_some());
    let at = match asks {
        Asks::End => plan.end.likely(),
        // What is ready before its table may be anywhere before it.
        Asks::Table => {
            let first = ready_by.iter().copied().flatten().min()?;
            let of = (0..bakes.len()).filter(|&bake| ready_by[bake] == Some(first));
            let ends = of.filter_map(|bake| Some(plan.of(bake)?.table.likely()));
            ends.max()?.max(first)
        }
        Asks::Begin => {
            let begins = states.iter().enumerate();
            let begins = begins.filter_map(|(bake, state)| Some(plan.begin_of(bake, state)?.1));
            begins.min()?
        }
    };
    Some((at, waits))
}

/// What is made longer.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Kind {
    Hands,
    Rises,
    Others,
}

/// What is left of a bake of a kind.
fn left(bake: &Bake, kind: Kind) -> Vec<StepId> {
    let state = bake.state();
    let steps = state.formula.steps.iter();
    let left = steps.filter(|step| {
        let is = match step.length {
            Length::Ferment { .. } => Kind::Rises,
            Length::Bake { .. } | Length::Cool { .. } | Length::Wait(_) => Kind::Others,
            _ if step.is_hands() => Kind::Hands,
            _ => return false,
        };
        is == kind && state.progress(step.id).ended.is_none()
    });
    left.map(|step| step.id).collect()
}

/// With nobody there at times, tables, steps that were fixed, and several breads. Where something waits too long already,
/// more of it is let go of in steps of minutes, and by that a table can come sooner.
#[test]
fn a_longer_step_makes_no_earlier_table() {
    const KINDS: [Kind; 3] = [Kind::Hands, Kind::Rises, Kind::Others];
    const ASKS: [Asks; 3] = [Asks::End, Asks::Table, Asks::Begin];
    let wrong = RefCell::new(Vec::new());
    let judged = RefCell::new([[0; 3]; 3]);
    let mut runner = TestRunner::new(days(CASES));
    let drawn = (
        any_wishes(),
        any::<prop::sample::Index>(),
        1..40_u8,
        0..3_usize,
    );
    let held = runner.run(&drawn, |(asked, which, more, kind)| {
        let (bakes, now) = asked.bakes();
        let bake = which.index(bakes.len());
        let left = left(&bakes[bake], KINDS[kind]);
        if left.is_empty() {
            return Ok(());
        }
        let step = left[which.index(left.len())];
        let of = bakes[bake].state().formula.step(step);
        let is_bake = of.is_some_and(|step| matches!(step.length, Length::Bake { .. }));
        // An oven that is hot for longer can save another bread more than that.
        if is_bake && bakes.len() > 1 {
            return Ok(());
        }
        let with = |more: Minutes| {
            let mut bakes = bakes.clone();
            bakes[bake] = longer(&bakes[bake], step, more);
            bakes
        };
        let (short, long) = (with(minutes(0.0)), with(minutes(f64::from(more))));
        for (nth, &asks) in ASKS.iter().enumerate() {
            let both = found(&short, asks, now).zip(found(&long, asks, now));
            let Some(((is, false), (other, _))) = both else {
                continue;
            };
            judged.borrow_mut()[nth][kind] += 1;
            let off = match asks {
                Asks::Begin => other - is,
                _ => is - other,
            };
            // A dough that has risen longer is nearer to the kitchen, and by another time in it when it goes into the fridge:
            // its next rise takes a little less, and each is rounded.
            let cold = bakes.iter().any(|bake| !bake.state().retards.is_empty());
            let rounded = f64::from(u8::from(kind > 0) + 2 * u8::from(cold));
            if off.get() > rounded {
                wrong.borrow_mut().push(format!(
                    "{asks:?}: {off:?} by {more} more of {step:?} {kind:?}: {asked:?}"
                ));
            }
        }
        Ok(())
    });
    assert!(held.is_ok(), "{held:?}");
    let (wrong, judged) = (wrong.into_inner(), judged.into_inner());
    assert!(wrong.is_empty(), "of {judged:?}: {wrong:#?}");
    for (judged, least) in judged.iter().zip(LEAST_JUDGED) {
        assert!(
            judged.iter().all(|&judged| judged >= least),
            "{judged:?} judged"
        );
    }
}
