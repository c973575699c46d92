//! Where patience ends before a proof, nothing is said to be proven: neither an end nor what waits.

use domain::bake::{Bake, State};
use domain::schedule::plan::{Bounds, Goal, Plan, Proven, plan};
use domain::units::{Moment, minutes};

use super::{NINE, TABLES, begun, bounds, planned};

/// The plan of some breads by a search that is ended after so many questions, and how many it asked.
fn planned_within(bakes: &[Bake], bounds: Bounds, patience: usize) -> (Option<Plan>, usize) {
    let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
    let mut asked = 0;
    let mut go_on = || {
        asked += 1;
        asked <= patience
    };
    let found = plan(&states, bounds, NINE, None, &mut go_on);
    (found, asked)
}

#[test]
fn what_waits_is_the_least_only_where_there_was_time_to_prove_it() {
    let mut ended_between = 0;
    for ids in &TABLES[3..] {
        let bakes = begun(ids);
        // Backwards it is only found out when something begins, and nothing is said of what waits.
        let late = Goal::By(NINE + minutes(36.0 * 60.0));
        let late = planned_within(&bakes, bounds(late, &[]), usize::MAX).0;
        assert_eq!(late.expect("there is a plan").proven, Proven::Soonest);
        let soonest = || bounds(Goal::Soonest, &[]);
        let (whole, asked) = planned_within(&bakes, soonest(), usize::MAX);
        let whole = whole.expect("there is a plan");
        assert!(
            whole.proven == Proven::Soonest && whole.waits_least,
            "{ids:?}"
        );
        for patience in (0..asked).step_by((asked / 40).max(1)) {
            let Some(found) = planned_within(&bakes, soonest(), patience).0 else {
                continue;
            };
            // The end is proven, and what waits isn't: the second search was the one that ended.
            let is_between = found.proven == Proven::Soonest && !found.waits_least;
            ended_between += usize::from(is_between);
        }
    }
    assert!(ended_between > 0, "no search was ended in its second half");
}

/// Tables of several breads that can't all be kept are looked for one under the deadlines of the other: an end is proven
/// only where those were too.
#[test]
fn an_end_under_deadlines_that_were_not_proven_is_not_proven_either() {
    let mut short = 0;
    for ids in TABLES.iter().filter(|ids| ids.len() > 1) {
        let bakes = begun(ids);
        let alone = |bake: &Bake| planned(std::slice::from_ref(bake), Goal::Soonest, &[], None);
        let soonest: Vec<Moment> = bakes.iter().map(|bake| alone(bake).end.likely()).collect();
        for spare in [0.0, 5.0, 20.0, 60.0] {
            let ready_by: Vec<_> = soonest
                .iter()
                .map(|&at| Some(at + minutes(spare)))
                .collect();
            let bounds = Bounds {
                ready_by: &ready_by,
                ..bounds(Goal::Soonest, &[])
            };
            let late = |plan: &Plan| -> Vec<i64> {
                let ready = (0..bakes.len()).map(|bake| plan.of(bake).map(|of| of.table.likely()));
                let both = ready.zip(&ready_by);
                both.map(|(ready, by)| {
                    let over = ready.expect("planned") - by.expect("wished");
                    over.get().max(0.0).round() as i64
                })
                .collect()
            };
            let (whole, asked) = planned_within(&bakes, bounds, usize::MAX);
            let whole = whole.expect("there is a plan");
            assert_eq!(whole.proven, Proven::Soonest);
            for patience in (0..asked).step_by((asked / 60).max(1)) {
                let Some(found) = planned_within(&bakes, bounds, patience).0 else {
                    continue;
                };
                match found.proven {
                    Proven::Soonest => {
                        assert_eq!(late(&found), late(&whole), "{ids:?}, {spare}, {patience}");
                    }
                    Proven::Short(_) => short += 1,
                }
            }
        }
    }
    assert!(short > 0, "no search was ended");
}
