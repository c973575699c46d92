//! A night in the fridge that is still to come is a part of the plan: it comes to what the real one comes to.

use checks::{begin, say, starter};
use domain::bake::{AlarmKind, State};
use domain::bake::{Bake, Event, Intent, Refusal, alarms, decide, due};
use domain::estimate::Estimate;
use domain::formula::{Length, StepId, StepKind};
use domain::kitchen::{Kitchen, Place};
use domain::schedule::plan::{Cold, What};
use domain::units::{Minutes, Moment, celsius, minutes};
use proptest::prelude::*;

use super::asked::{hours, planned, some_points, wish};
use super::levers::step_of;
use super::redone::days;
use super::{NINE, TABLES, begun};
use domain::bake::Wishes;

/// A bread whose first or last rise goes on, and since when.
fn rising(which: usize, kind: StepKind) -> Option<(Bake, StepId, Moment)> {
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

        // What is ready before it goes in doesn't go in.
        say(&mut real, Intent::Move(step, Place::Fridge), from);
        let mut is_in = bake.clone();
        say(&mut is_in, Intent::Move(step, Place::Fridge), from);
        let got = told(&is_in, step, from).0;
        prop_assert!(near(&window, &got, 2_000), "once it is in: {window:?} {got:?} {from:?} {to:?}");
        say(&mut real, Intent::Move(step, Place::Kitchen), to);
        say(&mut is_in, Intent::Move(step, Place::Kitchen), to);
        for once in [&real, &is_in] {
            let (real, real_folds) = told(once, step, from);
            prop_assert!(near(&window, &real, 2_000), "{window:?} {real:?}");
            let off = folds.iter().zip(&real_folds).map(|(one, other)| (*one - *other).get().abs());
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
        prop_assert!(near(&planned, &real, 5_000), "{planned:?} {real:?} {from:?} {:?}", rise.kind);
    }
}

fn asleep() -> Wishes {
    Wishes {
        away: vec![(NINE + hours(13.0), NINE + hours(22.0))],
        ..Wishes::default()
    }
}

#[test]
fn the_plan_has_both_moments_and_no_folds_between_them() {
    for ids in [TABLES[0], TABLES[1]] {
        let mut bakes = begun(ids);
        wish(&mut bakes, &asleep(), NINE);
        let step = step_of(&bakes[0], StepKind::Bulk);
        let (from, to) = (NINE + hours(12.0), NINE + hours(22.0));
        say(
            &mut bakes[0],
            Intent::PlanRetard(step, Some((from, to))),
            NINE,
        );
        let found = planned(&bakes, NINE).expect("there is a plan").plan;
        let item = |what| {
            *found
                .item(what)
                .unwrap_or_else(|| panic!("{ids:?}: {what:?}"))
        };
        let cold = |cold| item(What::Cold(0, step, cold));
        let rise = item(What::Step(0, step));
        assert_eq!((rise.start, rise.too_late_by), (from, None), "{ids:?}");
        assert_eq!(cold(Cold::In).start, from);
        assert_eq!((cold(Cold::Out).start, cold(Cold::Stands).end), (to, to));
        assert_eq!(cold(Cold::Stands).start, from);
        assert!(
            rise.end > to + minutes(10.0),
            "{ids:?}: it rises on in the kitchen"
        );
        for item in &found.items {
            if let What::Fold(..) = item.what {
                assert!(item.end <= from || item.start >= to, "{ids:?}: {item:?}");
            }
        }
        // Taken away, nothing is left of it.
        say(&mut bakes[0], Intent::PlanRetard(step, None), NINE);
        let found = planned(&bakes, NINE).expect("there is a plan").plan;
        assert!(
            !found
                .items
                .iter()
                .any(|item| matches!(item.what, What::Cold(..)))
        );
    }
}

