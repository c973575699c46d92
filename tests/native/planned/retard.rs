//! A night in the fridge that is still to come: it comes to what the real one comes to, and the baker is called for it.

mod late;
mod room;

use checks::say;
use domain::bake::{AlarmKind, Bake, Intent, State, alarms, due};
use domain::estimate::Estimate;
use domain::formula::{Length, StepId, StepKind};
use domain::kitchen::Place;
use domain::units::{Minutes, Moment, celsius, minutes};
use proptest::prelude::*;

use super::asked::{hours, some_points};
use super::redone::days;

/// A bread whose first or last rise goes on, and since when.
pub(super) fn rising(which: usize, kind: StepKind) -> Option<(Bake, StepId, Moment)> {
    let mut points = some_points()[which].iter();
    points.find_map(|point| {
        let state = point.bake.state();
        let step = state.formula.steps.iter().find(|step| step.kind == kind)?;
        let is_rise = matches!(step.length, Length::Ferment { .. });
        let since = state.progress(step.id).open_since.filter(|_| is_rise)?;
        state
            .is_open(step.id)
            .then(|| (point.bake.clone(), step.id, since.max(point.now)))
    })
}

/// The window of a rise, and its folds in the order of time.
fn told(bake: &Bake, step: StepId, now: Moment) -> (Estimate<Moment>, Vec<Moment>) {
    let forecast = bake.state().forecast(step, now).expect("it goes on");
    (forecast.window, forecast.folds)
}

/// Two forecasts that are within this come to the same, in ms: a plan goes by whole minutes, and the entries of a log
/// that are made at one moment are a millisecond apart each.
const SAME: i64 = 2_000;
/// The same of a rise to come, which begins in the plan as its dough goes in and in the log one entry after the other.
const SAME_TO_COME: i64 = 5_000;

fn near(one: &Estimate<Moment>, other: &Estimate<Moment>, ms: i64) -> bool {
    let ends = |window: &Estimate<Moment>| [window.low(), window.likely(), window.high()];
    let both = ends(one).into_iter().zip(ends(other));
    let off = both.map(|(one, other)| (one.epoch_ms() - other.epoch_ms()).abs());
    off.max().is_some_and(|off| off <= ms)
}

/// How long what rises later takes, if it begins at a moment.
fn later(state: &State, after: StepId, start: Moment) -> Vec<Minutes> {
    let part = state.formula.step(after).expect("it is there").component;
    let steps = state.formula.steps.iter();
    let steps = steps.filter(|step| step.component == part && step.id.0 > after.0);
    let rises = steps.filter(|step| {
        matches!(
            step.length,
            Length::Ferment {
                from_fridge: false,
                ..
            }
        )
    });
    rises
        .map(|step| state.length_if_started(step, start).likely())
        .collect()
}

