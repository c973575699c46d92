//! What is planned.

use crate::formula::StepId;

/// What is planned. Bakes are told by their place among those that are planned together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum What {
    /// A step of a bake.
    Step(usize, StepId),
    /// A fold in a step of a bake, of those still to come the first, the second and so on.
    Fold(usize, StepId, usize),
    /// Nobody is in the kitchen.
    Away,
    /// A rise of a bake that isn't done in the fridge, and its time there.
    Cold(usize, StepId, Cold),
}

/// What there is of a time in the fridge that is no step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cold {
    /// The dough is put in.
    In,
    /// It stands there.
    Stands,
    /// It is taken out.
    Out,
}

impl What {
    /// The bake that it is of, and the step.
    #[must_use]
    pub fn of(self) -> Option<(usize, StepId)> {
        match self {
            Self::Step(bake, step) | Self::Fold(bake, step, _) | Self::Cold(bake, step, _) => {
                Some((bake, step))
            }
            Self::Away => None,
        }
    }

    /// The same of another bake.
    #[must_use]
    pub fn at(self, bake: usize) -> Self {
        match self {
            Self::Step(_, step) => Self::Step(bake, step),
            Self::Fold(_, step, nth) => Self::Fold(bake, step, nth),
            Self::Cold(_, step, cold) => Self::Cold(bake, step, cold),
            Self::Away => Self::Away,
        }
    }

    /// Whether it takes the hands in the midst of a rise.
    #[must_use]
    pub fn is_in_passing(self) -> bool {
        matches!(
            self,
            Self::Fold(..) | Self::Cold(_, _, Cold::In | Cold::Out)
        )
    }
}