#[test]
fn one_press_is_taken_back_by_one_undo_and_all_of_it_is_refused_or_none() {
    let mut bake = begin(starter(TABLES[0][0]), Kitchen::UNMEASURED, NINE);
    let step = step_of(&bake, StepKind::Bulk);
    let first = bake.state().formula.steps[0].id;
    let asked = |stay| {
        Intent::AtOnce(vec![
            Intent::Pin(first, Some(NINE + hours(2.0))),
            Intent::Pin(step, Some(NINE + hours(3.0))),
            Intent::PlanRetard(step, Some(stay)),
        ])
    };
    let backwards = (NINE + hours(9.0), NINE + hours(4.0));
    assert_eq!(
        decide(&bake, asked(backwards), NINE),
        Err(Refusal::Backwards)
    );
    let before = bake.state().clone();
    say(
        &mut bake,
        asked((NINE + hours(4.0), NINE + hours(9.0))),
        NINE,
    );
    assert!(bake.state().pins.len() == 2 && bake.state().retards.len() == 1);
    say(&mut bake, Intent::Undo, NINE + minutes(1.0));
    assert_eq!(
        (&bake.state().pins, &bake.state().retards),
        (&before.pins, &before.retards)
    );
    assert_eq!(
        decide(&bake, Intent::Undo, NINE + minutes(2.0)),
        Err(Refusal::NothingToUndo)
    );
}

#[test]
fn only_a_rise_that_is_still_to_end_is_planned_to_stand_cold_and_only_near_at_hand() {
    let (bake, step, now) = rising(0, StepKind::FinalProof).expect("it rises");
    let stay = (now + hours(1.0), now + hours(9.0));
    let refused = |step, stay| decide(&bake, Intent::PlanRetard(step, Some(stay)), now);
    let bulk = step_of(&bake, StepKind::Bulk);
    assert_eq!(refused(bulk, stay), Err(Refusal::Already(bulk)));
    let oven = step_of(&bake, StepKind::Bake);
    assert_eq!(refused(oven, stay), Err(Refusal::NeverCold(oven)));
    assert_eq!(refused(StepId(999), stay), Err(Refusal::Unknown));
    assert_eq!(refused(step, (stay.1, stay.0)), Err(Refusal::Backwards));
    assert_eq!(
        refused(step, (now - hours(9.0), now)),
        Err(Refusal::Backwards)
    );
    for far in [-15.0, 15.0] {
        let far = now + hours(24.0 * far);
        let asked = if far < now {
            (far, stay.1)
        } else {
            (stay.0, far)
        };
        assert!(matches!(refused(step, asked), Err(Refusal::Implausible(_))));
    }
    assert!(
        matches!(refused(step, stay).as_deref(), Ok([entry]) if matches!(entry.event, Event::RetardPlanned { .. }))
    );
}

/// Who is late to put it in or to take it out has the alarm meanwhile, and the forecast follows what is said.
#[test]
fn the_baker_is_called_to_put_it_in_and_to_take_it_out() {
    let (mut bake, step, now) = rising(1, StepKind::Bulk).expect("it rises");
    let (from, to) = (now + minutes(1.0), now + hours(3.0));
    say(&mut bake, Intent::PlanRetard(step, Some((from, to))), now);
    let put_away = |bake: &Bake, now| {
        let all = alarms(bake.state(), now).into_iter();
        let mut all = all.filter(|alarm| alarm.kind == AlarmKind::PutAway);
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

#[test]
fn what_is_planned_ends_with_its_step_and_goes_with_its_formula() {
    let (mut bake, step, now) = rising(0, StepKind::Bulk).expect("it rises");
    say(
        &mut bake,
        Intent::PlanRetard(step, Some((now + hours(1.0), now + hours(9.0)))),
        now,
    );
    say(&mut bake, Intent::Done(step), now + minutes(1.0));
    assert!(bake.state().retards.is_empty());

    let mut bake = begin(starter(TABLES[0][0]), Kitchen::UNMEASURED, NINE);
    let step = step_of(&bake, StepKind::Bulk);
    say(
        &mut bake,
        Intent::PlanRetard(step, Some((NINE + hours(1.0), NINE + hours(9.0)))),
        NINE,
    );
    let other = starter(TABLES[1][0]);
    let has_it = other.step(step).is_some();
    say(&mut bake, Intent::Refit(Box::new(other)), NINE);
    assert_eq!(bake.state().retards.contains_key(&step), has_it);
}
