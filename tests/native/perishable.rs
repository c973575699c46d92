//! What spoils and how long it has stood out, by the two-hour rule.
//!
//! Source of the two hours, and of the one above 90 °F: USDA FSIS, "danger
//! zone". That time out adds up and that the oven begins it anew is common
//! practice, no source. Cooling is the FDA Food Code's (§ 3-501.14), in its own checks.

use checks::{begin, say, starter};
use domain::bake::{
    Alarm, AlarmKind, Bake, Intent, Kept, PERISHABLE_LIMIT, PERISHABLE_LIMIT_HOT, Standing, alarms,
};
use domain::formula::{
    Caution, ComponentId, Draft, Formula, Length, Link, Needs, StepId, StepKind,
};
use domain::kitchen::{Kitchen, Place};
use domain::schedule::{bears_way_back, outline};
use domain::thermal::vessel::Cooling;
use domain::units::{Moment, celsius, minutes};

const NINE: Moment = Moment::from_epoch_ms(1_700_000_000_000);

// The buns' steps that matter here.
const CHILL: StepId = StepId(4);
const INTO_FRIDGE: StepId = StepId(5);
const FILL: StepId = StepId(15);
const COOL: StepId = StepId(22);
const SERVE: StepId = StepId(25);
/// How long filling likely takes, by the formula.
const FILLING: f64 = 14.0;

fn after(minutes_past_nine: f64) -> Moment {
    NINE + minutes(minutes_past_nine)
}

struct Day {
    bake: Bake,
}

impl Day {
    /// The buns, changed.
    fn of(change: impl FnOnce(&mut Draft)) -> Self {
        Self::in_kitchen(Kitchen::UNMEASURED, change)
    }

    fn in_kitchen(kitchen: Kitchen, change: impl FnOnce(&mut Draft)) -> Self {
        let mut draft = starter("plum-almond-buns").into_draft();
        change(&mut draft);
        let formula = Formula::new(draft).expect("its parts still fit together");
        let bake = begin(formula, kitchen, NINE);
        Self { bake }
    }

    fn say(&mut self, intent: Intent, at: f64) {
        say(&mut self.bake, intent, after(at));
    }

    fn done(&mut self, steps: impl IntoIterator<Item = u16>, at: f64) {
        for step in steps {
            self.say(Intent::Done(StepId(step)), at);
        }
    }

    /// What stands out, with since when, in min past nine. A press takes a millisecond.
    fn standing(&self) -> Vec<(StepId, f64)> {
        let standing = self.bake.state().standing().into_iter();
        standing
            .map(|Standing { step, since }| (step, ((since - NINE).get() * 10.0).round() / 10.0))
            .collect()
    }
}

fn step(draft: &mut Draft, id: StepId) -> &mut domain::formula::Step {
    let mut steps = draft.steps.iter_mut();
    steps.find(|step| step.id == id).expect("the buns have it")
}

fn link(step: StepId) -> Link {
    Link {
        step,
        least: minutes(0.0),
        greatest: None,
    }
}

#[test]
fn time_out_of_the_fridge_adds_up_until_the_oven_and_begins_anew_after_it() {
    let mut day = Day::of(|_| {});
    day.done([1, 2, 3], 10.0);
    assert_eq!(day.standing(), []);
    // A quarter of an hour on the bench before somebody put it away.
    day.done([4], 60.0);
    assert_eq!(day.standing(), [(CHILL, 60.0)]);
    day.done([5], 75.0);
    assert_eq!(day.standing(), []);
    day.done([6, 7, 8, 26, 9, 10, 11, 12, 13, 14], 180.0);
    assert_eq!(day.standing(), []);
    day.done([15], 200.0);
    assert_eq!(day.standing(), [(FILL, 200.0 - FILLING - 15.0)]);
    day.done([16, 17, 18, 19], 270.0);
    assert_eq!(day.standing(), [(FILL, 200.0 - FILLING - 15.0)]);
    day.done([20], 275.0);
    assert_eq!(day.standing(), []);
    day.done([21], 295.0);
    assert_eq!(day.standing(), [(SERVE, 295.0)]);
    day.done([27, 22, 23, 24], 350.0);
    assert_eq!(day.standing(), [(SERVE, 295.0)]);
    day.done([25], 352.0);
    assert_eq!(day.standing(), []);
}

