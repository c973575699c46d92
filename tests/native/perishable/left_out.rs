//! A step that was left out proves nothing.

use domain::bake::{Alarm, AlarmKind, Intent, PERISHABLE_LIMIT, PERISHABLE_LIMIT_HOT, alarms};
use domain::formula::{Draft, Length, StepId, StepKind};
use domain::thermal::vessel::Cooling;
use domain::units::celsius;

use super::{CHILL, Day, FILL, INTO_FRIDGE, SERVE, after, step};

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
pub(super) fn overnight(draft: &mut Draft) {
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
