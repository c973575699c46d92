//! Who is away or asleep is called for what burns or spoils; all else is held, and calls once they are back.
//!
//! What may wake somebody is a rule of our own; the limits of what cools are the Food Code's (see `cooling`).

use checks::{begin, say, starter, up_to};
use domain::bake::{
    Alarm, AlarmId, AlarmKind, Bake, Intent, Wishes, alarms, begin_alarm, decide, due,
    waiting_alarm,
};
use domain::formula::{StepId, StepKind};
use domain::kitchen::Kitchen;
use domain::units::{Moment, minutes};

const NINE: Moment = Moment::from_epoch_ms(1_789_894_800_000);

fn baking(id: &str, kind: StepKind) -> (Bake, StepId, Moment) {
    let mut bake = begin(starter(id), Kitchen::UNMEASURED, NINE);
    let (step, now) = up_to(&mut bake, kind, NINE, |_| minutes(5.0));
    (bake, step, now)
}

/// Nobody is there from one moment to another.
fn leave(bake: &mut Bake, away: &[(Moment, Moment)], now: Moment) {
    let wishes = Wishes {
        away: away.to_vec(),
        ..bake.state().wishes.clone()
    };
    say(bake, Intent::Wish(Box::new(wishes)), now);
}

fn of(bake: &Bake, step: StepId, kind: &AlarmKind, now: Moment) -> Option<Alarm> {
    let mut all = alarms(bake.state(), now).into_iter();
    all.find(|alarm| alarm.step == Some(step) && alarm.kind == *kind)
}

fn check(bake: &Bake, step: StepId, now: Moment) -> Alarm {
    of(bake, step, &AlarmKind::Check, now).expect("it is looked at")
}

/// An hour before a moment to five hours after it.
fn night_round(at: Moment) -> (Moment, Moment) {
    (at - minutes(60.0), at + minutes(300.0))
}

#[test]
fn what_goes_on_in_the_night_calls_once_as_it_ends() {
    for (id, kind) in [
        ("overnight-tin-loaf", StepKind::Retard),
        ("overnight-tin-loaf", StepKind::Cool),
        ("plum-almond-buns", StepKind::Cool),
        ("orange-braid", StepKind::Bulk),
    ] {
        let (mut bake, step, now) = baking(id, kind);
        let was = check(&bake, step, now);
        let (from, to) = night_round(was.due);
        leave(&mut bake, &[(from, to)], now);
        let case = format!("{id}, {kind:?}");
        let held = check(&bake, step, was.due);
        assert_eq!((held.id, held.due), (was.id, to), "{case}");
        assert!(bake.state().is_back_at(held.due) && !bake.state().is_back_at(was.due));
        let rings = |now| {
            due(bake.state(), now)
                .iter()
                .any(|alarm| alarm.id == was.id)
        };
        assert!(!rings(was.due) && !rings(to - minutes(1.0)), "{case}");
        assert!(rings(to), "{case}");
        // A phone that slept finds out how late it is.
        assert!(rings(to + minutes(40.0)), "{case}");
        say(&mut bake, Intent::Hear(was.id), to + minutes(1.0));
        let rings = |bake: &Bake, now| {
            due(bake.state(), now)
                .iter()
                .any(|alarm| alarm.id == was.id)
        };
        assert!(!rings(&bake, to + minutes(60.0)), "{case}");
        // Nor does it once that night is forgotten.
        leave(&mut bake, &[], to + minutes(2.0));
        assert!(!rings(&bake, to + minutes(60.0)), "{case}");
    }
}

#[test]
fn who_stays_up_after_all_is_called_at_the_moment_itself() {
    let (mut bake, step, now) = baking("overnight-tin-loaf", StepKind::Retard);
    let was = check(&bake, step, now);
    leave(&mut bake, &[night_round(was.due)], now);
    leave(&mut bake, &[], now + minutes(1.0));
    assert_eq!(check(&bake, step, was.due).due, was.due);
}

