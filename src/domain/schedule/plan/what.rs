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
    /// What there is of a retard that is planned of a rise of a bake.
    Retard(usize, StepId, RetardPart),
    /// What a step of a bake leaves in the fridge stands there until the next one fetches it.
    Kept(usize, StepId),
}

/// What there is of a retard that is no step: its dough has to be put in and taken out, and has room there meanwhile.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RetardPart {
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
            Self::Step(bake, step)
            | Self::Fold(bake, step, _)
            | Self::Retard(bake, step, _)
            | Self::Kept(bake, step) => Some((bake, step)),
            Self::Away => None,
        }
    }

    /// The same of another bake.
    #[must_use]
    pub fn at(self, bake: usize) -> Self {
        match self {
            Self::Step(_, step) => Self::Step(bake, step),
            Self::Fold(_, step, nth) => Self::Fold(bake, step, nth),
            Self::Retard(_, step, part) => Self::Retard(bake, step, part),
            Self::Kept(_, step) => Self::Kept(bake, step),
            Self::Away => Self::Away,
        }
    }

    /// Whether it takes the hands in the midst of a rise.
    #[must_use]
    pub fn is_in_passing(self) -> bool {
        matches!(
            self,
            Self::Fold(..) | Self::Retard(_, _, RetardPart::In | RetardPart::Out)
        )
    }
}
