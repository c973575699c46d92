//! A beginning that is too late.

use domain::bake::Wishes;
use domain::schedule::plan::Nearest;
use domain::units::minutes;

use super::super::asked::{at_table, hours, wish};
use super::super::{NINE, TABLES, begun};
use super::{check, found, soonest};

#[test]
fn who_begins_too_late_is_told_the_latest_beginning() {
    let mut bakes = begun(TABLES[0]);
    let length = soonest(&bakes) - NINE;
    let table = NINE + hours(10.0);
    let wishes = Wishes {
        not_before: Some(table - length + minutes(40.0)),
        ..at_table(table)
    };
    wish(&mut bakes, &wishes, NINE);
    let conflict = found(&bakes, NINE).expect("it is too late");
    assert_eq!(conflict.claims.len(), 3);
    let begin = conflict.nearest.iter().find_map(|way| match way {
        Nearest::Begin { at, .. } => Some(*at),
        _ => None,
    });
    let latest = table - length;
    let early = latest - begin.expect("an earlier beginning");
    // Rounded to the five minutes before.
    assert!(early >= minutes(0.0) && early < minutes(5.0), "{early:?}");
    check(&bakes, &conflict, NINE).expect("it holds");
}
