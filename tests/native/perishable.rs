//! What spoils and how long it has stood out, by the two-hour rule.
//!
//! Source of the two hours, and of the one above 90 °F: USDA FSIS, "danger
//! zone". That time out adds up and that the oven begins it anew is common
//! practice, no source. Cooling is the FDA Food Code's (§ 3-501.14), in its own checks.

mod anew;
mod keeps;
mod left_out;
mod stood;

use checks::{begin, say, starter};
use domain::bake::{AlarmKind, Bake, Intent, Standing, alarms, next_mark};
use domain::formula::{Caution, Draft, Formula, Length, Link, Needs, StepId};
use domain::kitchen::{Kitchen, Place};
use domain::schedule::outline;
use domain::thermal::vessel::Cooling;
use domain::units::{Moment, celsius, minutes};

use self::left_out::overnight;

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

/// The bowl is out from the first bun on, however long the last one takes: the two hours (USDA FSIS) are of the food, not
/// of what a step is likely to take. Whoever only opened the step and went away has marked nothing.
#[test]
fn a_slow_filler_has_the_filling_out_since_the_first_bun() {
    let mut day = Day::of(|_| {});
    day.done([1, 2, 3], 10.0);
    day.done([4, 5], 60.0);
    day.done([6, 7, 8, 26, 9, 10, 11, 12, 13, 14], 180.0);
    let first = next_mark(day.bake.state(), FILL).expect("each bun is marked");
    day.say(Intent::Mark(FILL, first, true), 182.0);
    assert_eq!(
        day.standing(),
        [(FILL, 182.0)],
        "while the others are filled"
    );
    day.say(Intent::Mark(FILL, first, false), 183.0);
    assert_eq!(day.standing(), [], "a slip");
    day.say(Intent::Mark(FILL, first, true), 184.0);
    day.done([15], 212.0);
    assert_eq!(day.standing(), [(FILL, 184.0)]);
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
