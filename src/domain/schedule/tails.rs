//! How much still hangs on a step: the longest chain from its start to the table.
//!
//! `tail(s) = length(s) + max over followers f of (least lag + tail(f))`,
//! with likely lengths in the kitchen as it is now.

use crate::bake::State;
use crate::formula::{Draft, StepId};
use crate::sorted::Map;
use crate::units::{Minutes, Moment, minutes};

/// The tail of every step that has not ended.
#[must_use]
pub fn tails(state: &State, now: Moment) -> Map<StepId, Minutes> {
    let formula = &state.formula;
    let lengths: Map<StepId, Minutes> = formula
        .steps
        .iter()
        .filter(|step| state.progress(step.id).ended.is_none())
        .map(|step| (step.id, state.likely_length(step, now, None)))
        .collect();
    let mut tails = Map::new();
    for step in in_reverse(formula) {
        let Some(&length) = lengths.get(&step) else {
            continue;
        };
        let followers = formula.steps.iter().flat_map(|follower| {
            let links = follower.after.iter().filter(move |link| link.step == step);
            links.map(move |link| (follower.id, link.least))
        });
        let after = followers
            .filter_map(|(follower, least)| Some(least + *tails.get(&follower)?))
            .fold(minutes(0.0), Minutes::max);
        tails.insert(step, length + after);
    }
    tails
}

/// Steps such that every follower stands before what it follows.
fn in_reverse(formula: &Draft) -> Vec<StepId> {
    let mut order: Vec<StepId> = Vec::with_capacity(formula.steps.len());
    let mut left: Vec<_> = formula.steps.iter().collect();
    while !left.is_empty() {
        let before = left.len();
        left.retain(|step| {
            let ready = step.after.iter().all(|link| order.contains(&link.step));
            if ready {
                order.push(step.id);
            }
            !ready
        });
        if left.len() == before {
            break; // A `Formula` has no circles, so this is never reached with one.
        }
    }
    order.reverse();
    order
}
