//! What becomes of the temperatures inside a body when its film changes, as on the way into water.
//!
//! The inside doesn't jump, but it is a sum of other modes from then on. Projected on them, with
//! the weight of the volume, the reading of mode j behind the change is
//!
//! `y_j = (T2 - T1) sum_i(m_i y_i / (τ_j - τ_i))`
//!
//! with y measured from the surroundings, in K; m_i the weight of mode i in the mean and τ_i its
//! lag, both before the change; τ_j a lag behind it; T1 and T2 `ρ c (V/A) / h` before and behind,
//! all in min. It follows from Green's identity for two eigenfunctions of one body under
//! `-k dT/dn = h T` with different h: `∫ φ ψ (1/τ_φ - 1/τ_ψ) ρ c = (h1 - h2) ∮ φ ψ`, where for a slab, a
//! long cylinder and a ball the surface has one value.
//!
//! What the sum loses for want of fast modes is given to all alike, so that the mean carries over exactly.
//! A body with two directions would need the product of two sums, and its faces are
//! rarely cooled alike in both films: it starts anew with one temperature throughout. Where only the
//! mean is asked for, as of a dough in its tin, that is the mean, and heat is kept; a filling starts as hot as its
//! middle was, which has up to a tenth too much heat, on the slow side. A body of one
//! temperature simply keeps it.

use super::course::Film;

/// The readings of the modes in the new film, measured like the old ones.
pub(super) fn carried(gaps: &[f64], from: &Film, to: &Film) -> Vec<f64> {
    let sum = |weight: fn(&super::Mode) -> f64| -> f64 {
        let read = std::iter::zip(&from.modes, gaps).map(|(mode, gap)| weight(mode) * gap);
        read.sum()
    };
    let mean = sum(|mode| mode.mean);
    if !to.one_axis && !to.mean_only {
        return vec![sum(|mode| mode.core); to.modes.len()];
    }
    if !to.one_axis || to.modes.len() == 1 || from.modes.len() == 1 {
        return vec![mean; to.modes.len()];
    }
    let apart = to.lumped - from.lumped;
    let mut projected: Vec<f64> = to
        .modes
        .iter()
        .map(|new| {
            let read = std::iter::zip(&from.modes, gaps)
                .map(|(old, gap)| old.mean * gap / (new.time_constant - old.time_constant).get());
            apart * read.sum::<f64>()
        })
        .collect();
    let kept: f64 = std::iter::zip(&to.modes, &projected)
        .map(|(mode, gap)| mode.mean * gap)
        .sum();
    for gap in &mut projected {
        *gap += mean - kept;
    }
    projected
}