proptest! {
    #![proptest_config(days(48))]

    /// Entries of one moment are a millisecond apart, and a fridge is left no sooner than one is in it.
    #[test]
    fn a_planned_night_comes_to_what_it_comes_to_once_the_dough_was_there(
        which in 0_usize..3,
        last in any::<bool>(),
        goes_in in 0.0..60.0_f64,
        stays in 1.0..14.0_f64,
        air in 17.0..27.0_f64,
    ) {
        let kind = if last { StepKind::FinalProof } else { StepKind::Bulk };
        let Some((mut bake, step, now)) = rising(which, kind) else { return Ok(()) };
        say(&mut bake, Intent::KitchenIs(celsius(air)), now);
        let from = now + minutes(1.0 + goes_in);
        let to = from + hours(stays);
        let mut real = bake.clone();
        say(&mut bake, Intent::PlanRetard(step, Some((from, to))), now);
        let (window, folds) = told(&bake, step, now);

        say(&mut real, Intent::Move(step, Place::Fridge), from);
        let mut is_in = bake.clone();
        say(&mut is_in, Intent::Move(step, Place::Fridge), from);
        let got = told(&is_in, step, from).0;
        prop_assert!(near(&window, &got, SAME), "once it is in: {window:?} {got:?} {from:?} {to:?}");
        say(&mut real, Intent::Move(step, Place::Kitchen), to);
        say(&mut is_in, Intent::Move(step, Place::Kitchen), to);
        for once in [&real, &is_in] {
            let (real, real_folds) = told(once, step, from);
            prop_assert!(near(&window, &real, SAME), "{window:?} {real:?}");
            let off = folds.iter().zip(&real_folds).map(|(one, other)| (*one - *other).get().abs());
            // A fold is shown by its minute, and a tenth of one is nothing.
            prop_assert!(folds.len() == real_folds.len() && off.fold(0.0, f64::max) < 0.1);
            prop_assert!(real_folds.iter().all(|&fold| fold < from || fold >= to));
        }
        prop_assert!(is_in.state().retards.is_empty());
        // And so do the rises that follow.
        let end = window.likely().max(to) + minutes(30.0);
        let both = later(bake.state(), step, end).into_iter().zip(later(real.state(), step, end));
        for (is, was) in both {
            prop_assert!((is - was).get().abs() < 0.5, "{is:?} {was:?}");
        }
    }

    /// What is planned of a rise that hasn't begun: it begins as it goes in.
    #[test]
    fn a_night_that_is_planned_before_the_rise_begins_comes_to_the_same(
        which in 0_usize..3,
        stays in 5.0..13.0_f64,
    ) {
        let (done, step, from) = rising(which, StepKind::Bulk).expect("it rises");
        let to = from + hours(stays);
        // The same bake short of the entry with which its rise began.
        let before = done.log().iter().take_while(|entry| entry.at < from).cloned().collect();
        let mut before = Bake::from_log(done.id.clone(), before).expect("it has its start");
        let now = before.state().newest;
        let mut done = done;
        if before.state().progress(step).open_since.is_some() { return Ok(()) }
        say(&mut before, Intent::PlanRetard(step, Some((from, to))), now);
        let rise = before.state().formula.step(step).expect("it is there").clone();
        let planned = before.state().length_if_warming_since(&rise, from, Some(from));
        say(&mut done, Intent::Move(step, Place::Fridge), from);
        say(&mut done, Intent::Move(step, Place::Kitchen), to);
        let real = told(&done, step, from).0;
        let planned = planned.map(|takes| from + takes);
        prop_assert!(near(&planned, &real, SAME_TO_COME), "{planned:?} {real:?} {from:?} {:?}", rise.kind);
    }
}

/// Who is late to put it in or to take it out has the alarm meanwhile, and the forecast follows what is said.
#[test]
fn the_baker_is_called_to_put_it_in_and_to_take_it_out() {
    let (mut bake, step, now) = rising(1, StepKind::Bulk).expect("it rises");
    let (from, to) = (now + minutes(1.0), now + hours(3.0));
    say(&mut bake, Intent::PlanRetard(step, Some((from, to))), now);
    let put_away = |bake: &Bake, now| {
        let all = alarms(bake.state(), now).into_iter();
        let mut all = all.filter(|alarm| alarm.kind == AlarmKind::Retard);
        all.next().map(|alarm| alarm.due)
    };
    assert_eq!(put_away(&bake, now), Some(from));
    assert_eq!(bake.state().to_be_moved(from - minutes(1.0)), None);
    assert_eq!(
        bake.state().to_be_moved(from),
        Some((step, Place::Fridge, from))
    );
    let late = from + minutes(10.0);
    for alarm in due(bake.state(), late) {
        say(&mut bake, Intent::Hear(alarm.id), late);
    }
    assert_eq!(put_away(&bake, late), None);
    // Half an hour in the kitchen that the fridge was to have.
    let rises = |bake: &Bake| told(bake, step, late).0.likely();
    let was = rises(&bake);
    say(&mut bake, Intent::Move(step, Place::Fridge), late);
    assert!(
        (rises(&bake) - was).get().abs() < 0.1,
        "it was believed to be out still"
    );
    assert_eq!(bake.state().to_be_moved(late), None);
    assert_eq!(bake.state().retards.len(), 1);

    let forecast = bake.state().forecast(step, late).expect("it goes on");
    assert_eq!((forecast.out_by, forecast.look), (Some(to), to));
    assert_eq!(
        bake.state().to_be_moved(to),
        Some((step, Place::Kitchen, to))
    );
    let out = to + minutes(30.0);
    assert!(
        due(bake.state(), out)
            .iter()
            .any(|alarm| alarm.kind == AlarmKind::Check)
    );
    let was = rises(&bake);
    say(&mut bake, Intent::Move(step, Place::Kitchen), out);
    assert!(bake.state().retards.is_empty());
    let longer = rises(&bake) - was;
    assert!(
        longer > minutes(10.0),
        "it was cold half an hour longer: {longer:?}"
    );
}
