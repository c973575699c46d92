//! Of two breads under way, the Bench asks where the plan has the hands.

use checks::{begin, say, starter};
use domain::bake::{AlarmId, Intent, Wishes};
use domain::formula::StepKind;
use domain::kitchen::Kitchen;
use domain::schedule::plan::timetable;

use super::*;
use crate::state::plan::Look;

pub(super) const START: Moment = Moment::from_epoch_ms(1_789_894_800_000);

pub(super) fn two() -> Vec<Bake> {
    let bakes = ["plum-almond-buns", "orange-braid"].map(|formula| {
        let mut bake = begin(starter(formula), Kitchen::UNMEASURED, START);
        bake.id = BakeId(formula.to_owned());
        bake
    });
    bakes.to_vec()
}

pub(super) fn planned(bakes: &[Bake], now: Moment, before: Option<&Planned>) -> Planned {
    let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
    let was = before.map(|before| &before.timetable);
    let timetable = timetable(&states, now, was, &mut || true).expect("there is a plan");
    Planned::new(bakes, timetable, now, before)
}

fn start_of(planned: &Planned, place: usize, step: StepId) -> Moment {
    let item = planned.timetable.plan.item(What::Step(place, step));
    item.expect("it is planned").start
}

fn is_hands(bake: &Bake, step: StepId) -> bool {
    let formula = &bake.state().formula;
    formula.step(step).is_some_and(Step::is_hands)
}

/// Goes through the first hours of two bakes by their plan, and calls for each moment at which work has just ended.
fn go(mut look: impl FnMut(&Planned, &[Bake], &[BakeView])) {
    let mut bakes = two();
    let (mut now, mut plan) = (START, planned(&two(), START, None));
    for _ in 0..20 {
        let shown = by_plan(&views(&bakes, now), Some(&plan));
        look(&plan, &bakes, &shown);
        let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
        let Some(item) = plan.timetable.plan.hands_at(&states, now).copied() else {
            return;
        };
        now = now.max(item.start);
        // What goes on by itself ends as planned.
        for other in &plan.timetable.plan.items {
            if let What::Step(place, step) = other.what
                && other.end <= now
                && bakes[place].state().is_open(step)
                && !is_hands(&bakes[place], step)
            {
                say(&mut bakes[place], Intent::Done(step), now);
            }
        }
        now = now.max(item.end);
        match item.what {
            What::Step(place, step) => say(&mut bakes[place], Intent::Done(step), now),
            What::Fold(place, step, _) => say(&mut bakes[place], Intent::Folded(step), now),
            _ => return,
        }
        // What is due leads there by itself.
        for bake in &mut bakes {
            for due in running(bake.state(), now) {
                if due.look <= now {
                    say(bake, Intent::Done(due.step), now);
                }
            }
        }
        plan = planned(&bakes, now, Some(&plan));
    }
}

#[test]
fn what_is_for_later_rests_while_the_plan_has_the_hands_at_another_bread() {
    let mut rested = 0;
    go(|plan, bakes, shown| {
        let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
        for (place, view) in shown.iter().enumerate() {
            let Some(rests) = view.by_plan.rests else {
                continue;
            };
            assert_eq!(view.ask, Ask::Idle);
            if let Ask::Work(step) = rests {
                rested += 1;
                let until = view.by_plan.waits_until.expect("it says until when");
                assert_eq!(until, start_of(plan, place, step));
                assert!(until - view.at > SOON);
            }
            let (bake, there) = view.by_plan.hands_at.clone().expect("it says where to");
            let item = plan.timetable.plan.hands_at(&states, view.at);
            let (of, step) = item
                .and_then(|item| item.what.of())
                .expect("hands are somewhere");
            assert_eq!((&bakes[of].id, step), (&bake, there));
            assert_ne!(of, place);
            // There it is asked for, so nobody is sent to and fro.
            let ask = shown[of].ask;
            assert_eq!(ask.step(), Some(there));
            assert!(matches!(ask, Ask::Work(_) | Ask::Fold(_)), "{ask:?}");
        }
    });
    assert!(rested > 2, "{rested}");
}

