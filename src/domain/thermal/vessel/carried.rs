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
//! A mode of a body with two directions is the product of one along each, and so is its projection:
//! `(T2 - T1) / (τ_j - τ_i)` becomes the product of two such, each with the lags and the T along its own
//! direction, and m_i is the product already. The film changes on all faces alike.
//!
//! What the sum loses for want of fast modes is given to all alike, so that the mean carries over exactly.
//! A body of one temperature simply keeps it.

use super::Mode;
use super::film::Film;

/// What is worth less than this, in K of the mean, has died away and isn't carried.
const GONE_K: f64 = 1e-9;

/// The readings of the modes in the new film, measured like the old ones.
pub(super) fn carried(gaps: &[f64], from: &Film, to: &Film) -> Vec<f64> {
    let read: Vec<(&Mode, f64)> = std::iter::zip(&from.modes, gaps)
        .map(|(mode, gap)| (mode, mode.mean * gap))
        .collect();
    let mean: f64 = read.iter().map(|&(_, part)| part).sum();
    if to.modes.len() == 1 || from.modes.len() == 1 {
        return vec![mean; to.modes.len()];
    }
    let mut projected = vec![0.0; to.modes.len()];
    let mut kept = 0.0;
    for (gap, new) in std::iter::zip(&mut projected, &to.modes) {
        for &(old, part) in &read {
            if part.abs() > GONE_K {
                let along = (to.lumped.0 - from.lumped.0) / (new.first - old.first).get();
                let across = to.lumped.1.zip(from.lumped.1);
                let across = across.map(|(to, from)| (to - from) / (new.second() - old.second()));
                *gap += part * along * across.unwrap_or(1.0);
            }
        }
        kept += new.mean * *gap;
    }
    for gap in &mut projected {
        *gap += mean - kept;
    }
    projected
}
