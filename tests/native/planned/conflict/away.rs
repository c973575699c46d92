//! Nobody here when hands are needed.

use domain::bake::Wishes;
use domain::schedule::plan::{Claim, Nearest};
use domain::units::minutes;

use super::super::asked::{at_table, hours, wish};
use super::super::{NINE, TABLES, begun};
use super::{check, found, soonest};

#[test]
fn who_is_away_when_the_bread_needs_hands_may_be_so_for_less_time() {
    let mut bakes = begun(TABLES[0]);
    let table = soonest(&bakes) + minutes(5.0);
    // The first rise ends some two and a half hours after the beginning.
    let away = (NINE + hours(2.0), NINE + hours(4.0));
    let wishes = Wishes {
        away: vec![away, (NINE - hours(3.0), NINE - hours(1.0))],
        ..at_table(table)
    };
    wish(&mut bakes, &wishes, NINE);
    let conflict = found(&bakes, NINE).expect("nobody divides the dough");
    let claims = [
        Claim::Bake(0),
        Claim::Away(away.0, away.1),
        Claim::Table(table),
    ];
    assert_eq!(conflict.claims, claims);
    let [
        Nearest::Table { at: later, .. },
        Nearest::Back { at: back, .. },
        Nearest::Leave { at: leave, .. },
    ] = conflict.nearest[..]
    else {
        panic!("{:?}", conflict.nearest);
    };
    assert!(later > table);
    assert!(away.0 < back && back < away.1);
    assert!(away.0 < leave && leave < away.1);
    check(&bakes, &conflict, NINE).expect("it holds");
}
