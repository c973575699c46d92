//! The parts of a state: how far a step has got, what was read off and what was set.

use super::event::Mark;
use crate::formula::StepId;
use crate::sorted::Set;
use crate::units::{Celsius, Moment};

/// Whether the bake goes on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Status {
    /// It goes on.
    Running,
    /// The baker is away. The dough isn't.
    Paused {
        /// Since when.
        since: Moment,
    },
    /// It is over and went to the notebook.
    Finished {
        /// Since when.
        at: Moment,
    },
    /// It was given up.
    Abandoned {
        /// Since when.
        at: Moment,
    },
}

/// How a step ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum How {
    /// The baker said it was done.
    Done,
    /// The baker left it out.
    Skipped,
}

/// The end of a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ended {
    /// When.
    pub at: Moment,
    /// How.
    pub how: How,
}

/// How far a step has got.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Progress {
    /// When it could start: everything it follows had ended. What goes on by itself started then.
    pub open_since: Option<Moment>,
    /// Its end.
    pub ended: Option<Ended>,
    /// Folds that were made or left out, oldest first.
    pub folds: Vec<Ended>,
    /// The moment before which the next fold isn't asked for, after "not yet".
    pub fold_later: Option<Moment>,
    /// The moment to look again, after "not yet".
    pub look_again: Option<Moment>,
    /// How often "not yet" was said.
    pub rounds: u16,
    /// The marks of its checklist.
    pub marks: Set<Mark>,
    /// When the first of them was set: hands were at it by then.
    pub first_mark: Option<Moment>,
    /// How hot the oven was from another bread as this step turned it on.
    pub oven_was: Option<Celsius>,
}

/// A temperature somebody took.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading<Of> {
    /// When.
    pub at: Moment,
    /// Of what.
    pub of: Of,
    /// How warm it was.
    pub temperature: Celsius,
}

/// Something noted of a step: where its dough was put, or how far it had risen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Noted<What> {
    /// When.
    pub at: Moment,
    /// At which step.
    pub of: StepId,
    /// What.
    pub what: What,
}

/// A timer that the baker set.
#[derive(Debug, Clone, PartialEq)]
pub struct Timer {
    /// What for.
    pub name: String,
    /// When it was set.
    pub set: Moment,
    /// When it rings.
    pub due: Moment,
}

/// Puts a reading where its moment belongs: where two tabs wrote, an older one can stand later in the log.
pub(super) fn take_in<Of>(
    readings: &mut Vec<Reading<Of>>,
    at: Moment,
    of: Of,
    temperature: Celsius,
) {
    let place = readings.partition_point(|before| before.at <= at);
    let reading = Reading {
        at,
        of,
        temperature,
    };
    readings.insert(place, reading);
}

/// The same of what is noted of a step.
pub(super) fn note<What>(all: &mut Vec<Noted<What>>, at: Moment, of: StepId, what: What) {
    let index = all.partition_point(|before| before.at <= at);
    all.insert(index, Noted { at, of, what });
}