/// The warning comes a quarter of an hour before the two hours are over. An orderly bake hears none,
/// and in an ordinary kitchen it leaves ten minutes more for slow hands.
#[test]
fn an_orderly_bake_keeps_well_within_the_two_hours() {
    for (air, most) in [(20.0, 105.0), (22.0, 95.0), (25.0, 95.0)] {
        let mut day = Day::of(|_| {});
        day.say(Intent::KitchenIs(celsius(air)), 1.0);
        let plan = outline(day.bake.state(), after(1.0));
        let planned = |step: StepId| {
            let mut steps = plan.steps.iter();
            steps.find(|planned| planned.step == step)
        };
        let fill = planned(FILL).expect("the buns are filled");
        let baked = planned(StepId(21)).expect("the buns are baked");
        let stands = baked.start - fill.start + minutes(1.0);
        assert!(stands <= minutes(most), "{air} °C: {stands:?}");
    }
}

#[test]
fn what_cooled_in_the_fridge_is_still_in_it() {
    let mut day = Day::of(|draft| {
        if let Length::Chill { cooling, .. } = &mut step(draft, CHILL).length {
            *cooling = Cooling::Fridge;
        }
    });
    day.done([1, 2, 3, 4], 300.0);
    assert_eq!(day.standing(), []);
}

#[test]
fn a_way_into_the_fridge_that_was_skipped_proves_nothing() {
    let mut day = Day::of(|_| {});
    day.done([1, 2, 3, 4], 60.0);
    day.say(Intent::Skip(INTO_FRIDGE), 61.0);
    assert_eq!(day.standing(), [(CHILL, 60.0)]);
    let warned = alarms(day.bake.state(), after(61.0));
    let mut warned = warned.iter();
    let alarm = warned.find(|alarm| alarm.kind == AlarmKind::Perishable);
    let due = alarm.expect("it stands out").due;
    // Told a quarter of an hour before its two hours are over.
    assert!((due - after(60.0 + 120.0 - 15.0)).get().abs() < 0.01);
}

/// Left out, its cooling shows neither how cold it got nor that it ever stood in the fridge.
#[test]
fn a_cream_whose_cooling_was_left_out_stands_out_from_its_beginning() {
    for cooling in [Cooling::Fridge, Cooling::IceBath, Cooling::Kitchen] {
        let mut day = Day::of(|draft| {
            if let Length::Chill { cooling: of, .. } = &mut step(draft, CHILL).length {
                *of = cooling;
            }
        });
        day.done([1, 2, 3], 10.0);
        assert_eq!(day.standing(), [], "{cooling:?}");
        day.say(Intent::Skip(CHILL), 40.0);
        assert_eq!(day.standing(), [(CHILL, 10.0)], "{cooling:?}");
        // Who puts it away then says so, and what it stood before adds up.
        day.done([5], 50.0);
        assert_eq!(day.standing(), [], "{cooling:?}");
    }
}

/// Has the buns spend a night in the fridge where they proof.
fn overnight(draft: &mut Draft) {
    step(draft, StepId(16)).kind = StepKind::Retard;
    for id in [17, 19] {
        step(draft, StepId(id)).ahead_of = None;
    }
}

#[test]
fn a_night_in_the_fridge_that_was_left_out_proves_nothing() {
    let mut day = Day::of(overnight);
    day.done([1, 2, 3, 4, 5], 60.0);
    day.done([6, 7, 8, 26, 9, 10, 11, 12, 13, 14], 180.0);
    day.done([15], 190.0);
    assert_eq!(day.standing(), []);
    day.say(Intent::Skip(StepId(16)), 250.0);
    // Filled in the shortest time: it has been out since then.
    assert_eq!(day.standing(), [(FILL, 180.0)]);
}

