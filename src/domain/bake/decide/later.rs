//! "Not yet": what is asked about is put off.

use super::open;
use crate::bake::event::Event;
use crate::bake::intent::Refusal;
use crate::bake::measured::delay;
use crate::bake::state::State;
use crate::formula::{Length, StepId};
use crate::units::{Minutes, Moment, minutes};

/// A step is looked at so much later.
pub(super) fn not_yet(
    state: &State,
    step: StepId,
    by: Minutes,
    now: Moment,
) -> Result<Event, Refusal> {
    let step = open(state, step)?;
    let look = |now| Some(state.forecast(step, now)?.look);
    let by = delay(by)? + still_to_come(state, now, look);
    Ok(Event::Extended { step, by })
}

/// A dough is folded so much later.
pub(super) fn fold_not_yet(
    state: &State,
    step: StepId,
    by: Minutes,
    now: Moment,
) -> Result<Event, Refusal> {
    let step = to_fold(state, step)?;
    let fold = |now| state.forecast(step, now)?.folds.first().copied();
    let by = delay(by)? + still_to_come(state, now, fold);
    Ok(Event::FoldPutOff { step, by })
}

/// A step whose dough still has a fold to come.
pub(super) fn to_fold(state: &State, step: StepId) -> Result<StepId, Refusal> {
    let step = open(state, step)?;
    let length = state.formula.step(step).map(|step| &step.length);
    let dealt_with = state.progress(step).folds.len();
    match length {
        Some(Length::Ferment { folds, .. }) if folds.len() > dealt_with => Ok(step),
        _ => Err(Refusal::Unknown),
    }
}

/// How long it is from an entry's own moment until what is due then, which is what "so much longer"
/// is added to.
fn still_to_come(
    state: &State,
    now: Moment,
    due: impl FnOnce(Moment) -> Option<Moment>,
) -> Minutes {
    // Later than now, should the clock have been set back.
    let now = now.max(state.newest);
    due(now).map_or(minutes(0.0), |due| (due - now).max(minutes(0.0)))
}
