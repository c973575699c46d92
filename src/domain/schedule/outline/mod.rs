//! The rest of a bake, step by step, with the moment it should be on the table.

mod forward;
mod hands;

use crate::sorted;
use std::cell::OnceCell;

use self::forward::Forward;
use crate::bake::State;
use crate::estimate::Estimate;
use crate::formula::{Length, Step, StepId, StepKind};
use crate::sorted::Map;
use crate::units::{Minutes, Moment};

/// A step that is still to end, with its likely times.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Planned {
    /// The step.
    pub step: StepId,
    /// When it starts, or started.
    pub start: Moment,
    /// When it ends.
    pub end: Moment,
    /// How far its end may be off for its own reasons: earlier and later.
    pub slack: (Minutes, Minutes),
    /// What its start waited for: another step, or nothing but now.
    pub waited_for: Option<StepId>,
    /// How much longer it will wait than its links allow; only for what hasn't begun by now.
    pub too_late_by: Option<Minutes>,
}

/// The rest of a bake.
#[derive(Debug, Clone, PartialEq)]
pub struct Outline {
    /// Every step that has not ended, by start.
    pub steps: Vec<Planned>,
    /// When the last one ends.
    pub table: Estimate<Moment>,
}

/// The rest of a bake, if nothing unusual happens from now on.
///
/// The window of the end combines, in quadrature, the windows of the steps on
/// the chain that it hangs on: they are taken as independent of each other. Of days drawn with one kitchen
/// each 4 to 8 % end before it and 11 to 17 % after it, and 60 to 70 % after the likely moment: not for the kitchen,
/// which by itself moves an end by 2 percentage points at most, but because most steps can take much longer than likely
/// and only a little less long, which adds up.
#[must_use]
pub fn outline(state: &State, now: Moment) -> Outline {
    forwards(state, now, true)
}

/// The same without the windows of what hasn't begun, in a fraction of the time: for a question
/// about likely moments only. Those are the same, to the millisecond.
#[must_use]
pub fn likely_outline(state: &State, now: Moment) -> Outline {
    forwards(state, now, false)
}

fn forwards(state: &State, now: Moment, windows: bool) -> Outline {
    let mut forward = Forward {
        state: state.as_it_stands(now),
        now,
        windows,
        tails: OnceCell::new(),
        hands_free: now,
        last_work: None,
        planned: Map::new(),
    };
    forward.run();
    let table = forward.table();
    let mut steps: Vec<Planned> = forward
        .planned
        .into_iter()
        .map(|(_, value)| value)
        .collect();
    sorted::by_key(&mut steps, |planned| (planned.start, planned.end));
    Outline { steps, table }
}

/// When the dough of a step is planned to begin to follow the kitchen: as its
/// first rise begins, or as it comes out of the fridge.
pub(super) fn warming_since(
    state: &State,
    step: &Step,
    planned_at: &dyn Fn(StepId) -> Option<Planned>,
) -> Option<Moment> {
    let from_fridge = matches!(
        step.length,
        Length::Ferment {
            from_fridge: true,
            ..
        }
    );
    let steps = state.formula.steps.iter();
    let planned = steps
        .filter(|other| other.component == step.component)
        .filter_map(|other| Some((other, planned_at(other.id)?)));
    if from_fridge {
        let out = planned.filter(|(other, _)| other.kind == StepKind::Retard);
        return out.map(|(_, planned)| planned.end).max();
    }
    if let Some((put, stays)) = state.supposed_out(step) {
        return planned_at(put).map(|planned| planned.start + stays);
    }
    let rises = planned.filter(|(other, _)| matches!(other.length, Length::Ferment { .. }));
    rises.map(|(_, planned)| planned.start).min()
}

/// How far the end of a step that goes on by itself may be off: earlier, but no earlier than it is planned to come out of the
/// fridge, and later. When a night in the fridge ends is chosen, and so no doubt: what it makes of the dough is one of the
/// rise that follows.
pub(super) fn off(
    state: &State,
    step: StepId,
    (start, end): (Moment, Moment),
    window: &Estimate<Moment>,
) -> (Minutes, Minutes) {
    let none = Minutes::clamped(0.0);
    let known = state.formula.step(step);
    if known.is_some_and(|step| step.kind == StepKind::Retard) {
        return (none, none);
    }
    let out = state.stay_or_supposed(step, start).map(|stay| stay.to);
    let out = out.filter(|&out| out <= end);
    let low = out.map_or(window.low(), |out| window.low().max(out));
    ((end - low).max(none), (window.high() - end).max(none))
}
