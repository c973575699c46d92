//! Baked crumb: how dense it is and how fast heat spreads in it, by its pores.
//!
//! With porosity ε in %:
//!
//! - density `rho = 979 - 9.90 ε`, in kg/m³
//! - diffusivity `alpha = exp(0.01 ε - 15.25)`, in m²/s, which includes what vapour carries
//!
//! Source: Zanoni, Peri and Gianotti (1995), *J. Food Eng.* 26:497 (abstract), from bread
//! crumb; its own range of ε was not seen, and bread has 60 to 85 %. Dense dough spreads heat three to
//! four times slower than this. Left out: temperature and moisture.
//!
//! Its specific heat is a measured one, because Choi and Okos on the composition of bread
//! (2.55 at 34 % water) fall 13 % short of what is published.

use crate::units::{
    JoulesPerGramKelvin, KilogramsPerCubicMetre, Share, SquareMetresPerSecond,
    joules_per_gram_kelvin,
};

/// Specific heat of white bread of 32 to 45 % water at room temperature. Uncertain by 0.06.
///
/// 2.785 ± 0.07 at 44 to 45 % water (2.72 to 2.85 in Geankoplis, *Transport Processes and
/// Separation Process Principles*, 4th ed., table A.4-1) and 2.93 ± 0.1 at 32 to 37 % (Earle,
/// *Unit Operations in Food Processing*, appendix 7), weighed by their squared uncertainties. The
/// drier bread should have the lower of the two and has the higher, so they are taken as two
/// measurements of one thing.
pub const SPECIFIC_HEAT: JoulesPerGramKelvin = joules_per_gram_kelvin(2.83);

/// How dense crumb of so many pores is.
#[must_use]
pub fn density(porosity: Share) -> KilogramsPerCubicMetre {
    // rho = 979 - 9.90 ε
    KilogramsPerCubicMetre::clamped(979.0 - 990.0 * porosity.get())
}

/// How fast heat spreads in crumb of so many pores.
#[must_use]
pub fn diffusivity(porosity: Share) -> SquareMetresPerSecond {
    // alpha = exp(0.01 ε - 15.25)
    SquareMetresPerSecond::clamped((porosity.get() - 15.25).exp())
}
