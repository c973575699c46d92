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

use crate::units::{KilogramsPerCubicMetre, Share, SquareMetresPerSecond};

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
