//! How much still hangs on a step: the longest chain from its start to the table.
//!
//! `tail(s) = length(s) + max over followers f of (least lag + tail(f))`,
//! with likely lengths in the kitchen as it is now.

use crate::bake::State;
use crate::formula::StepId;
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
    // A formula has no circles. Every follower comes before what it follows.
    let order = formula.in_order().unwrap_or_default();
    for step in order.into_iter().rev() {
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
