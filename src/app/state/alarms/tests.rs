//! Which alarms of one of several breads call, and what was held until somebody is back, which calls as one.

use checks::{begin, say, starter, up_to};
use domain::bake::{Bake, Intent, Wishes};
use domain::formula::{StepId, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::plan::timetable;
use domain::units::minutes;

use super::super::plan::{Look, Planned};
use super::*;

const START: Moment = Moment::from_epoch_ms(1_789_894_800_000);

#[test]
fn nobody_is_called_to_an_oven_that_is_on_for_another_bread() {
    let [mut buns, mut braid] = ["plum-almond-buns", "orange-braid"]
        .map(|id| begin(starter(id), Kitchen::UNMEASURED, START));
    let quick = |_: StepKind| minutes(5.0);
    // Its last rise goes on, and the oven has to be hot as it ends.
    let (_, now) = up_to(&mut buns, StepKind::OvenOn, START, quick);
    let now = now + minutes(240.0);
    let alarms = bake::alarms(buns.state(), now);
    let mut alarms = alarms.iter();
    let oven = alarms.find(|alarm| alarm.kind == AlarmKind::OvenOn);
    let oven = oven.expect("it is to be turned on").clone();
    let rings = |braid: &Bake, alarm: &Alarm| {
        let all = [buns.state(), braid.state()];
        calls(alarm, all[0], &all)
    };
    assert!(rings(&braid, &oven));
    let (on, at) = up_to(&mut braid, StepKind::OvenOn, START, quick);
    assert!(rings(&braid, &oven));
    say(&mut braid, Intent::Done(on), at);
    assert!(!rings(&braid, &oven));
    // Whatever else is due calls all the same.
    let other = AlarmKind::Check;
    assert!(rings(
        &braid,
        &Alarm {
            kind: other,
            ..oven.clone()
        }
    ));
    // A bread's own oven is no other's.
    let own = [braid.state()];
    assert!(oven_of(own[0], &own).is_none());
    // Once it is out, the next has to be heated for.
    up_to(&mut braid, StepKind::Cool, at, quick);
    assert!(!braid.state().has_oven_on());
    assert!(rings(&braid, &oven));
}

const LOAF: &str = "Overnight tin loaf";
const BRAID: &str = "Orange braid";

fn rings(whose: &str, id: AlarmId, title: &str, is_held: bool) -> Ringing {
    Ringing {
        bake: BakeId(whose.to_owned()),
        whose: whose.to_owned(),
        alarm: Alarm {
            id,
            due: START,
            kind: AlarmKind::Check,
            step: None,
        },
        since: START,
        title: title.to_owned(),
        body: "Have a look at it.".to_owned(),
        is_held,
        with: Vec::new(),
    }
}

const fn check(step: u16) -> AlarmId {
    check_of(StepId(step))
}

/// All of some that ring.
fn joined(each: &[Ringing]) -> Vec<Ringing> {
    let mut all = Vec::new();
    for one in each {
        one.clone().join(&mut all);
    }
    all
}

#[test]
fn what_was_held_calls_as_one_that_says_what_is_due() {
    let each = [
        rings(LOAF, check(9), "Night in fridge: look now", true),
        rings(LOAF, AlarmId::Begin, "Time to go on", true),
        rings(BRAID, check(16), "Bake: look now", false),
        rings(BRAID, check(19), "Cool: look now", true),
        rings(BRAID, AlarmId::Begin, "Time to go on", true),
    ];
    let all = joined(&each);
    let titles: Vec<&str> = all.iter().map(|one| &*one.title).collect();
    assert_eq!(titles, ["Night in fridge: look now", "Bake: look now"]);
    assert_eq!(
        all[0].body,
        "Have a look at it. Also due: Cool: look now (Orange braid)."
    );
    // All of it is heard with it.
    let with = [1, 3, 4].map(|of: usize| (each[of].bake.clone(), each[of].alarm.id));
    assert_eq!(all[0].with, with);
    assert_eq!(all[1], each[2]);
}

#[test]
fn what_rings_at_its_own_moment_is_joined_to_nothing() {
    for held in [[false, false], [true, false], [false, true]] {
        let each = [
            rings(LOAF, check(12), "Rest: look now", held[0]),
            rings(BRAID, check(19), "Cool: look now", held[1]),
        ];
        assert_eq!(joined(&each), each);
    }
}

/// The loaf's own call was heard before the night.
#[test]
fn what_goes_on_as_somebody_comes_back_calls_until_they_do_something() {
    let mut bake = begin(starter("overnight-tin-loaf"), Kitchen::UNMEASURED, START);
    let (retard, now) = up_to(&mut bake, StepKind::Retard, START, |_| minutes(5.0));
    let look = bake
        .state()
        .forecast(retard, now)
        .expect("it stands there")
        .look;
    say(
        &mut bake,
        Intent::Hear(check_of(retard)),
        look + minutes(2.0),
    );
    let (from, to) = (look + minutes(15.0), look + minutes(400.0));
    let wishes = Wishes {
        away: vec![(from, to)],
        ..Wishes::default()
    };
    say(
        &mut bake,
        Intent::Wish(Box::new(wishes)),
        look + minutes(3.0),
    );
    let plan = |bake: &Bake, now: Moment, before: Option<&Planned>| {
        let was = before.map(|before| &before.timetable);
        let made = timetable(&[bake.state()], now, was, &mut || true);
        Planned::new(
            std::slice::from_ref(bake),
            made.expect("there is a plan"),
            now,
            before,
        )
    };
    let calls = |bake: &Bake, plan: &Planned, now: Moment| {
        let called = plan.alarms(bake, None, Look::Goes, now);
        called
            .iter()
            .map(|alarm| (alarm.id, alarm.due))
            .collect::<Vec<_>>()
    };
    let mut made = plan(&bake, look + minutes(4.0), None);
    for later in [
        look + minutes(4.0),
        from + minutes(60.0),
        to - minutes(0.5),
        to,
        to + minutes(9.0),
    ] {
        made = plan(&bake, later, Some(&made));
        assert_eq!(
            calls(&bake, &made, later),
            [(AlarmId::Begin, to)],
            "{later:?}"
        );
    }
    let mut heard = bake.clone();
    say(&mut heard, Intent::Hear(AlarmId::Begin), to + minutes(10.0));
    assert_eq!(calls(&heard, &made, to + minutes(10.0)), []);
    say(&mut bake, Intent::Done(retard), to + minutes(10.0));
    made = plan(&bake, to + minutes(10.0), Some(&made));
    assert_eq!(calls(&bake, &made, to + minutes(10.0)), []);
}

const fn check_of(step: StepId) -> AlarmId {
    AlarmId::Check { step, round: 0 }
}

/// Two batches for one table, at eight; who has gathered for the second goes straight on, and presses nothing.
#[test]
fn what_the_bench_shows_since_a_press_is_not_called_for_and_elsewhere_once() {
    let batch = |name: &str| {
        let mut bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, START);
        bake.id = BakeId(name.to_owned());
        let wishes = Wishes {
            table: Some(START + minutes(480.0)),
            ..Wishes::default()
        };
        say(&mut bake, Intent::Wish(Box::new(wishes)), START);
        bake
    };
    let planned = |bakes: &[Bake], now: Moment, before: Option<&Planned>| {
        let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
        let was = before.map(|before| &before.timetable);
        let made = timetable(&states, now, was, &mut || true).expect("there is a plan");
        Planned::new(bakes, made, now, before)
    };
    for (shown, most) in [(true, 0), (false, 1)] {
        let mut bakes = vec![batch("one"), batch("two")];
        let plan = planned(&bakes, START, None);
        let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
        let item = plan.timetable.plan.hands_at(&states, START);
        let (first, gather) = item.and_then(|item| item.what.of()).expect("hands work");
        let mut now = START + minutes(11.0);
        say(&mut bakes[first], Intent::Done(gather), now);
        let mut plan = planned(&bakes, now, Some(&plan));
        let mut calls = 0;
        for _ in 0..28 {
            now = now + minutes(0.5);
            let look = if shown { Look::Goes } else { Look::Went(None) };
            let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
            let mut alarms = plan.alarms(&bakes[first], Some(&states), look, now);
            alarms.retain(|alarm| alarm.id == AlarmId::Begin && alarm.due <= now);
            if !alarms.is_empty() {
                calls += 1;
                say(&mut bakes[first], Intent::Hear(AlarmId::Begin), now);
            }
            plan = planned(&bakes, now, Some(&plan));
        }
        assert!(calls <= most, "{calls} calls, shown: {shown}");
    }
}

#[test]
fn what_was_held_or_calls_again_tells_the_moment_that_every_page_tells() {
    let mut bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, START);
    let (rise, now) = up_to(&mut bake, StepKind::Bulk, START, |_| minutes(5.0));
    let running = domain::schedule::running(bake.state(), now);
    let of = running.iter().find(|of| of.step == rise);
    let of = of.expect("it rises");
    let (look, fold) = (of.look, of.folds[0]);
    let of_kind = |kind: AlarmKind, due: Moment| Alarm {
        id: check_of(rise),
        due,
        kind,
        step: Some(rise),
    };
    let later = look + minutes(14.0);
    assert_eq!(of_kind(AlarmKind::Check, later).since(&running), look);
    assert_eq!(of_kind(AlarmKind::Fold, later).since(&running), fold);
    assert_eq!(of_kind(AlarmKind::Begin, later).since(&running), later);
    assert_eq!(of_kind(AlarmKind::Check, later).since(&[]), later);
}
