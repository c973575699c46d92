//! What is looked up in a plan.

use super::{Item, Plan, What};
use crate::formula::StepId;
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
}