#[test]
fn what_rings_before_the_night_rings_on_and_one_time_away_can_follow_another() {
    let (mut bake, step, now) = baking("overnight-tin-loaf", StepKind::Retard);
    let at = check(&bake, step, now).due;
    let mut before = bake.clone();
    leave(
        &mut before,
        &[(at + minutes(2.0), at + minutes(400.0))],
        now,
    );
    assert_eq!(check(&before, step, at).due, at);
    let (from, to) = night_round(at);
    leave(
        &mut bake,
        &[(from, to), (to - minutes(30.0), to + minutes(60.0))],
        now,
    );
    assert_eq!(check(&bake, step, at).due, to + minutes(60.0));
}

#[test]
fn an_oven_that_is_on_calls_at_any_hour() {
    for kind in [StepKind::OvenHeats, StepKind::Bake] {
        let (mut bake, step, now) = baking("plum-almond-buns", kind);
        let was = check(&bake, step, now);
        leave(&mut bake, &[night_round(was.due)], now);
        assert_eq!(check(&bake, step, now).due, was.due, "{kind:?}");
    }
    // The dough that an oven is on for, too; that one is to be turned on wakes nobody.
    let (mut bake, proof, now) = baking("orange-braid", StepKind::FinalProof);
    let was = check(&bake, proof, now);
    let (from, to) = night_round(was.due);
    leave(&mut bake, &[(from - minutes(60.0), to)], now);
    assert_eq!(check(&bake, proof, now).due, to);
    let mut steps = bake.state().formula.steps.iter();
    let on = steps
        .find(|step| step.kind == StepKind::OvenOn)
        .expect("it bakes")
        .id;
    let turn_on = of(&bake, on, &AlarmKind::OvenOn, now).expect("it is to be turned on");
    assert_eq!(turn_on.due, to);
    say(&mut bake, Intent::Done(on), now + minutes(1.0));
    assert_eq!(check(&bake, proof, now + minutes(1.0)).due, was.due);
}

#[test]
fn food_that_would_be_lost_calls_at_its_limit_and_before_it() {
    let (mut bake, chill, now) = baking("plum-almond-buns", StepKind::Chill);
    let look = check(&bake, chill, now).due;
    let limits: Vec<Alarm> = alarms(bake.state(), now)
        .into_iter()
        .filter(|alarm| {
            matches!(
                alarm.kind,
                AlarmKind::CoolingStage | AlarmKind::CoolingEnd(_)
            )
        })
        .collect();
    assert_eq!(limits.len(), 2);
    let last = limits
        .iter()
        .map(|alarm| alarm.due)
        .max()
        .expect("there are two");
    let first = limits
        .iter()
        .map(|alarm| alarm.due)
        .min()
        .expect("there are two");
    assert!(look < first);
    // The rule ends within the night: who looks when it should be cold can still do something.
    let mut long = bake.clone();
    leave(
        &mut long,
        &[(now + minutes(5.0), last + minutes(60.0))],
        now,
    );
    assert_eq!(check(&long, chill, now).due, look);
    for limit in &limits {
        assert_eq!(
            of(&long, chill, &limit.kind, now).map(|alarm| alarm.due),
            Some(limit.due)
        );
    }
    // It ends after it: that can wait.
    let back = first - minutes(10.0);
    leave(&mut bake, &[(now + minutes(5.0), back)], now);
    assert_eq!(check(&bake, chill, now).due, back);
}

