//! Work that the hands are at, and how much of it is left.

use super::marks::marks_of;
use super::progress::Status;
use super::state::State;
use crate::formula::StepId;
use crate::units::{Minutes, Moment, minutes};

/// Work that the baker turned to and is in the middle of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AtWork {
    /// The step.
    pub step: StepId,
    /// Since when.
    pub since: Moment,
    /// How much of it is likely left.
    pub left: Minutes,
}

impl State {
    /// The work that the baker turned to, if it is hands' work and hasn't ended.
    ///
    /// It takes as long as it likely does, from when the baker turned to it; where lines of it are marked, what they
    /// leave of it from the newest mark. A baker who is away gets nothing done.
    #[must_use]
    pub fn at_work(&self, now: Moment) -> Option<AtWork> {
        let step = self.formula.step(self.picked?)?;
        if !step.is_hands() || !self.is_open(step.id) {
            return None;
        }
        let takes = self.likely_length(step, now, None);
        let marks = marks_of(self, step.id);
        let set = &self.progress(step.id).marks;
        let left = marks.iter().filter(|mark| !set.contains(mark)).count();
        let (takes, from) = match self.marked_at {
            Some(at) => (takes * (left as f64 / marks.len().max(1) as f64), at),
            None => (takes, self.picked_since),
        };
        let until = match self.status {
            Status::Paused { since } => since,
            _ => now,
        };
        let over = (until - from).max(minutes(0.0));
        // In a joined log it can have been turned to before it opened.
        let opened = self.progress(step.id).open_since?;
        Some(AtWork {
            step: step.id,
            since: self.picked_since.max(opened),
            left: (takes - over).max(minutes(0.0)),
        })
    }
}
