//! Wishes that no baker could have asked for, as a log from elsewhere may hold.

use domain::bake::{Bake, BakeId, Entry, Event, Intent, Refusal, Wishes, decide};
use domain::formula::{StepId, StepKind};
use domain::units::{Moment, minutes};
use proptest::prelude::*;

use super::asked::planned;
use super::levers::step_of;
use super::{NINE, TABLES, begun};

const DAY_MS: i64 = 24 * 3_600_000;
const YEAR_MS: i64 = 365 * DAY_MS;

/// Mostly what could be meant, now and then days, years or all that a number can hold away.
fn any_moment() -> impl Strategy<Value = Moment> {
    let around = |ms: i64| (-ms..ms).prop_map(|by| NINE.epoch_ms().saturating_add(by));
    let ms = prop_oneof![
        3 => around(DAY_MS),
        1 => around(40 * DAY_MS),
        1 => around(3_000 * YEAR_MS),
        1 => any::<i64>(),
    ];
    ms.prop_map(Moment::from_epoch_ms)
}

fn any_event() -> impl Strategy<Value = Event> {
    let moment = || prop::option::of(any_moment());
    let away = prop::collection::vec((any_moment(), any_moment()), 0..3);
    let wished = (moment(), moment(), away).prop_map(|(table, not_before, away)| {
        Event::Wished(Box::new(Wishes {
            table,
            not_before,
            away,
        }))
    });
    let step = (0_u16..12).prop_map(StepId);
    let pinned = (step, moment()).prop_map(|(step, at)| Event::Pinned { step, at });
    let stay = prop::option::of((any_moment(), any_moment()));
    let step = (0_u16..12).prop_map(StepId);
    let cold = (step, stay).prop_map(|(step, stay)| Event::RetardPlanned { step, stay });
    prop_oneof![wished, pinned, cold]
}

fn with(entries: &[(Moment, Event)]) -> Bake {
    let bake = begun(TABLES[0]).swap_remove(0);
    let mut log = bake.log().to_vec();
    let said = entries.iter().cloned();
    log.extend(said.map(|(at, event)| Entry { at, event }));
    Bake::from_log(BakeId("far".to_owned()), log).expect("it begins with its start")
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn whatever_a_log_wishes_there_is_a_plan(
        entries in prop::collection::vec((any_moment(), any_event()), 1..4),
    ) {
        let bakes = [with(&entries)];
        // Who is away for months leaves no plan, which is no more than is said.
        prop_assume!(bakes[0].state().wishes.away.is_empty());
        prop_assert!(planned(&bakes, NINE).is_some(), "{:?}", bakes[0].state().wishes);
    }
}

#[test]
fn what_is_wished_farther_ahead_than_bread_takes_counts_for_nothing() {
    let far = NINE + minutes(15.0 * 24.0 * 60.0);
    let table = |table| {
        Event::Wished(Box::new(Wishes {
            table: Some(table),
            ..Wishes::default()
        }))
    };
    let near = NINE + minutes(10.0 * 60.0);
    let step = StepId(6);
    let pin = |at| Event::Pinned { step, at: Some(at) };
    let said = [table(near), table(far), pin(near), pin(far)];
    let bake = with(&said.map(|event| (NINE, event)));
    assert_eq!(bake.state().wishes.table, Some(near));
    assert_eq!(bake.state().pins.get(&step), Some(&near));

    let rise = step_of(&bake, StepKind::Bulk);
    let cold = |step, from, to| {
        let stay = Some((from, to));
        Event::RetardPlanned { step, stay }
    };
    let (soon, later) = (near + minutes(60.0), near + minutes(600.0));
    let oven = step_of(&bake, StepKind::Bake);
    let said = [
        cold(rise, soon, later),
        cold(rise, soon, far),
        cold(oven, soon, later),
    ];
    let bake = with(&said.map(|event| (NINE, event)));
    let planned: Vec<_> = bake.state().retards.iter().collect();
    assert_eq!(planned, [(&rise, &(soon, later))]);

    let backwards = Event::Wished(Box::new(Wishes {
        away: vec![(near, NINE)],
        ..Wishes::default()
    }));
    let bake = with(&[(NINE, table(near)), (NINE, backwards)]);
    assert_eq!(bake.state().wishes.table, Some(near));
    assert_eq!(bake.state().wishes.away, []);
}

#[test]
fn more_times_away_than_anybody_enters_are_refused_as_just_that() {
    let bake = begun(TABLES[0]).swap_remove(0);
    let asked = |many: u32| {
        let from = |nth| NINE + minutes(60.0 * f64::from(nth));
        let away = (0..many).map(|nth| (from(nth), from(nth) + minutes(10.0)));
        let wishes = Wishes {
            away: away.collect(),
            ..Wishes::default()
        };
        decide(&bake, Intent::Wish(Box::new(wishes)), NINE)
    };
    assert!(asked(40).is_ok());
    assert_eq!(asked(41), Err(Refusal::TooManyAway));
}