#[test]
fn a_bread_that_rises_leads_to_where_the_hands_are_wanted_and_asks_again_once_they_are_free() {
    let (mut led, mut asked) = (0, 0);
    go(|plan, bakes, shown| {
        let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
        for (place, view) in shown.iter().enumerate() {
            let Ask::Wait(step) = view.own_ask() else {
                continue;
            };
            let item = plan.timetable.plan.hands_at(&states, view.at);
            let is_elsewhere = item.is_some_and(|item| {
                let (of, step) = item.what.of().expect("hands are somewhere");
                of != place && item.start - view.at < AT_ONCE && states[of].is_open(step)
            });
            if is_elsewhere {
                assert_eq!(
                    (view.ask, view.by_plan.rests),
                    (Ask::Idle, Some(Ask::Wait(step)))
                );
                assert!(view.by_plan.hands_at.is_some());
                led += 1;
            } else {
                assert_eq!((view.ask, view.by_plan.rests), (Ask::Wait(step), None));
                asked += 1;
            }
        }
    });
    assert!(led > 1 && asked > 1, "{led}, {asked}");
}

#[test]
fn what_was_begun_is_never_taken_from_under_anybody_s_hands() {
    let mut begun = 0;
    go(|plan, bakes, shown| {
        for (place, view) in shown.iter().enumerate() {
            let Some((rests, step)) = view.by_plan.rests.and_then(|ask| Some((ask, ask.step()?)))
            else {
                continue;
            };
            let mut bakes = bakes.to_vec();
            say(&mut bakes[place], Intent::Pick(step), view.at);
            let again = planned(&bakes, view.at, Some(plan));
            let shown = by_plan(&views(&bakes, view.at), Some(&again));
            assert_eq!(shown[place].ask, rests);
            assert_eq!(shown[place].by_plan.rests, None);
            begun += 1;
        }
    });
    assert!(begun > 2, "{begun}");
}

#[test]
fn what_comes_next_is_the_hands_next_work_at_any_bread() {
    let mut elsewhere = 0;
    go(|plan, _, shown| {
        for view in shown {
            let Some((bake, step, at)) = &view.by_plan.next else {
                continue;
            };
            let place = plan.place(bake).expect("it is planned");
            assert_eq!(*at, start_of(plan, place, *step).max(view.at));
            let asked = view.own_ask().step();
            assert!(*bake != view.bake.id || Some(*step) != asked);
            elsewhere += usize::from(*bake != view.bake.id);
            // Unless it leads elsewhere already, no hands' work comes before it.
            let sooner = plan.timetable.plan.items.iter().filter(|item| {
                let What::Step(of, step) = item.what else {
                    return false;
                };
                let state = shown[of].bake.state();
                let is_hands = state.formula.step(step).is_some_and(Step::is_hands);
                let is_asked = plan.bakes[of] == view.bake.id && Some(step) == asked;
                let is_left = state.progress(step).ended.is_none();
                is_hands && is_left && !is_asked && item.start < *at
            });
            if view.by_plan.hands_at.is_none() {
                assert_eq!(sooner.count(), 0);
            }
        }
    });
    assert!(elsewhere > 2, "{elsewhere}");
}

#[test]
fn each_bread_has_its_own_end_and_it_is_the_plan_s() {
    let mut ends = 0;
    go(|plan, _, shown| {
        for (place, view) in shown.iter().enumerate() {
            let own = plan.timetable.plan.of(place).expect("it is planned");
            assert_eq!(*view.table(), own.table);
            ends += usize::from(own.table.likely() != plan.timetable.plan.end.likely());
        }
    });
    assert!(ends > 2, "{ends}");
}

/// Buns whose oven is to be turned on, beside a braid.
fn oven_wanted(is_baked: bool) -> (Vec<Bake>, Moment, StepId) {
    let (bakes, now) = checks::braid_in_the_oven(is_baked);
    let mut bakes = bakes.to_vec();
    for (bake, id) in bakes.iter_mut().zip(["buns", "braid"]) {
        bake.id = BakeId(id.to_owned());
    }
    let steps = &bakes[0].state().formula.steps;
    let on = steps.iter().find(|step| step.kind == StepKind::OvenOn);
    let on = on.expect("it is turned on").id;
    (bakes, now, on)
}

