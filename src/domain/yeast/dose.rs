//! How the pace of a dough follows its dose of yeast.
//!
//! `pace = (D / D0)^n`, and back `D / D0 = pace^(1 / n)`
//!
//! - pace: how many times as fast the dough ferments as with its own dose, without unit
//! - D, D0: the dose and the formula's own, in g of the same kind of yeast, or of kinds that were
//!   made [comparable](super::kinds)
//! - n: the exponent, without unit
//!
//! A rise that takes m reference minutes with its own dose takes `m / pace` with another.
//!
//! | n | from |
//! |---|---|
//! | 0.70 | 2.8 and 5 % of yeast gave 1200 and 1800 mL of gas in 2 h: `ln(1800 / 1200) / ln(5 / 2.8)`, from the table of a commercial baker's strain in Appl. Environ. Microbiol. (Rincón, Codón, Castrejón & Benítez 2001; attribution from memory). One strain, in plain dough, where the sugar may have run short by the end |
//! | 1 | half the yeast, twice the time: the trade's rule of thumb, which nothing that was found bears out exactly |
//!
//! That gas rises with the dose, and no more, is in Marek & Bushuk, Cereal Chem. 44 (1967) 300 (abstract).
//!
//! Validity: [`LEAST_DOSE`] to [`MOST_DOSE`] times the formula's own dose, and rises of a few hours. Left
//! out: that yeast grows. In 6 h its cells became 29 % more with 2 % of yeast, but 88 % more with
//! 0.5 % (an unattributed course page: weak). A small dose ends a long rise
//! with 1.46 times the cells that n counts on; as hardly any grow in the first two hours, that
//! takes about a seventh off the six. Left out, too, is the lag before yeast sets to work, which
//! no dose shortens.

use crate::estimate::{Basis, Estimate};
use crate::units::Minutes;

/// The exponent.
///
/// ASSUMPTION: half-way between the one measurement and the rule of thumb.
const EXPONENT: f64 = 0.85;

/// How far the exponent may lie to either side.
///
/// ASSUMPTION: the measurement and the rule of thumb are taken for its tenth and its ninetieth
/// percentile.
const EXPONENT_SPREAD: f64 = 0.15;

/// The smallest part of its own dose for which a formula's times can be reckoned.
///
/// ASSUMPTION: judgement; below it growth, which is left out, decides.
pub const LEAST_DOSE: f64 = 0.25;

/// How many times its own dose a formula can have, and its times be reckoned.
///
/// ASSUMPTION: judgement; the measured doses lie within a factor of 2.
pub const MOST_DOSE: f64 = 2.5;

/// How many times as fast a dough ferments with so many times its own dose.
///
/// ```
/// use domain::yeast::dose;
///
/// let half = dose::pace(0.5);
/// assert!(half.low() == 0.5 && (half.likely() - 0.555).abs() < 0.001);
/// ```
#[must_use]
pub fn pace(times: f64) -> Estimate<f64> {
    let with = |exponent: f64| power(times, exponent);
    let (one, other) = (
        with(EXPONENT - EXPONENT_SPREAD),
        with(EXPONENT + EXPONENT_SPREAD),
    );
    Estimate::new(one.min(other), with(EXPONENT), one.max(other), Basis::Model)
}

/// How many times its own dose makes a dough likely so many times as fast.
#[must_use]
pub fn for_pace(pace: f64) -> f64 {
    power(pace, 1.0 / EXPONENT)
}

/// A formula's minutes with so many times its own dose: divided by the pace, and their window
/// widened by what isn't known of the exponent.
#[must_use]
pub fn lengthened(range: &Estimate<Minutes>, times: f64) -> Estimate<Minutes> {
    // None at all would take for ever, which is no number to reckon with.
    let times = times.max(f64::MIN_POSITIVE);
    let open_ln = (EXPONENT_SPREAD * times.ln()).abs();
    range.longer(1.0 / power(times, EXPONENT), open_ln, open_ln)
}

/// Powers by the logarithm, which the windows of proofs need anyway.
fn power(base: f64, exponent: f64) -> f64 {
    (base.ln() * exponent).exp()
}
