//! What the eye says of a rise: "it had doubled at 15:10".
//!
//! The formula's minutes are for its own yeast and flour, and its range says how far others may be
//! off. Whoever sees at a moment that the dough has come a share s of its way,
//! when by the temperatures it has had m reference minutes, has measured that the
//! whole way takes about `m / s` of them. Belief and sight are weighed by their squared spreads, as
//! logarithms: `w = v_b / (v_b + v_s)`, `ln W' = ln W + w ln(m / (s W))`, `v' = v_b v_s / (v_b + v_s)`.
//!
//! - W, W': reference minutes of the whole way, before and after
//! - v_b = v_r + v_m: the squared distance of the range's percentiles from W, and of m's from m for what is
//!   uncertain about the dough's temperature and how yeast minds the cold, as logarithms. Both
//!   count, for whatever made a dough faster so far goes on doing so.
//! - v_s: the same of what was seen, `(0.15 / s)²`
//!
//! The sum of normal beliefs is Bayes' rule. What is uncertain about temperature goes on
//! acting on the rest of the way, and only what is left of v' is given to the range.
//!
//! Of what was found, `v_r / v_b` belongs to the range. Half of that is the yeast's and the
//! flour's of the day, and so every rise's of the same dough; the other half is how each rise is judged. So
//! a later rise follows half of that part of the shift, and keeps `1 - w (v_r / v_b) / 4` of its own squared spread.
//!
//! ASSUMPTION, all judgement: that an eye is off by 0.15 of the whole rise one time in ten to
//! either side; that the volume grows evenly with the reference minutes, which is too
//! fast in the first quarter and too slow in the last (Romano et al., J. Food Eng. 83 (2007) 142, find a Gompertz
//! curve); and the two halves.

use super::Proof;
use super::meter::{Case, Meter};
use crate::estimate::Estimate;
use crate::units::{Minutes, Moment, Share};

/// ASSUMPTION: one time in ten an eye takes the dough to be further than it is by this share of
/// the whole rise, and one in ten less far.
const EYE: f64 = 0.15;
/// ASSUMPTION: a sight that is more times off than this is a slip of the finger rather than a pace, as a logarithm.
const MOST_OFF_LN: f64 = 1.1;

/// ASSUMPTION: at least this part of what is left open after a look is the range's own.
const LEAST_OWN: f64 = 0.5;

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
    /// It goes on from there: what is uncertain of the time before no longer matters.
    #[must_use]
    pub fn seen(&self, at: Moment, share: Share) -> (Self, Found) {
        let had = self.reference_minutes_at(at);
        if had.get() <= 0.0 || share.get() <= 0.0 {
            return (self.clone(), Found::NOTHING);
        }
        let (low, high) = widths(&self.range);
        let of_range = (0.5 * (low + high)).powi(2);
        let since = (at - self.start).get();
        let of_path = self.squared(|case| {
            let gained = Meter::new(self, case).gained_after(since);
            (self.had.get() + gained).max(1e-3).ln()
        });
        let believed = of_range + of_path;
        let seen = (EYE / share.get()).powi(2);
        let weight = believed / (believed + seen);
        let ln_seen = (had.get() / share.get() / minutes_of(&self.range)).ln();
        let ln_longer = weight * ln_seen.clamp(-MOST_OFF_LN, MOST_OFF_LN);
        let dough = self.dough_at(at);
        let (less, more) = (
            self.dough.likely() - self.dough.low(),
            self.dough.high() - self.dough.likely(),
        );
        let mut next = Self {
            range: changed(&self.range, ln_longer, 1.0),
            start: at,
            dough: Estimate::new(dough - less, dough, dough + more, self.dough.basis()),
            had,
            ..self.clone()
        };
        let left = believed * (1.0 - weight);
        let still_of_path = next.squared(|case| next.log_after(case));
        let own = (left - still_of_path).max(left * LEAST_OWN);
        next.range = changed(&self.range, ln_longer, (own / of_range.max(1e-12)).sqrt());
        let part = of_range / believed.max(1e-12);
        let found = Found {
            ln_longer: ln_longer * part,
            left: 1.0 - weight * part,
        };
        (next, found)
    }

    /// The squared spread of a logarithm for all that is uncertain but the range.
    fn squared(&self, log_of: impl Fn(&Case) -> f64) -> f64 {
        let likely = Case::likely(self);
        let [_, of_path @ ..] = self.spreads();
        let spread = |(one, other): &(Option<Case>, Option<Case>)| {
            let [one, other] = [one, other].map(|case| log_of(case.as_ref().unwrap_or(&likely)));
            (0.5 * (one - other)).powi(2)
        };
        of_path.iter().map(spread).sum()
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