#[test]
fn while_something_burns_elsewhere_nothing_is_asked_here_that_was_not_begun() {
    let (mut bakes, now, on) = oven_wanted(true);
    let late = now + minutes(20.0);
    let plan = planned(&bakes, late, None);
    let shown = by_plan(&views(&bakes, late), Some(&plan));
    let out = bakes[1].state().to_take_out().expect("it is baked");
    assert_eq!(shown[0].ask, Ask::Idle);
    assert_eq!(shown[0].by_plan.rests, Some(Ask::Work(on)));
    assert_eq!(
        shown[0].by_plan.hands_at,
        Some((BakeId("braid".to_owned()), out))
    );
    assert_eq!(shown[1].ask, Ask::Work(out));
    assert!(shown[1].rank() < shown[0].rank());
    // Who is at it already goes on with it, and is told where hands are wanted.
    say(&mut bakes[0], Intent::Pick(on), late);
    let plan = planned(&bakes, late, Some(&plan));
    let shown = by_plan(&views(&bakes, late), Some(&plan));
    assert_eq!(shown[0].ask, Ask::Work(on));
}

#[test]
fn an_oven_calls_when_the_plan_has_it_and_keeps_to_that_moment() {
    let (mut bakes, now, on) = oven_wanted(false);
    let mut at = now - minutes(20.0);
    // By itself a slow oven would have to be on by now.
    let slow = Kitchen {
        oven_heats_in: minutes(50.0),
        ..Kitchen::UNMEASURED
    };
    for bake in &mut bakes {
        say(bake, Intent::KitchenChanged(Box::new(slow)), at);
    }
    at = at + minutes(1.0);
    let mut plan = planned(&bakes, at, None);
    let due = start_of(&plan, 0, on);
    let own = bakes[0].state().formula.step(on);
    let own = own.and_then(|on| bakes[0].state().oven_on_at(on, at));
    // The braid has the oven for some twenty minutes more.
    assert!(own.is_some_and(|own| due - own > minutes(5.0)));
    assert_eq!(plan.oven_at(&bakes[0]), Some(due));
    // Nobody presses anything, and every plan has it later.
    let (mut last, mut later) = (due, 0);
    while at < due + minutes(20.0) {
        at = at + minutes(1.0);
        plan = planned(&bakes, at, Some(&plan));
        let start = start_of(&plan, 0, on);
        later += usize::from(start > last);
        // What is put off by minutes isn't; what the plan has much later is called for then.
        let is = plan
            .oven_at(&bakes[0])
            .expect("it is still to be turned on");
        assert!(is == last || start - last >= minutes(15.0));
        last = is;
    }
    assert!(later > 5, "{later}");
}

/// Somebody who gathered in the morning is called for the rest, and is at the cream since; it takes longer than planned.
#[test]
fn who_is_at_one_step_is_not_called_to_the_next() {
    let mut buns = two().swap_remove(0);
    let wishes = Wishes {
        table: Some(START + minutes(600.0)),
        ..Wishes::default()
    };
    say(&mut buns, Intent::Wish(Box::new(wishes)), START);
    let step = |bake: &Bake, title: &str| {
        let mut steps = bake.state().formula.steps.iter();
        steps
            .find(|step| step.title == title)
            .expect("it has one")
            .id
    };
    let gather = step(&buns, "Gather");
    say(&mut buns, Intent::Done(gather), START + minutes(1.0));
    let mut bakes = vec![buns];
    let mut now = START + minutes(1.0);
    let mut plan = planned(&bakes, now, None);
    let rings = |plan: &Planned, bakes: &[Bake], now: Moment| {
        let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
        let alarms = plan.alarms(&bakes[0], Some(&states), Look::Goes, now);
        alarms.iter().any(|alarm| alarm.due <= now)
    };
    let cook = step(&bakes[0], "Cook the cream");
    let begins = start_of(&plan, 0, cook);
    assert!(begins - now > minutes(60.0));
    now = begins;
    assert!(rings(&plan, &bakes, now));
    say(&mut bakes[0], Intent::Hear(AlarmId::Begin), now);
    now = now + minutes(5.0);
    say(&mut bakes[0], Intent::Done(cook), now);
    plan = planned(&bakes, now, Some(&plan));
    // Spreading takes four minutes, and is never said to be done.
    for _ in 0..120 {
        now = now + minutes(1.0);
        assert!(
            !rings(&plan, &bakes, now),
            "{:?} after the cream",
            now - begins
        );
        plan = planned(&bakes, now, Some(&plan));
    }
}