/// A bread that nobody put on the table or away still stands there, with the same two hours.
#[test]
fn a_serving_that_was_left_out_ends_nothing() {
    let mut day = Day::of(|_| {});
    day.done((1..=8).chain([26]).chain(9..=20), 200.0);
    day.done([21, 27, 22, 23, 24], 220.0);
    let before = alarms(day.bake.state(), after(220.0));
    day.say(Intent::Skip(SERVE), 221.0);
    assert!(day.bake.state().all_ended());
    assert_eq!(day.standing(), [(SERVE, 220.0)]);
    assert_eq!(day.bake.state().perishable_limit(), PERISHABLE_LIMIT);
    let left = alarms(day.bake.state(), after(221.0));
    let perishable = |alarms: &[Alarm]| {
        let mut found = alarms
            .iter()
            .filter(|alarm| alarm.kind == AlarmKind::Perishable);
        found.next().expect("it stands out").due
    };
    assert_eq!(perishable(&left), perishable(&before));
    // In heat the shorter limit holds, also for what was left out.
    day.say(Intent::KitchenIs(celsius(34.0)), 230.0);
    assert_eq!(day.bake.state().perishable_limit(), PERISHABLE_LIMIT_HOT);
}

#[test]
fn a_cream_that_is_filled_in_after_the_bake_counts_from_then() {
    let mut day = Day::of(|draft| {
        for (id, after) in [(16, 14), (17, 14)] {
            step(draft, StepId(id)).after = vec![link(StepId(after))];
        }
        step(draft, FILL).after = vec![link(COOL), link(INTO_FRIDGE)];
        step(draft, StepId(24)).after.push(link(FILL));
    });
    day.done([1, 2, 3, 4], 60.0);
    day.done([5], 60.0);
    day.done(
        [
            6, 7, 8, 26, 9, 10, 11, 12, 13, 14, 16, 17, 18, 19, 20, 21, 27,
        ],
        200.0,
    );
    // Bread without anything in it.
    assert_eq!(day.standing(), []);
    day.done([22], 240.0);
    day.done([15], 270.0);
    assert_eq!(day.standing(), [(SERVE, 270.0 - FILLING)]);
    day.done([23, 24, 25], 300.0);
    assert_eq!(day.standing(), []);
}

#[test]
fn a_filled_dough_in_the_fridge_stands_still_in_time() {
    let mut day = Day::of(|draft| {
        overnight(draft);
        step(draft, StepId(16)).needs = Needs {
            fridge: true,
            ..Needs::default()
        };
    });
    day.done([1, 2, 3, 4, 5], 60.0);
    day.done([6, 7, 8, 26, 9, 10, 11, 12, 13, 14], 180.0);
    // Filled in the shortest time, and into the fridge at once.
    day.done([15], 190.0);
    assert_eq!(day.standing(), []);
    day.done([16], 700.0);
    // Ten minutes before the night, and since it came out.
    assert_eq!(day.standing(), [(StepId(16), 690.0)]);
}

#[test]
fn where_only_the_serving_says_so_it_was_in_the_dough_from_the_start() {
    let mut day = Day::of(|draft| {
        for step in &mut draft.steps {
            if step.id != SERVE {
                step.cautions
                    .retain(|&caution| caution != Caution::Perishable);
            }
        }
    });
    day.done((1..=8).chain([26]).chain(9..=20), 200.0);
    assert_eq!(day.standing(), []);
    day.done([21], 220.0);
    assert_eq!(day.standing(), [(SERVE, 220.0)]);
}

/// 8 °C is the most that chilled food may be held at (UK law); a fridge at 8 °C holds it, and a warmer one doesn't.
#[test]
fn a_warm_fridge_is_none() {
    for (fridge, cold) in [(8.0, true), (8.5, false)] {
        let kitchen = Kitchen {
            fridge: celsius(fridge),
            ..Kitchen::UNMEASURED
        };
        let mut day = Day::in_kitchen(kitchen, |_| {});
        day.done([1, 2, 3, 4], 60.0);
        day.done([5], 75.0);
        let out = if cold { vec![] } else { vec![(CHILL, 60.0)] };
        assert_eq!(day.standing(), out, "{fridge} °C");
        day.done([6, 7, 8, 26, 9, 10, 11, 12, 13, 14], 100.0);
        day.done([15], 114.0);
        day.say(Intent::Move(StepId(16), Place::Fridge), 120.0);
        assert_eq!(day.standing().is_empty(), cold, "{fridge} °C");
    }
    // What was too warm when it came out was so all along, and what is found later changes nothing.
    let mut day = Day::of(|_| {});
    day.done([1, 2, 3, 4], 60.0);
    day.done([5], 60.0);
    let mut kitchen = day.bake.state().kitchen;
    kitchen.fridge = celsius(12.0);
    day.say(Intent::KitchenChanged(Box::new(kitchen)), 70.0);
    assert_eq!(day.standing(), [(CHILL, 60.0)]);
    kitchen.fridge = celsius(4.0);
    day.say(Intent::KitchenChanged(Box::new(kitchen)), 80.0);
    assert_eq!(day.standing(), []);
}

