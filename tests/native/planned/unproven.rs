//! Where patience ends before a proof, nothing is said to be proven: neither the end nor what waits.

use domain::bake::{Bake, State};
use domain::schedule::plan::{Goal, Plan, Proven, plan};
use domain::units::minutes;

use super::{NINE, TABLES, begun, bounds};

/// The plan of some breads by a search that is ended after so many questions, and how many it asked.
fn planned_within(bakes: &[Bake], goal: Goal, patience: usize) -> (Option<Plan>, usize) {
    let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
    let mut asked = 0;
    let mut go_on = || {
        asked += 1;
        asked <= patience
    };
    let found = plan(&states, bounds(goal, &[]), NINE, None, &mut go_on);
    (found, asked)
}

#[test]
fn what_waits_is_the_least_only_where_there_was_time_to_prove_it() {
    let mut ended_between = 0;
    for ids in &TABLES[3..] {
        let bakes = begun(ids);
        for goal in [Goal::Soonest, Goal::By(NINE + minutes(36.0 * 60.0))] {
            let (whole, asked) = planned_within(&bakes, goal, usize::MAX);
            let whole = whole.expect("there is a plan");
            assert!(
                whole.proven == Proven::Soonest && whole.waits_least,
                "{ids:?}"
            );
            for patience in 0..asked.min(40) {
                let Some(found) = planned_within(&bakes, goal, patience).0 else {
                    continue;
                };
                // The end is proven, and what waits isn't: the second search was the one that ended.
                let is_between = found.proven == Proven::Soonest && !found.waits_least;
                ended_between += usize::from(is_between);
            }
        }
    }
    assert!(ended_between > 0, "no search was ended in its second half");
}
