//! How much faster yeast works when warmer, in the ways in which that is stated.
//!
//! Q10 is the ratio of two rates 10 K apart, without unit.
//!
//! - a rate that doubles with every D kelvin: `Q10 = 2^(10 / D)`, and back `D = 10 ln 2 / ln Q10`
//! - a rate that grows by a share p with every kelvin: `Q10 = (1 + p)^10`
//! - Arrhenius, between temperatures T1 and T2 in K: `Ea = R ln(Q) / (1/T1 - 1/T2)`, where
//!   `Q = Q10^((T2 - T1) / 10)` and `R = 8.314462618` J/(mol K) (CODATA 2018)
//!
//! These are ways of stating, not a model: none knows an optimum, so none holds beyond some
//! 10 K around where it was measured. The model itself goes by [`activity`](super::activity).

use super::activity::{Cardinals, relative_rate};
use crate::units::{Celsius, CelsiusDelta, KilojoulesPerMole, Minutes, Share};

/// The gas constant, in J/(mol K).
pub(super) const GAS_CONSTANT: f64 = 8.314_462_618;

/// Q10 of a rate that doubles with every so many kelvin.
#[must_use]
pub fn of_doubling(every: CelsiusDelta) -> f64 {
    // Q10 = 2^(10 / D)
    (10.0 / every.get()).exp2()
}

/// Q10 of a rate that grows by a share with every kelvin.
#[must_use]
pub fn of_growth_per_kelvin(growth: Share) -> f64 {
    // Q10 = (1 + p)^10
    (1.0 + growth.get()).powi(10)
}

/// The difference of temperature that doubles a rate.
#[must_use]
pub fn doubling(q10: f64) -> CelsiusDelta {
    // D = 10 ln 2 / ln Q10
    CelsiusDelta::clamped(10.0 * std::f64::consts::LN_2 / q10.ln())
}

/// The activation energy that gives this Q10 between two temperatures.
#[must_use]
pub fn activation_energy(q10: f64, from: Celsius, to: Celsius) -> KilojoulesPerMole {
    let kelvin = |at: Celsius| at.get() + 273.15;
    let log_ratio = q10.ln() * (to - from).get() / 10.0;
    // Ea = R ln(Q) / (1/T1 - 1/T2)
    let j_per_mol = GAS_CONSTANT * log_ratio / (1.0 / kelvin(from) - 1.0 / kelvin(to));
    KilojoulesPerMole::clamped(j_per_mol / 1000.0)
}

/// Q10 that yeast with these cardinals has between two temperatures.
#[must_use]
pub fn of_cardinals(cardinals: &Cardinals, from: Celsius, to: Celsius) -> f64 {
    let ratio = relative_rate(to, cardinals) / relative_rate(from, cardinals);
    ratio.powf(10.0 / (to - from).get())
}

/// How long at another temperature does what so long did at the first.
///
/// ```
/// use domain::units::{celsius, minutes};
///
/// let cooler = domain::yeast::q10::time_at(minutes(60.0), celsius(26.0), celsius(16.0), 2.0);
/// assert!((cooler.get() - 120.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn time_at(known: Minutes, at: Celsius, other: Celsius, q10: f64) -> Minutes {
    // t2 = t1 Q10^((T1 - T2) / 10)
    known * q10.powf((at - other).get() / 10.0)
}
