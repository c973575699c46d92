//! What the Bench asks for by a plan: the plan orders what free hands could do, and nothing else.

use domain::formula::{StepId, StepKind};
use domain::schedule::plan::Goal;
use domain::schedule::{Ask, focus, focus_by, offers};
use proptest::prelude::*;

use super::days::{Day, any_day};
use super::redone::days;
use super::{TABLES, begun, planned};

proptest! {
    #![proptest_config(days(40))]

    #[test]
    fn only_free_work_is_put_in_order(drawn in any_day(), seed in any::<u16>(), late in 0.0..30.0_f64) {
        let Some(mut day) = Day::planned(&drawn) else { return Ok(()) };
        for &slip in &drawn.slips {
            let now = day.now + domain::units::Minutes::clamped(late);
            for (place, bake) in day.bakes.iter().enumerate() {
                let state = bake.state();
                let usual = focus(state, now);
                let mut any: Vec<StepId> = state.formula.steps.iter().map(|step| step.id).collect();
                any.sort_by_key(|step| step.0.wrapping_mul(seed | 1) % 97);
                let planned = day.timetable.plan.order_of(place);
                for order in [&any, &planned, &Vec::new()] {
                    let asked = focus_by(state, now, order);
                    let offered = offers(state, now);
                    let is_free = matches!(usual, Ask::Work(step) if state.picked != Some(step)
                        && state.formula.step(step).is_some_and(|step| step.kind != StepKind::OvenOn));
                    if !is_free || order.is_empty() {
                        prop_assert_eq!(asked, usual);
                        continue;
                    }
                    let first = order.iter().find(|step| offered.contains(step)).copied();
                    prop_assert_eq!(asked, Ask::Work(first.expect("every step is in the order")));
                }
            }
            if day.go_on(slip).is_none() { break }
            day.timetable = day.again(day.now);
        }
    }
}

/// Of three breads there are six orders in one oven, and all of them are tried.
#[test]
fn that_an_oven_is_heated_as_here_is_said_only_where_not_every_order_was_tried() {
    for ids in TABLES {
        let plan = planned(&begun(ids), Goal::Soonest, &[], None);
        assert!(!plan.as_heated, "{ids:?}");
    }
    let four = [TABLES[5], TABLES[0]].concat();
    let plan = planned(&begun(&four), Goal::Soonest, &[], None);
    assert!(plan.as_heated);
}