/// A rise that was put into the fridge is forecast to come out after a day, and counts as out from then on.
#[test]
fn a_rise_that_nobody_takes_out_of_the_fridge_is_out_after_a_day() {
    let mut day = Day::of(|_| {});
    day.done((1..=8).chain([26]).chain(9..=14), 180.0);
    day.done([15], 194.0);
    day.say(Intent::Move(StepId(16), Place::Fridge), 204.0);
    let state = day.bake.state();
    let out = after(204.0 + 24.0 * 60.0);
    assert_eq!(state.standing_at(out - minutes(1.0)), []);
    let [standing] = state.standing_at(out + minutes(1.0))[..] else {
        panic!("it stands out");
    };
    // From before the fridge: filled for 14 min, and 10 min of the rise.
    assert!((out - standing.since - minutes(24.0)).get().abs() < 0.01);
    let calls = alarms(state, out + minutes(1.0));
    let call = calls.iter().find(|call| call.kind == AlarmKind::Perishable);
    let due = call.expect("it calls").due;
    assert!((due - out - minutes(120.0 - 24.0 - 15.0)).get().abs() < 0.01);
}

/// Out of the fridge after a day it takes longer than its filling may stand in a kitchen of 21 °C.
#[test]
fn a_filling_does_not_bear_every_way_back() {
    let bears = |day: &Day, rise: StepId, now: f64| {
        let forecast = day.bake.state().forecast(rise, after(now));
        let forecast = forecast.expect("it rises");
        assert!(forecast.out_by.is_some(), "{forecast:?}");
        bears_way_back(day.bake.state(), &forecast)
    };
    for (air, allows) in [(21.0, false), (30.0, true)] {
        let kitchen = Kitchen {
            air: celsius(air),
            fridge: celsius(2.0),
            ..Kitchen::UNMEASURED
        };
        let mut day = Day::in_kitchen(kitchen, |_| {});
        day.done((1..=8).chain([26]).chain(9..=14), 180.0);
        day.done([15], 190.0);
        day.say(Intent::Move(StepId(16), Place::Fridge), 192.0);
        let forecast = day.bake.state().forecast(StepId(16), after(193.0));
        assert_eq!(
            bears(&day, StepId(16), 193.0),
            allows,
            "{air} °C: {forecast:?}"
        );
    }
    // Before it is filled nothing limits it.
    let kitchen = Kitchen {
        fridge: celsius(2.0),
        ..Kitchen::UNMEASURED
    };
    let mut day = Day::in_kitchen(kitchen, |_| {});
    day.done((1..=8).chain([26]), 60.0);
    day.say(Intent::Move(StepId(9), Place::Fridge), 61.0);
    assert!(bears(&day, StepId(9), 62.0));
}

/// The days are those of USDA FSIS, cold storage data FMA-Data-v12167, products 22, 24, 201 and 205.
#[test]
fn what_is_put_away_keeps_as_many_days_as_are_published() {
    let kept = |day: &Day, id: StepId| {
        let state = day.bake.state();
        state.kept_after(state.formula.step(id).expect("a step of the buns"))
    };
    let day = Day::of(|_| {});
    assert_eq!(kept(&day, INTO_FRIDGE), Some(Kept::CookedEgg));
    assert_eq!(kept(&day, SERVE), Some(Kept::Filled));
    assert_eq!(kept(&day, FILL), None);
    let raw = Day::of(|draft| {
        let cooked = draft
            .steps
            .iter_mut()
            .filter(|step| step.component == ComponentId(2));
        for step in cooked {
            if step.kind == StepKind::Cook {
                step.kind = StepKind::Prepare;
            }
        }
    });
    assert_eq!(kept(&raw, INTO_FRIDGE), Some(Kept::RawEgg));
    for (kept, days) in [
        (Kept::RawEgg, (2, 4)),
        (Kept::CookedEgg, (3, 4)),
        (Kept::CookedMilk, (3, 4)),
        (Kept::Filled, (2, 3)),
    ] {
        assert_eq!(kept.days(), days);
    }
}
