//! How a window moved, and what moved it.

use super::Proof;
use crate::units::Minutes;

/// How a window moved, and why.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shift {
    /// Likely end after the change minus likely end before it.
    pub by: Minutes,
    /// What moved it.
    pub cause: ShiftCause,
}

/// What moved a window.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ShiftCause {
    /// What is around the dough has another temperature.
    Kitchen,
    /// The dough itself has another temperature than was reckoned with.
    DoughTemperature,
    /// Both, and each alone would be noticed.
    Both,
    /// Nothing that would be noticed.
    None,
}

/// A shift below half a minute isn't seen on a clock that shows minutes.
const NOTICEABLE: f64 = 0.5;

/// What a change did to a proof.
#[must_use]
pub fn explain(before: &Proof, after: &Proof) -> Shift {
    let likely = |proof: &Proof| proof.moment_when(proof.range.likely());
    let by = likely(after) - likely(before);
    let noticed = |by: Minutes| by.get().abs() >= NOTICEABLE;

    let surroundings_alone = Proof {
        surroundings: after.surroundings.clone(),
        ..before.clone()
    };
    let by_kitchen = likely(&surroundings_alone) - likely(before);
    let by_dough = likely(after) - likely(&surroundings_alone);
    let cause = match (noticed(by_kitchen), noticed(by_dough)) {
        (true, true) => ShiftCause::Both,
        (true, false) => ShiftCause::Kitchen,
        (false, true) => ShiftCause::DoughTemperature,
        (false, false) => ShiftCause::None,
    };
    Shift { by, cause }
}
