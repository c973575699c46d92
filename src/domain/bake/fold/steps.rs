//! What is said of a step that is open: its marks, its folds, its end, and who turns to it.

use crate::bake::event::Mark;
use crate::bake::progress::{Ended, How, Progress};
use crate::bake::state::State;
use crate::formula::StepId;
use crate::units::{Celsius, Moment};

impl State {
    fn open_step(&mut self, step: StepId) -> Option<&mut Progress> {
        let progress = self.steps.get_mut(&step)?;
        (progress.open_since.is_some() && progress.ended.is_none()).then_some(progress)
    }

    pub(super) fn end(&mut self, step: StepId, at: Moment, how: How) {
        let Some(progress) = self.open_step(step) else {
            return;
        };
        progress.ended = Some(Ended { at, how });
        self.retards.remove(&step);
        self.turn_away(step);
        self.open_steps();
    }

    pub(super) fn fold_ended(&mut self, step: StepId, at: Moment, how: How) {
        if let Some(progress) = self.open_step(step) {
            progress.folds.push(Ended { at, how });
            progress.fold_later = None;
            // Who turned to the dough did so for this.
            self.turn_away(step);
        }
    }

    pub(super) fn mark(&mut self, step: StepId, mark: Mark, on: bool, at: Moment) {
        let Some(progress) = self.open_step(step) else {
            return;
        };
        if on {
            progress.marks.insert(mark);
            progress.first_mark = progress.first_mark.or(Some(at));
            // Whoever marks is in the middle of it, and it isn't taken from under the hands.
            self.turn_to(step, at);
            self.marked_at = Some(at);
        } else {
            progress.marks.remove(&mark);
            progress.first_mark = progress.first_mark.filter(|_| !progress.marks.is_empty());
        }
    }

    /// "Not yet": fold later.
    pub(super) fn put_fold_off(&mut self, step: StepId, to: Moment) {
        if let Some(progress) = self.open_step(step) {
            progress.fold_later = Some(to);
            self.turn_away(step);
        }
    }

    /// "Not yet": look again later.
    pub(super) fn look_again(&mut self, step: StepId, at: Moment) {
        if let Some(progress) = self.open_step(step) {
            progress.look_again = Some(at);
            progress.rounds = progress.rounds.saturating_add(1);
            self.turn_away(step);
        }
    }

    pub(super) fn oven_found_hot(&mut self, step: StepId, oven: Celsius) {
        if let Some(progress) = self.open_step(step) {
            progress.oven_was = Some(oven);
        }
    }

    /// Whoever marks one line after the other has been at it since the first.
    pub(super) fn turn_to(&mut self, step: StepId, at: Moment) {
        if self.picked != Some(step) {
            self.picked = Some(step);
            self.picked_since = at;
            self.marked_at = None;
        }
    }

    /// Other work is offered from now on.
    fn turn_away(&mut self, step: StepId) {
        self.picked = self.picked.filter(|&picked| picked != step);
    }
}
