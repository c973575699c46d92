//! What was done before it was said: everything follows from when it was, whichever way it is told.

use checks::{begin, say, starter, up_to};
use domain::bake::{AlarmId, Bake, Intent, Refusal, State, alarms, decide, due};
use domain::formula::{StepId, StepKind};
use domain::kitchen::{Kitchen, Place};
use domain::units::{Moment, celsius, minutes};

const NINE: Moment = Moment::from_epoch_ms(1_789_894_800_000);

const FIRST_RISE: StepId = StepId(9);
const PROOF: StepId = StepId(16);
const OVEN_ON: StepId = StepId(17);
const OVEN_HEATS: StepId = StepId(18);
const WASH: StepId = StepId(19);
const INTO_OVEN: StepId = StepId(20);
const BAKE: StepId = StepId(21);

/// Buns whose proof began at the moment, with the oven on and hot by its end.
fn proofing() -> (Bake, Moment) {
    let mut bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, NINE);
    let (_, began) = up_to(&mut bake, StepKind::FinalProof, NINE, |_| minutes(10.0));
    say(&mut bake, Intent::Done(OVEN_ON), began + minutes(25.0));
    say(&mut bake, Intent::Done(OVEN_HEATS), began + minutes(46.0));
    (bake, began)
}

/// The place of what was said last.
fn newest(bake: &Bake) -> u32 {
    bake.newest_press().expect("the last thing was said")
}

fn is_late(bake: &mut Bake, at: Moment, now: Moment) {
    let place = newest(bake);
    say(bake, Intent::Since(place, at), now);
}

fn ends(bake: &Bake, step: StepId, now: Moment) -> Moment {
    let forecast = bake.state().forecast(step, now).expect("it goes on");
    forecast.window.likely()
}

/// But for the moment of the newest entry.
fn same(one: &State, other: &State) -> bool {
    let mut one = one.clone();
    one.newest = other.newest;
    one == *other
}

/// The finding: "Into the oven" was pressed 25 min after the buns went in, and they were to bake for 43.
#[test]
fn what_went_into_the_oven_earlier_bakes_since_then_and_calls_at_once() {
    let (mut bake, began) = proofing();
    say(&mut bake, Intent::Done(PROOF), began + minutes(58.0));
    say(&mut bake, Intent::Done(WASH), began + minutes(62.0));
    let (went_in, pressed) = (began + minutes(64.0), began + minutes(89.0));
    let mut in_time = bake.clone();
    say(&mut in_time, Intent::Done(INTO_OVEN), went_in);
    say(&mut bake, Intent::Done(INTO_OVEN), pressed);
    let before = bake.state().clone();
    assert!(due(&before, pressed).is_empty());
    is_late(&mut bake, went_in, pressed + minutes(0.5));
    assert!(same(bake.state(), in_time.state()));
    let now = pressed + minutes(0.5);
    let out = ends(&bake, BAKE, now);
    assert_eq!(out - went_in, ends(&in_time, BAKE, now) - went_in);
    assert!(out < now, "{out:?}");
    let rings = due(bake.state(), now);
    assert!(
        rings.iter().any(|alarm| alarm.step == Some(BAKE)),
        "{rings:?}"
    );
    say(&mut bake, Intent::Undo, now);
    assert!(same(bake.state(), &before));
}

/// Whoever comes late presses what has happened one after the other: the last of it tells of all.
#[test]
fn what_was_pressed_in_one_go_was_as_early() {
    let (mut bake, began) = proofing();
    let called = ends(&bake, PROOF, began + minutes(40.0));
    let at = |after: f64| called + minutes(after);
    say(&mut bake, Intent::Done(PROOF), at(25.0));
    say(&mut bake, Intent::Done(WASH), at(25.5));
    say(&mut bake, Intent::Done(INTO_OVEN), at(26.0));
    let pressed = bake.pressed(newest(&bake)).expect("it was pressed");
    assert_eq!(pressed.step, Some(INTO_OVEN));
    let offered = pressed.called.expect("it had called long before");
    assert!(
        (offered - called).get().abs() < 15.0,
        "{:?}",
        offered - called
    );
    is_late(&mut bake, offered, at(27.0));
    for step in [PROOF, WASH, INTO_OVEN] {
        let ended = bake.state().progress(step).ended.expect("it ended");
        assert_eq!(ended.at, offered, "{step:?}");
    }
    assert_eq!(bake.state().progress(BAKE).open_since, Some(offered));
    // All of it was one thing to the baker.
    say(&mut bake, Intent::Undo, at(28.0));
    assert_eq!(bake.state().progress(BAKE).open_since, Some(at(26.0)));
    assert_eq!(bake.state().progress(WASH).open_since, Some(at(25.0)));
}

