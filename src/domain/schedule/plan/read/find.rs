//! What is looked up in a plan.

use crate::bake::State;
use crate::formula::StepId;
use crate::schedule::plan::{Item, Plan, What};
use crate::units::Moment;

impl Plan {
    /// When something is planned.
    #[must_use]
    pub fn item(&self, what: What) -> Option<&Item> {
        self.items.iter().find(|item| item.what == what)
    }

    /// With which step a bake begins, of what is left of it, and when.
    #[must_use]
    pub fn first_of(&self, bake: usize) -> Option<(StepId, Moment)> {
        self.items.iter().find_map(|item| match item.what {
            What::Step(of, step) if of == bake => Some((step, item.start)),
            _ => None,
        })
    }

    /// With which step a bake begins of what of it can wait, and when.
    #[must_use]
    pub fn begin_of(&self, bake: usize, state: &State) -> Option<(StepId, Moment)> {
        let held = state.held_back();
        self.items.iter().find_map(|item| match item.what {
            What::Step(of, step) if of == bake && held.contains(&step) => Some((step, item.start)),
            _ => None,
        })
    }
}
