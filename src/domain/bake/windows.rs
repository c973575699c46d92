//! The windows of what goes on, reckoned once for each state.
//!
//! A window follows from what has happened and not from the present, and takes by far the longest of a forecast to
//! reckon. One look at a bake asks for the same few windows a dozen times.

use std::sync::{Arc, OnceLock};

use super::state::State;
use crate::estimate::Estimate;
use crate::formula::StepId;
use crate::sorted::Map;
use crate::units::Moment;

/// The windows of a state's running steps, once somebody has asked. Copies of the state share them.
#[derive(Debug, Clone, Default)]
pub(super) struct Windows(Arc<OnceLock<Map<StepId, Estimate<Moment>>>>);

/// They follow from the rest of the state.
impl PartialEq for Windows {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl State {
    /// When a step that goes on by itself and has started and not ended should end.
    pub(super) fn window_of(&self, step: StepId) -> Option<Estimate<Moment>> {
        let windows = self.windows.0.get_or_init(|| {
            let steps = self.formula.steps.iter();
            let running = steps.filter_map(|step| {
                let start = self.running_since(step)?;
                let going = self.going(step, start, None);
                Some((step.id, self.window(step, &going, start)))
            });
            running.collect()
        });
        windows.get(&step).cloned()
    }

    /// What was reckoned for the state as it was counts no more.
    pub(super) fn forget_windows(&mut self) {
        self.windows = Windows::default();
    }
}