#[test]
fn nothing_was_before_what_it_follows_or_after_it_was_said() {
    let (mut bake, began) = proofing();
    let at = |after: f64| began + minutes(after);
    say(&mut bake, Intent::Done(PROOF), at(58.0));
    say(&mut bake, Intent::Done(WASH), at(62.0));
    say(&mut bake, Intent::Done(INTO_OVEN), at(80.0));
    let place = newest(&bake);
    let asked = |to: Moment| decide(&bake, Intent::Since(place, to), at(81.0));
    assert_eq!(asked(at(61.0)), Err(Refusal::TooEarly(at(62.0))));
    assert_eq!(asked(at(80.5)), Err(Refusal::TooLate(at(80.0))));
    assert_eq!(asked(at(80.0)), Ok(Vec::new()));
    assert!(asked(at(62.0)).is_ok_and(|entries| entries.len() == 1));
    let nothing = |place| decide(&bake, Intent::Since(place, at(60.0)), at(81.0));
    // Its start, what isn't there, and what only was turned to.
    assert_eq!(nothing(0), Err(Refusal::Unknown));
    assert_eq!(nothing(place + 1), Err(Refusal::Unknown));
    // What was read off in between shows that it hadn't ended yet.
    let mut read = proofing().0;
    let dough = read.state().formula.step(PROOF).expect("there").component;
    say(&mut read, Intent::DoughIs(dough, celsius(24.0)), at(50.0));
    say(&mut read, Intent::Done(PROOF), at(70.0));
    let asked = decide(&read, Intent::Since(newest(&read), at(48.0)), at(71.0));
    assert_eq!(asked, Err(Refusal::TooEarly(at(50.0))));
}

#[test]
fn of_what_was_pressed_when_it_was_called_for_nobody_is_asked() {
    let (mut bake, began) = proofing();
    let called = ends(&bake, PROOF, began + minutes(40.0));
    let place = newest(&bake);
    assert_eq!(bake.pressed(place).and_then(|pressed| pressed.called), None);
    say(&mut bake, Intent::Done(PROOF), called + minutes(1.0));
    assert_eq!(
        bake.pressed(newest(&bake))
            .and_then(|pressed| pressed.called),
        None
    );
}

/// A call that was heard and followed without a press: it was done when it was heard.
#[test]
fn a_call_that_was_heard_is_when_somebody_was_there() {
    let (mut bake, began) = proofing();
    let calls = alarms(bake.state(), began + minutes(40.0));
    let call = calls.iter().find(|alarm| alarm.step == Some(PROOF));
    let call = call.expect("the end of the proof calls").clone();
    let heard = call.due + minutes(2.0);
    say(&mut bake, Intent::Hear(call.id), heard);
    say(&mut bake, Intent::Done(PROOF), heard + minutes(25.0));
    let pressed = bake.pressed(newest(&bake)).expect("it was pressed");
    assert_eq!(pressed.called, Some(heard));
}

/// What is asked about of the last press.
fn asked_about(bake: &Bake) -> Option<Moment> {
    bake.pressed(newest(bake)).expect("it was pressed").called
}

/// Buns that proof, to go into the fridge at a moment, and when they are called for as ripe.
fn to_go_in(after: Option<f64>) -> (Bake, Moment, Moment) {
    let (mut bake, began) = proofing();
    let ripe = ends(&bake, PROOF, began + minutes(40.0));
    let at = |after: f64| ripe + minutes(after);
    if let Some(after) = after {
        let stay = Some((at(after), at(600.0)));
        say(
            &mut bake,
            Intent::PlanRetard(PROOF, stay),
            began + minutes(47.0),
        );
    }
    let calls = alarms(bake.state(), began + minutes(47.0));
    let mut calls = calls.iter();
    let check = calls.find(|call| matches!(call.id, AlarmId::Check { step: PROOF, .. }));
    let check = check.expect("the end of the proof calls").due;
    (bake, ripe, check)
}

