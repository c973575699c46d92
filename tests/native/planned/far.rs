//! Wishes that no baker could have asked for, as a log from elsewhere may hold.

use domain::bake::{Bake, BakeId, Entry, Event, Wishes};
use domain::formula::StepId;
use domain::units::{Moment, minutes};
use proptest::prelude::*;

use super::asked::planned;
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
    prop_oneof![wished, pinned]
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

    let backwards = Event::Wished(Box::new(Wishes {
        away: vec![(near, NINE)],
        ..Wishes::default()
    }));
    let bake = with(&[(NINE, table(near)), (NINE, backwards)]);
    assert_eq!(bake.state().wishes.table, Some(near));
    assert_eq!(bake.state().wishes.away, []);
}
