//! What the eye says of a rise: "it had doubled at 15:10".
//!
//! The formula's minutes are for its own yeast and flour, and its range says how far others may be
//! off. Whoever sees that the dough has come a share s of its way, when by what was believed
//! it should have come p of it, has measured `ln s` within `0.15 / s` of that
//! logarithm, and so all that is uncertain about p at once: how long the way is, how warm the
//! dough and its surroundings are, and what the yeast makes of that. Belief and sight are
//! weighed as [`inputs`](super::inputs) says. The rise is still counted from where it was, with what is now believed of it.
//!
//! What was found of the range is half the yeast's and the
//! flour's of the day, and so every rise's of the same dough; the other half is how each rise is judged. So
//! a later rise follows half of that shift, and of the part of the range's squared spread that the look has
//! taken it loses a quarter.
//!
//! ASSUMPTION, all judgement: that an eye is off by 0.15 of the whole rise one time in ten to
//! either side; that the volume grows evenly with the reference minutes, which is too
//! fast in the first quarter and too slow in the last (Romano et al., J. Food Eng. 83 (2007) 142, find a Gompertz
//! curve); and the two halves.

use super::Proof;
use super::inputs::{RANGE, SPOTS, product};
use crate::estimate::Estimate;
use crate::units::{Minutes, Moment, Share};

/// ASSUMPTION: one time in ten an eye takes the dough to be further than it is by this share of
/// the whole rise, and one in ten less far.
const EYE: f64 = 0.15;
/// ASSUMPTION: a sight that is more times off than this is a slip of the finger rather than a pace, as a logarithm.
const MOST_OFF_LN: f64 = 1.1;

/// What was found of the yeast and flour of the day, for later rises of the same dough.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Found {
    /// How much longer a rise takes than the formula says, as a logarithm.
    ln_longer: f64,
    /// What is left of the squared spread.
    left: f64,
}

impl Found {
    /// Nobody has looked.
    pub const NOTHING: Self = Self {
        ln_longer: 0.0,
        left: 1.0,
    };

    /// Along with what was found later.
    #[must_use]
    pub fn and(self, later: Self) -> Self {
        Self {
            ln_longer: self.ln_longer + later.ln_longer,
            left: self.left * later.left,
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
    /// The same proof after someone saw that it had come so far, and what that says of later rises.
    ///
    /// It is the same rise from its start, of a dough that is as was seen.
    #[must_use]
    pub fn seen(&self, at: Moment, share: Share) -> (Self, Found) {
        let had = self.reference_minutes_at(at).get();
        if had <= 0.0 || share.get() <= 0.0 {
            return (self.clone(), Found::NOTHING);
        }
        let (low, high) = widths(&self.range);
        let mut slopes =
            self.slopes(&|case| (self.had_by(case, at).max(1e-3) / case.wanted.max(1e-3)).ln());
        slopes[RANGE] = -0.5 * (low + high);
        let along = self.learnt.spread_along(&slopes);
        let believed = product(&slopes, &along);
        let expected = (had / minutes_of(&self.range)).ln();
        let most = (expected + MOST_OFF_LN).exp();
        let seen = share.get().clamp((expected - MOST_OFF_LN).exp(), most);
        // The eye is off by a part of the whole, which is another part of what is there, so the
        // logarithm is measured round where it comes to lie.
        let (mut off, mut squared) = (0.0, 1.0);
        for _ in 0..6 {
            let come = (expected + off * believed).exp();
            squared = believed + (EYE / come).powi(2);
            off = ((seen - come) / come + off * believed) / squared;
        }

        let mut next = self.clone();
        let before = next.learnt.own()[RANGE].powi(2);
        for (likely, along) in next.learnt.likely.iter_mut().zip(&along) {
            *likely += along * off;
        }
        next.learnt
            .taken
            .push(along.map(|along| along / squared.sqrt()));
        next.learnt.at = Some(at);
        let z = next.learnt.likely[RANGE];
        let found = Found {
            ln_longer: z * if z < 0.0 { low } else { high },
            left: next.learnt.own()[RANGE].powi(2) / before,
        };
        // What is asked for moves along; of the rest the proof keeps where it likely lies.
        next.learnt.likely[RANGE] = 0.0;
        let by_spots = next.learnt.asked.iter().zip(&along[SPOTS..]);
        let by_spots: f64 = by_spots.map(|(asked, along)| asked * along * off).sum();
        next.range = changed(&self.range, found.ln_longer + by_spots, 1.0);
        (next, found)
    }
}

fn minutes_of(range: &Estimate<Minutes>) -> f64 {
    range.likely().get().max(1e-3)
}

/// The distances of the percentiles from the likely value, as logarithms.
pub(super) fn widths(range: &Estimate<Minutes>) -> (f64, f64) {
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