/// "Was it put there at 22:30, when it called?" is asked of the call to put it in, never of one that asked whether it has risen;
/// and the other way round.
#[test]
fn who_puts_it_into_the_fridge_is_asked_about_that_call_alone() {
    let put_in = Intent::Move(PROOF, Place::Fridge);
    // Nobody called for it: it was found risen, and is kept for the night.
    let (mut bake, ripe, check) = to_go_in(None);
    assert!(check <= ripe);
    say(&mut bake, put_in.clone(), ripe + minutes(25.0));
    assert_eq!(asked_about(&bake), None);
    // Called for after it was risen: in time it is asked about nothing, and late about that call.
    let (bake, ripe, check) = to_go_in(Some(20.0));
    let call = ripe + minutes(20.0);
    assert!(check < call);
    for (pressed, asked) in [(2.0, None), (25.0, Some(call))] {
        let mut bake = bake.clone();
        say(&mut bake, put_in.clone(), call + minutes(pressed));
        assert_eq!(asked_about(&bake), asked, "after {pressed} min");
    }
    // Called for before that, and risen by the time that somebody came.
    let (mut bake, ripe, _) = to_go_in(Some(-9.0));
    say(&mut bake, put_in, ripe + minutes(15.0));
    assert_eq!(asked_about(&bake), Some(ripe - minutes(9.0)));
    // Who ended it instead is asked about when it was ready.
    let (mut bake, ripe, check) = to_go_in(Some(20.0));
    say(&mut bake, Intent::Done(PROOF), ripe + minutes(30.0));
    assert_eq!(asked_about(&bake), Some(check));
}

/// Buns whose first rise began at the moment.
fn rising() -> (Bake, Moment) {
    let mut bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, NINE);
    let (_, began) = up_to(&mut bake, StepKind::Bulk, NINE, |_| minutes(10.0));
    (bake, began)
}

/// Put into the fridge an hour ago, read off ten minutes ago, folded before it was said.
#[test]
fn places_readings_and_folds_were_earlier_as_well() {
    let cases: [(Intent, f64); 3] = [
        (Intent::Move(FIRST_RISE, Place::Fridge), 5.0),
        (Intent::Folded(FIRST_RISE), 45.0),
        (
            Intent::DoughIs(domain::formula::ComponentId(1), celsius(23.0)),
            55.0,
        ),
    ];
    for (intent, was) in cases {
        let (mut late, began) = rising();
        let mut in_time = late.clone();
        let at = |after: f64| began + minutes(after);
        say(&mut late, intent.clone(), at(65.0));
        is_late(&mut late, at(was), at(66.0));
        say(&mut in_time, intent.clone(), at(was));
        assert!(same(late.state(), in_time.state()), "{intent:?}");
        let place = late.presses_of(FIRST_RISE);
        assert_eq!(
            place.len(),
            2,
            "{intent:?}: its beginning, and what was said since"
        );
    }
}

/// A clock that was set moves what was told of along, and a correction can be corrected.
#[test]
fn it_moves_along_with_the_clock_and_the_last_word_counts() {
    let (mut bake, began) = proofing();
    let at = |after: f64| began + minutes(after);
    say(&mut bake, Intent::Done(PROOF), at(58.0));
    say(&mut bake, Intent::Done(WASH), at(62.0));
    say(&mut bake, Intent::Done(INTO_OVEN), at(89.0));
    let place = newest(&bake);
    say(&mut bake, Intent::Since(place, at(64.0)), at(90.0));
    say(&mut bake, Intent::Since(place, at(70.0)), at(91.0));
    assert_eq!(bake.state().progress(BAKE).open_since, Some(at(70.0)));
    say(&mut bake, Intent::ClockWasSet(minutes(60.0)), at(152.0));
    assert_eq!(bake.state().progress(BAKE).open_since, Some(at(130.0)));
    say(&mut bake, Intent::Undo, at(153.0));
    say(&mut bake, Intent::Undo, at(154.0));
    assert_eq!(bake.state().progress(BAKE).open_since, Some(at(64.0)));
}
