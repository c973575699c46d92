//! Which step something is about, and whether a hand was put to the bake by it.

use super::{AlarmId, Event};
use crate::formula::StepId;

impl Event {
    /// The step that it is about, if it is about one.
    #[must_use]
    pub const fn step(&self) -> Option<StepId> {
        match self {
            Self::Picked { step }
            | Self::Done { step }
            | Self::Skipped { step }
            | Self::Reopened { step }
            | Self::Marked { step, .. }
            | Self::Folded { step }
            | Self::FoldSkipped { step }
            | Self::FoldPutOff { step, .. }
            | Self::Extended { step, .. }
            | Self::CoreMeasured { step, .. }
            | Self::OvenHot { step, .. }
            | Self::Moved { step, .. }
            | Self::Poured { step, .. }
            | Self::RiseSeen { step, .. }
            | Self::Pinned { step, .. }
            | Self::RetardPlanned { step, .. } => Some(*step),
            _ => None,
        }
    }

    /// Whether a hand was put to the bake by it.
    pub(in crate::bake) fn begins(&self) -> bool {
        matches!(
            self,
            Self::Picked { .. }
                | Self::Done { .. }
                | Self::Skipped { .. }
                | Self::Marked { .. }
                | Self::Folded { .. }
                | Self::FoldSkipped { .. }
                | Self::FoldPutOff { .. }
                | Self::Extended { .. }
                | Self::Moved { .. }
                | Self::Poured { .. }
                | Self::DoughMeasured { .. }
                | Self::CoreMeasured { .. }
                | Self::RiseSeen { .. }
                | Self::PieceWeighed { .. }
        )
    }
}

impl AlarmId {
    /// The step that it is about, if it is about one.
    pub(in crate::bake) const fn step(self) -> Option<StepId> {
        match self {
            Self::Check { step, .. }
            | Self::Fold { step, .. }
            | Self::OvenOn { step }
            | Self::CoolingStage { step }
            | Self::CoolingEnd { step }
            | Self::Perishable { step }
            | Self::Fixed { step }
            | Self::Retard { step }
            | Self::Waits { step } => Some(step),
            Self::Timer(_) | Self::Begin => None,
        }
    }
}
