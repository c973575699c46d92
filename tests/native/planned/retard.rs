//! A night in the fridge that is still to come: it comes to what the real one comes to, and the baker is called for it.

mod late;
mod ripe;
mod room;

use checks::say;
use domain::bake::{Alarm, AlarmId, AlarmKind, Bake, Intent, State, Wishes, alarms, due};
use domain::estimate::Estimate;
use domain::formula::{Length, StepId, StepKind};
use domain::kitchen::Place;
use domain::schedule::focus;
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
        // Who puts it in has found it not ready before that, and nobody ends it in there.
        let window = window.map(|ready| if ready < from { to } else { ready });
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
    assert_eq!(put_away(&bake, late), Some(late + minutes(10.0)));
    let rises = |bake: &Bake| told(bake, step, late).0.likely();
    let was = rises(&bake);
    say(&mut bake, Intent::Move(step, Place::Fridge), late);
    assert!(
        rises(&bake) - was > minutes(60.0),
        "it was believed to be in there"
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

/// The braid in its last rise, with a night in the fridge planned from a minute later on; and its moments.
fn to_bed() -> (Bake, StepId, [Moment; 2]) {
    let (mut bake, step, now) = rising(1, StepKind::FinalProof).expect("it rises");
    let stay = [now + minutes(1.0), now + hours(8.5)];
    let planned = Intent::PlanRetard(step, Some((stay[0], stay[1])));
    say(&mut bake, planned, now);
    (bake, step, stay)
}

/// The moments, in min after it was due, at which somebody is called to put a dough away who stops every call.
fn calls(mut bake: Bake, step: StepId, due_at: Moment) -> Vec<u32> {
    let id = AlarmId::Retard { step };
    let mut found = Vec::new();
    for minute in 0_u32..480 {
        let now = due_at + minutes(f64::from(minute));
        if due(bake.state(), now).iter().any(|alarm| alarm.id == id) {
            say(&mut bake, Intent::Hear(id), now);
            found.push(minute);
        }
    }
    found
}

#[test]
fn who_stops_the_call_to_the_fridge_is_called_again_until_bedtime() {
    let (mut bake, step, [from, _]) = to_bed();
    let often = [0, 10, 20, 30, 40, 50, 60];
    assert_eq!(calls(bake.clone(), step, from), often);
    let asleep = (from + minutes(25.0), from + hours(8.0));
    let wishes = Wishes {
        away: vec![asleep],
        ..Wishes::default()
    };
    say(
        &mut bake,
        Intent::Wish(Box::new(wishes)),
        from - minutes(0.5),
    );
    assert_eq!(calls(bake.clone(), step, from), [0, 10, 20, 25]);
    let mut is_in = bake.clone();
    say(&mut is_in, Intent::Move(step, Place::Fridge), from);
    assert!(calls(is_in, step, from).is_empty());
    say(&mut bake, Intent::PlanRetard(step, None), from);
    assert!(calls(bake, step, from).is_empty());
}

/// A dough that wasn't put in rises on, and spoils, whatever was planned and whatever was said meanwhile.
#[test]
fn what_is_not_in_the_fridge_is_reckoned_where_it_is() {
    let (mut bake, step, [from, to]) = to_bed();
    let mut free = bake.clone();
    say(&mut free, Intent::PlanRetard(step, None), from);
    let last = from + minutes(5.0);
    let timer = || Intent::SetTimer("Tea".to_owned(), minutes(3.0));
    say(&mut bake, timer(), last);
    say(&mut free, timer(), last);
    for late in [
        last + minutes(0.5),
        from + hours(3.0),
        to - minutes(1.0),
        to + hours(1.0),
    ] {
        let window = |bake: &Bake| told(bake, step, late).0;
        assert_eq!(window(&bake), window(&free));
        assert_eq!(bake.state().stood(late), free.state().stood(late));
    }
    assert!(!bake.state().stood(to + hours(1.0)).is_empty());
    // Put in, it is in there.
    say(
        &mut bake,
        Intent::Move(step, Place::Fridge),
        from + minutes(30.0),
    );
    assert!(told(&bake, step, last).0.likely() - told(&free, step, last).0.likely() > hours(1.0));
    assert_eq!(bake.state().stood(to), []);
}

/// What is asked is the move, in the evening and in the morning, and no oven comes before it.
#[test]
fn the_dough_is_asked_for_before_all_that_can_wait() {
    let (mut bake, step, [from, to]) = to_bed();
    let asks = |bake: &Bake, now| format!("{:?}", focus(bake.state(), now));
    let goes_in = format!("IntoFridge({step:?})");
    assert_ne!(asks(&bake, from - minutes(0.5)), goes_in);
    assert_eq!(asks(&bake, from), goes_in);
    assert_eq!(asks(&bake, from + minutes(20.0)), goes_in);
    // Also to whoever turned to the rise.
    say(&mut bake, Intent::Pick(step), from);
    assert_eq!(asks(&bake, from), goes_in);
    say(&mut bake, Intent::Move(step, Place::Fridge), from);
    assert_ne!(asks(&bake, from), goes_in);
    let is_oven = |alarm: &Alarm| alarm.kind == AlarmKind::OvenOn;
    let oven = alarms(bake.state(), from).into_iter().find(is_oven);
    assert!(
        oven.is_none_or(|oven| oven.due >= to),
        "the oven is on before"
    );
    let comes_out = format!("OutOfFridge({step:?})");
    for late in [0.0, 5.0, 90.0] {
        assert_eq!(asks(&bake, to + minutes(late)), comes_out);
    }
    say(
        &mut bake,
        Intent::Move(step, Place::Kitchen),
        to + minutes(5.0),
    );
    assert_ne!(asks(&bake, to + minutes(5.0)), comes_out);
    // A dough that was put in without a plan comes out again, and isn't said to be ready.
    let unplanned = (0..3).find_map(|which| {
        let (mut bake, step, now) = rising(which, StepKind::Bulk)?;
        say(&mut bake, Intent::Move(step, Place::Fridge), now);
        let out = bake.state().forecast(step, now)?.out_by?;
        Some((bake, step, out))
    });
    let (bake, step, out) = unplanned.expect("some dough hardly rises in there");
    assert_eq!(asks(&bake, out), format!("OutOfFridge({step:?})"));
}
