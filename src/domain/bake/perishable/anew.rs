//! What is lost before it is in the bread, and can be made once more.

use super::State;
use crate::formula::StepId;
use crate::units::Moment;

impl State {
    /// What is lost and isn't in the bread yet: the first step by which it is made anew, and whether a step brings it in.
    #[must_use]
    pub fn to_make_anew(&self, now: Moment, at: Option<StepId>) -> Option<(StepId, bool)> {
        let all = self.stood(now);
        let lost = all
            .iter()
            .find(|stood| stood.is_lost(now) && !stood.is_in)?;
        let own = self.formula.steps.iter();
        let mut own = own.filter(|step| lost.component == Some(step.component));
        let first = own.next()?;
        let comes_in = own.any(|step| at == Some(step.id) && step.brings_perishable());
        self.progress(first.id).ended.map(|_| (first.id, comes_in))
    }
}
