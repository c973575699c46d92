//! More or less yeast.

use domain::bake::Bake;
use domain::formula::StepKind;
use domain::schedule::plan::Lever;
use domain::units::{Moment, minutes};

use super::super::asked::{at_table, hours, planned, wish};
use super::super::{NINE, TABLES, begun};
use super::{THREE, done, end, rising, tomorrow, ways};

fn begins(bakes: &[Bake], now: Moment) -> Option<Moment> {
    planned(bakes, now).expect("there is a plan").begins[0]
}

#[test]
fn more_yeast_makes_a_table_that_is_too_soon_and_no_more_of_it_than_does() {
    let mut bakes = begun(TABLES[1]);
    let usual = end(&bakes, NINE);
    for (sooner, least, most) in [(20.0, 1.0, 1.3), (60.0, 1.3, 2.1)] {
        wish(&mut bakes, &at_table(usual - minutes(sooner)), NINE);
        let found = ways(&bakes, NINE);
        let way = found
            .iter()
            .find(|way| matches!(way.lever, Lever::Yeast { .. }));
        let way = way.expect("it is looked for");
        let Lever::Yeast { times, .. } = way.lever else {
            panic!("just found")
        };
        assert!(times > least && times < most, "{sooner}: {times}");
        assert!(way.amiss() < minutes(1.0));
        let after = done(&bakes, way, NINE);
        assert_eq!(end(&after, NINE), way.table.likely());
        assert_eq!(begins(&after, NINE), way.begin);
        let yeast = |bake: &Bake| bake.state().formula.fresh_yeast().get();
        assert!(yeast(&after[0]) > yeast(&bakes[0]));
    }
    // Once something was begun it is in the dough.
    let (mut bakes, now) = rising(1, StepKind::Bulk);
    wish(
        &mut bakes,
        &at_table(end(&begun(TABLES[1]), NINE) - hours(1.0)),
        now,
    );
    let found = ways(&bakes, now);
    assert!(
        found
            .iter()
            .all(|way| !matches!(way.lever, Lever::Yeast { .. }))
    );
}

#[test]
fn a_bake_that_is_kept_back_begins_with_other_yeast_when_it_was_said() {
    let mut other = 0;
    for ids in &TABLES[..2] {
        for hour in [9.0, 11.0, 13.0] {
            let mut bakes = begun(ids);
            wish(&mut bakes, &tomorrow(hour), THREE);
            let was = begins(&bakes, THREE);
            for way in ways(&bakes, THREE) {
                if !matches!(way.lever, Lever::Yeast { .. }) {
                    continue;
                }
                let is = begins(&done(&bakes, &way, THREE), THREE);
                assert_eq!(is, way.begin, "{ids:?}, {hour}");
                other += usize::from(is != was);
            }
        }
    }
    assert!(other > 0);
}

/// Each way taken is the start of the next: the dose is bounded by what the bake was started with.
#[test]
fn yeast_offered_again_and_again_stays_within_what_is_known_of_it() {
    let mut bakes = begun(TABLES[1]);
    let own = bakes[0].state().formula.fresh_yeast();
    let mut taken = 0;
    wish(&mut bakes, &at_table(NINE + hours(3.0)), NINE);
    for _ in 0..6 {
        let found = ways(&bakes, NINE);
        let mut yeast = found
            .iter()
            .filter(|way| matches!(way.lever, Lever::Yeast { .. }));
        let Some(way) = yeast.next() else { break };
        bakes = done(&bakes, way, NINE);
        taken += 1;
    }
    let times = bakes[0].state().formula.fresh_yeast() / own;
    assert!(taken > 0 && times <= 2.5 * 1.001, "{taken} times: {times}");
}
