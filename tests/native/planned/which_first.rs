//! Whose end comes first where not all can come when they are wished.

use domain::bake::State;
use domain::schedule::plan::{Bounds, Goal, plan};
use domain::units::minutes;

use super::{NINE, begun, bounds, planned};

const BREADS: [[&str; 2]; 4] = [
    ["orange-braid", "orange-braid"],
    ["plum-almond-buns", "plum-almond-buns"],
    ["plum-almond-buns", "orange-braid"],
    ["overnight-tin-loaf", "overnight-tin-loaf"],
];

/// The table that is sooner is kept whichever bread was begun first, and what is for none gives way to both.
#[test]
fn of_two_tables_that_are_too_close_the_sooner_one_is_kept() {
    let mut gave_way = 0;
    for ids in BREADS {
        for second in [0, 1] {
            let mut bakes = begun(&ids);
            if second == 0 {
                bakes.swap(0, 1);
            }
            let alone = |bake: usize| {
                let found = planned(&bakes[bake..=bake], Goal::Soonest, &[], None);
                found.end.likely()
            };
            let (first, table) = (alone(0), alone(1));
            // As soon as the other one can be by itself, if that is later.
            let later = first.max(table) + minutes(1.0);
            for other in [Some(later), None] {
                let states: Vec<&State> = bakes.iter().map(domain::bake::Bake::state).collect();
                let bounds = Bounds {
                    ready_by: &[other, Some(table)],
                    ..bounds(Goal::Soonest, &[])
                };
                let found = plan(&states, bounds, NINE, None, &mut || true);
                let found = found.expect("there is a plan");
                let ready = |bake| found.of(bake).expect("planned").table.likely();
                assert!(ready(1) <= table, "{ids:?}, {other:?}: {:?}", ready(1));
                gave_way += usize::from(ready(0) > later);
            }
        }
    }
    assert!(gave_way > 4, "{gave_way} had to give way");
}