#[test]
fn a_timer_that_was_set_by_hand_calls_at_any_hour_and_hands_work_at_none() {
    let (mut bake, _, now) = baking("orange-braid", StepKind::Bulk);
    let timer = Intent::SetTimer("Tea".to_owned(), minutes(20.0));
    say(&mut bake, timer, now);
    let night = (now + minutes(5.0), now + minutes(400.0));
    leave(&mut bake, &[night], now);
    let tea = alarms(bake.state(), now)
        .into_iter()
        .find(|alarm| alarm.step.is_none());
    assert!((tea.expect("it was set").due - now).get() < 20.1);

    let step = |bake: &Bake, kind| {
        let mut steps = bake.state().formula.steps.iter();
        steps.find(|step| step.kind == kind).expect("it has one").id
    };
    // Divided pieces wait; a loaf that is baked waits for nobody, nor does cream that is hot.
    for (id, kind, is_held) in [
        ("orange-braid", StepKind::PreShape, true),
        ("plum-almond-buns", StepKind::Wash, false),
    ] {
        let (mut bake, _, now) = baking(id, kind);
        let night = (now - minutes(1.0), now + minutes(400.0));
        leave(&mut bake, &[night], now);
        let at = now + minutes(5.0);
        let alarm = waiting_alarm(bake.state(), step(&bake, kind), at, at).expect("it waits");
        assert_eq!(alarm.due, if is_held { night.1 } else { at }, "{kind:?}");
    }
    let (mut bake, spread, now) = baking("plum-almond-buns", StepKind::Prepare);
    leave(
        &mut bake,
        &[(now - minutes(1.0), now + minutes(400.0))],
        now,
    );
    let at = now + minutes(5.0);
    let alarm = waiting_alarm(bake.state(), spread, at, at).expect("it waits");
    assert_eq!(alarm.due, at, "hot cream");
}

#[test]
fn who_comes_back_to_what_goes_on_is_called_by_the_plan_and_can_say_so() {
    let (mut bake, _, now) = baking("orange-braid", StepKind::Divide);
    let (from, to) = (now + minutes(10.0), now + minutes(400.0));
    assert!(begin_alarm(bake.state(), to).is_none());
    leave(&mut bake, &[(from, to)], now);
    let call = begin_alarm(bake.state(), to).expect("somebody is back");
    assert_eq!((call.id, call.due), (AlarmId::Begin, to));
    assert!(begin_alarm(bake.state(), to + minutes(1.0)).is_none());
    let entries = decide(&bake, Intent::Hear(AlarmId::Begin), to).expect("it goes on");
    assert_eq!(entries.len(), 1);
    bake.append(entries);
    assert!(begin_alarm(bake.state(), to).is_none());
}

/// What rises past its window is heard of once more, and so is what was held until somebody came back.
#[test]
fn a_rise_calls_again_at_the_late_end_of_its_window() {
    for away in [false, true] {
        let (mut bake, rise, now) = baking("plum-almond-buns", StepKind::Bulk);
        let forecast = bake.state().forecast(rise, now).expect("it rises");
        let (look, high) = (forecast.look, forecast.window.high());
        let back = look + minutes(14.0);
        assert!(back < high, "it is back before the late end");
        if away {
            leave(&mut bake, &[(look - minutes(30.0), back)], now);
        }
        let calls = |bake: &Bake, at: Moment| {
            let mut found = due(bake.state(), at);
            found.retain(|alarm| alarm.kind == AlarmKind::Check && alarm.step == Some(rise));
            found
        };
        let first = if away { back } else { look };
        assert!(calls(&bake, first - minutes(0.5)).is_empty());
        let rings = calls(&bake, first + minutes(0.5));
        assert_eq!(rings.len(), 1, "away: {away}");
        say(&mut bake, Intent::Hear(rings[0].id), first + minutes(0.5));
        assert!(calls(&bake, high - minutes(0.5)).is_empty());
        let again = calls(&bake, high + minutes(0.5));
        assert_eq!(again.len(), 1, "away: {away}");
        say(&mut bake, Intent::Hear(again[0].id), high + minutes(0.5));
        // From then on now and then, as `second_calls` has it.
        assert!(calls(&bake, high + minutes(30.0)).is_empty());
        assert_eq!(calls(&bake, high + minutes(31.0)).len(), 1, "away: {away}");
    }
}
