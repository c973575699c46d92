//! How long the steps of a bake take, which hangs a little on when they start.
//!
//! A rise takes as long as its dough is warm, and the dough has followed the kitchen since it left
//! the bench; so lengths are reckoned for the times that are planned, and planned times follow from
//! the lengths. They are looked for in turns, from those of the bake's own
//! [outline](crate::schedule::outline), in which one pair of hands does what presses most.

use crate::bake::State;
use crate::formula::StepId;
use crate::schedule::outline::{Planned, outline, warming_since};
use crate::sorted::Map;
use crate::units::{Minutes, Moment};

/// When a step is planned, how long it takes, and how far its end may be off.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Length {
    pub start: Moment,
    pub end: Moment,
    /// Earlier and later.
    pub slack: (Minutes, Minutes),
    /// Its folds that are still to come.
    pub folds: Vec<Moment>,
    /// Since when its dough follows the kitchen, if it was reckoned for these times.
    since: Option<Option<Moment>>,
}

/// By step, of all that is left of a bake.
pub(super) type Lengths = Map<StepId, Length>;

/// Those of a bake's own outline.
pub(super) fn outlined(state: &State, now: Moment) -> Lengths {
    let steps = outline(state, now).steps.into_iter();
    let length = |planned: Planned| {
        let length = Length {
            start: planned.start,
            end: planned.end,
            slack: planned.slack,
            folds: folds(state, planned.step, planned.start, now),
            since: None,
        };
        (planned.step, length)
    };
    steps.map(length).collect()
}

/// Those for other starts, of what hasn't begun yet and goes on by itself.
pub(super) fn redone(
    state: &State,
    before: &Lengths,
    start_of: &dyn Fn(StepId) -> Option<Moment>,
    now: Moment,
) -> Lengths {
    let planned = |step: StepId| {
        let length = before.get(&step)?;
        let start = start_of(step)?;
        Some(Planned {
            step,
            start,
            end: start + (length.end - length.start),
            slack: length.slack,
            waited_for: None,
            too_late_by: None,
        })
    };
    let redo = |(&id, length): (&StepId, &Length)| {
        let again = || {
            let step = state.formula.step(id)?;
            let start = start_of(id)?;
            let begun = state.progress(id).open_since.is_some();
            if step.is_hands() || begun {
                return None;
            }
            let warming_since = warming_since(state, step, &planned);
            if start == length.start && length.since == Some(warming_since) {
                return None;
            }
            let takes = state.length_if_warming_since(step, start, warming_since);
            Some(Length {
                start,
                end: start + takes.likely(),
                slack: (takes.likely() - takes.low(), takes.high() - takes.likely()),
                folds: folds(state, id, start, now),
                since: Some(warming_since),
            })
        };
        (id, again().unwrap_or_else(|| length.clone()))
    };
    before.iter().map(redo).collect()
}

/// The folds of a step that are still to come, if it starts at a moment.
fn folds(state: &State, step: StepId, start: Moment, now: Moment) -> Vec<Moment> {
    let forecast = state.forecast(step, now).or_else(|| {
        let step = state.formula.step(step)?;
        (!step.is_hands()).then(|| state.forecast_if_started(step, start))
    });
    let mut folds = forecast.map_or_else(Vec::new, |forecast| forecast.folds);
    if let Some((since, until)) = state.supposed_away(step, start) {
        folds.retain(|&fold| fold < since || fold >= until);
        // Somebody has to take it out, which is as much work as a fold.
        folds.push(until);
    }
    folds
}
