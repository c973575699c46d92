//! What the eye says of a rise: "it had doubled at 15:10".
//!
//! The formula's minutes are for its own yeast and flour, and its range says how far others may be
//! off. Whoever sees at a moment that the dough has come a share s of its way,
//! when by the temperatures it has had m reference minutes, has measured that the
//! whole way takes about `m / s` of them. Belief and sight are weighed by their squared spreads, as
//! logarithms: `w = v_b / (v_b + v_s)`, `ln W' = ln W + w ln(m / (s W))`, `v' = v_b v_s / (v_b + v_s)`.
//!
//! - W, W': reference minutes of the whole way, before and after
//! - v_b: the squared distance of the range's percentiles from W, as logarithms
//! - v_s: the same of what was seen, `(0.15 / s)²`
//!
//! The sum of normal beliefs is Bayes' rule. Half of what a range leaves open belongs to the yeast
//! and flour of the day, and so to every rise of the same dough; the other half
//! to how each rise is judged. So a later rise follows half of the shift, and keeps
//! `1 - (1 - v'/v_b) / 4` of its own squared spread.
//!
//! ASSUMPTION, all judgement: that an eye is off by 0.15 of the whole rise one time in ten to
//! either side; that the volume grows evenly with the reference minutes, which is too
//! fast in the first quarter and too slow in the last (Romano et al., J. Food Eng. 83 (2007) 142, find a Gompertz
//! curve); and the two halves.

use super::Proof;
use crate::estimate::Estimate;
use crate::units::{Minutes, Moment, Share};

/// ASSUMPTION: one time in ten an eye takes the dough to be further than it is by this share of
/// the whole rise, and one in ten less far.
const EYE: f64 = 0.15;
/// A sight that is more times off than this is a slip of the finger rather than a pace, as a logarithm.
const MOST_LN: f64 = 1.1;

/// What was found of a dough's pace on the day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Found {
    /// How much longer than the formula likely says, as a logarithm.
    ln_longer: f64,
    /// What is left of the squared spread.
    left: f64,
}

impl Found {
    /// From the range of a rise before and after somebody looked.
    #[must_use]
    pub fn between(before: &Estimate<Minutes>, after: &Estimate<Minutes>) -> Self {
        let squared = |range: &Estimate<Minutes>| {
            let (low, high) = widths(range);
            (low + high).powi(2)
        };
        Self {
            ln_longer: (minutes_of(after) / minutes_of(before)).ln(),
            left: squared(after) / squared(before).max(1e-12),
        }
    }

    /// The range of a later rise of the same dough.
    #[must_use]
    pub fn for_later(&self, range: &Estimate<Minutes>) -> Estimate<Minutes> {
        let kept = 1.0 - (1.0 - self.left) / 4.0;
        changed(range, 0.5 * self.ln_longer, kept.sqrt())
    }
}

impl Proof {
    /// The same proof after someone saw that it had come so far.
    ///
    /// It goes on from there: what is uncertain of the time before no longer matters.
    #[must_use]
    pub fn seen(&self, at: Moment, share: Share) -> Self {
        let had = self.reference_minutes_at(at);
        if had.get() <= 0.0 || share.get() <= 0.0 {
            return self.clone();
        }
        let (low, high) = widths(&self.range);
        let believed = (0.5 * (low + high)).powi(2);
        let seen = (EYE / share.get()).powi(2);
        let weight = believed / (believed + seen);
        let ln_seen = (had.get() / share.get() / minutes_of(&self.range)).ln();
        let dough = self.dough_at(at);
        let (less, more) = (
            self.dough.likely() - self.dough.low(),
            self.dough.high() - self.dough.likely(),
        );
        Self {
            range: changed(
                &self.range,
                weight * ln_seen.clamp(-MOST_LN, MOST_LN),
                (1.0 - weight).sqrt(),
            ),
            start: at,
            dough: Estimate::new(dough - less, dough, dough + more, self.dough.basis()),
            had,
            ..self.clone()
        }
    }
}

fn minutes_of(range: &Estimate<Minutes>) -> f64 {
    range.likely().get().max(1e-3)
}

/// The distances of the percentiles from the likely value, as logarithms.
fn widths(range: &Estimate<Minutes>) -> (f64, f64) {
    let likely = minutes_of(range);
    (
        (likely / range.low().get().max(1e-3)).ln().max(0.0),
        (range.high().get() / likely).ln().max(0.0),
    )
}

/// A range that is longer by a logarithm, its distances multiplied.
fn changed(range: &Estimate<Minutes>, ln_longer: f64, width: f64) -> Estimate<Minutes> {
    let (low, high) = widths(range);
    let likely = minutes_of(range) * ln_longer.exp();
    Estimate::new(
        Minutes::clamped(likely * (-low * width).exp()),
        Minutes::clamped(likely),
        Minutes::clamped(likely * (high * width).exp()),
        range.basis(),
    )
}
