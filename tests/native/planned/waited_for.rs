//! What waits at another bread calls for hands: shortly before it has waited as long as it may, and once.

use checks::{begin, say, starter, up_to};
use domain::bake::{Alarm, AlarmId, AlarmKind, Bake, Intent, heard};
use domain::formula::{StepId, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::plan::What;
use domain::units::{Minutes, Moment, minutes};

use super::NINE;
use super::asked::{planned, states};

/// As long as divided pieces may wait for being rounded, by the formula of the buns.
const MAY_WAIT: Minutes = minutes(20.0);
const AHEAD: Minutes = minutes(5.0);

/// Buns that have just been divided, beside a braid that rises; and the step for which they wait.
fn divided() -> (Vec<Bake>, StepId, Moment) {
    let work = |id, kind| {
        let mut bake = begin(starter(id), Kitchen::UNMEASURED, NINE);
        let (step, now) = up_to(&mut bake, kind, NINE, |_| minutes(5.0));
        (bake, step, now)
    };
    let (buns, round, now) = work("plum-almond-buns", StepKind::PreShape);
    let (braid, ..) = work("orange-braid", StepKind::Bulk);
    (vec![buns, braid], round, now)
}

fn alarm_of(bakes: &[Bake], bake: usize, seen: Option<Moment>, now: Moment) -> Option<Alarm> {
    let plan = planned(bakes, now).expect("there is a plan").plan;
    plan.waiting_alarm(&states(bakes), bake, seen, now)
}

fn step_of(bake: &Bake, title: &str) -> StepId {
    let mut steps = bake.state().formula.steps.iter();
    steps
        .find(|step| step.title == title)
        .expect("it has one")
        .id
}

#[test]
fn divided_pieces_call_in_time_to_be_rounded() {
    let (bakes, round, now) = divided();
    let alarm = alarm_of(&bakes, 0, None, now).expect("they wait");
    assert_eq!(alarm.id, AlarmId::Waits { step: round });
    assert_eq!(alarm.kind, AlarmKind::Waits(now + MAY_WAIT));
    assert_eq!(alarm.due, now + MAY_WAIT - AHEAD);
    // While nobody comes, plans are made anew and the call stays.
    for later in [1.0, 15.0] {
        let later = now + minutes(later);
        assert_eq!(alarm_of(&bakes, 0, None, later).as_ref(), Some(&alarm));
    }
    // By then the braid should have been folded, which comes first in every plan.
    let later = now + minutes(40.0);
    let alarm = alarm_of(&bakes, 0, None, later).expect("they wait");
    assert_eq!(alarm.due, now + MAY_WAIT);
    // The braid waits for nobody: it rises.
    assert_eq!(alarm_of(&bakes, 1, None, now), None);
}

#[test]
fn who_is_pressing_or_has_just_looked_there_is_left_in_peace() {
    let (mut bakes, _, now) = divided();
    let late = now + minutes(18.0);
    let due = alarm_of(&bakes, 0, Some(late), late)
        .expect("they wait")
        .due;
    assert_eq!(due, late + AHEAD);
    say(
        &mut bakes[1],
        Intent::SetTimer("Tea".to_owned(), minutes(10.0)),
        late,
    );
    let due = alarm_of(&bakes, 0, None, late).expect("they wait").due;
    assert_eq!(due, bakes[1].state().newest + AHEAD);
}

#[test]
fn nobody_is_called_before_the_plan_has_the_hands_there() {
    let (mut bakes, round, now) = divided();
    let toast = step_of(&bakes[1], "Toast almonds");
    let at = now + minutes(14.0);
    say(&mut bakes[1], Intent::Pick(toast), at);
    let plan = planned(&bakes, at).expect("there is a plan").plan;
    let start = plan
        .item(What::Step(0, round))
        .expect("it is planned")
        .start;
    assert!(start - at > minutes(3.0), "the hands are at the almonds");
    let alarm = plan.waiting_alarm(&states(&bakes), 0, None, at);
    // The pieces are called for no later than they may wait, whatever else the plan has before them.
    let called = start.min(now + MAY_WAIT).max(at + AHEAD);
    assert_eq!(alarm.expect("they wait").due, called);
    // Once those should be done the pieces are what the hands are for, whatever a newer plan says.
    let over = at + minutes(12.0);
    let due = alarm_of(&bakes, 0, None, over).expect("they wait").due;
    assert!(due <= over, "{due:?}");
}

#[test]
fn a_call_that_was_heard_is_silent_until_it_waits_anew() {
    let (mut bakes, round, now) = divided();
    let alarm = alarm_of(&bakes, 0, None, now).expect("they wait");
    let entries = heard(&bakes[0], alarm.id, alarm.due).expect("it goes on");
    assert_eq!(entries.len(), 1);
    bakes[0].append(entries);
    for later in [16.0, 21.0, 60.0] {
        assert_eq!(alarm_of(&bakes, 0, None, now + minutes(later)), None);
    }
    let divide = step_of(&bakes[0], "Divide");
    let again = now + minutes(70.0);
    say(&mut bakes[0], Intent::GoBack(divide), again);
    say(&mut bakes[0], Intent::Done(divide), again + minutes(5.0));
    let alarm = alarm_of(&bakes, 0, None, again + minutes(5.0)).expect("they wait anew");
    assert_eq!(alarm.id, AlarmId::Waits { step: round });
}

#[test]
fn what_was_begun_or_left_for_now_calls_nobody() {
    let (bakes, round, now) = divided();
    let after = |intent: Intent| {
        let mut bakes = bakes.clone();
        say(&mut bakes[0], intent, now + minutes(1.0));
        alarm_of(&bakes, 0, None, now + minutes(2.0))
    };
    assert_eq!(after(Intent::Pick(round)), None);
    assert_eq!(after(Intent::Pause), None);
    // It has a call of its own then.
    assert_eq!(after(Intent::Pin(round, Some(now + minutes(10.0)))), None);
}

#[test]
fn one_bread_alone_asks_and_what_keeps_calls_nobody() {
    let (bakes, _, now) = divided();
    assert_eq!(alarm_of(&bakes[..1], 0, None, now), None);
    // Cream that is cold waits in its fridge, and so do almonds in the pan's bowl.
    let mut buns = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, NINE);
    let (_, now) = up_to(&mut buns, StepKind::Mix, NINE, |_| minutes(5.0));
    let both = [buns, bakes[1].clone()];
    assert_eq!(alarm_of(&both, 0, None, now), None);
}
