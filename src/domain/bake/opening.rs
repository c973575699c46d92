//! Which steps are open: a step opens when all it follows has ended, and closes
//! again when the baker goes back to something before it.

use super::state::State;
use crate::formula::{Step, StepId};
use crate::units::Moment;

impl State {
    /// Going back keeps when the step started, so that what has been proofed
    /// stays proofed; what had opened because of its end closes again, and when
    /// it opens next it starts anew, with its folds before it. Marks stay: they
    /// tell what was done by hand.
    pub(super) fn reopen(&mut self, step: StepId) {
        let Some(progress) = self.steps.get_mut(&step) else {
            return;
        };
        progress.ended = None;
        progress.oven_was = None;
        loop {
            let mut closed_any = false;
            let closing: Vec<StepId> = self
                .formula
                .steps
                .iter()
                .filter(|step| self.is_open(step.id) && self.opening_of(step).is_none())
                .map(|step| step.id)
                .collect();
            for id in closing {
                if let Some(progress) = self.steps.get_mut(&id) {
                    progress.open_since = None;
                    progress.first_mark = None;
                    progress.folds.clear();
                    progress.fold_later = None;
                    progress.look_again = None;
                    closed_any = true;
                }
            }
            if !closed_any {
                break;
            }
        }
    }

    /// Opens every step whose links are now met.
    pub(super) fn open_steps(&mut self) {
        let opening: Vec<(StepId, Moment)> = self
            .formula
            .steps
            .iter()
            .filter(|step| self.progress(step.id).open_since.is_none())
            .filter_map(|step| Some((step.id, self.opening_of(step)?)))
            .collect();
        for (id, at) in opening {
            if let Some(progress) = self.steps.get_mut(&id) {
                progress.open_since = Some(at);
            }
        }
    }

    /// When everything that a step follows had ended long enough ago, if it all has.
    fn opening_of(&self, step: &Step) -> Option<Moment> {
        let mut opens = self.started;
        for link in &step.after {
            let ended = self.progress(link.step).ended?;
            opens = opens.max(ended.at + link.least);
        }
        Some(opens)
    }
}
