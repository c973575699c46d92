//! The oven: how to set it, how long to bake another size, and how hot the core can get.
//!
//! Baking time of another piece mass, same shape and dough:
//!
//! `t = t0 (m / m0)^(2/3)`
//!
//! because heat goes inwards by conduction, so time grows with the square of
//! the length and mass with its cube (the similarity of Fourier's equation).
//! Where the oven air is the bottleneck, time grows with the length only, so
//! the exponent falls to 1/3: effective heat transfer of 20 to 48 W/(m² K) in a
//! baking oven (Baik et al. 1999, *J. Food Sci.* 64:688) puts small pieces in
//! between. The likely time follows 2/3, and the window takes in 1/3.
//! Left out: a crowded tray, another colour of tin, steam.
//!
//! The core of moist crumb stays below boiling, which falls with altitude ([`altitude`]).

pub mod altitude;
mod core;
mod setting;

pub use self::core::core_course;
pub use setting::{Dial, DialSetting, Fan, GasMark, dial_setting, with_fan, without_fan};

use super::constants::CORE_BELOW_BOILING;
use crate::estimate::Estimate;
use crate::units::{Celsius, Grams, Metres, Minutes, grams};

/// The bake window of a piece, from the formula's window at the formula's piece.
///
/// Without two masses to compare, the formula's window stands.
///
/// ```
/// use domain::estimate::{Basis, Estimate};
/// use domain::thermal::oven::bake_window;
/// use domain::units::{grams, minutes};
///
/// let formula = Estimate::new(minutes(14.0), minutes(16.0), minutes(18.0), Basis::Formula);
/// let larger = bake_window(&formula, grams(80.0), grams(120.0));
/// assert!((larger.likely().get() - 20.97).abs() < 0.01);
/// ```
#[must_use]
pub fn bake_window(
    range: &Estimate<Minutes>,
    formula_piece: Grams,
    piece: Grams,
) -> Estimate<Minutes> {
    if formula_piece <= grams(0.0) || piece <= grams(0.0) {
        return *range;
    }
    let ratio = piece / formula_piece;
    let by_surface = ratio.cbrt();
    let by_conduction = by_surface * by_surface;
    Estimate::new(
        range.low() * by_conduction.min(by_surface),
        range.likely() * by_conduction,
        range.high() * by_conduction.max(by_surface),
        range.basis(),
    )
}

/// The core temperature to look for: the wanted one, or what moist crumb can reach at that altitude.
#[must_use]
pub fn core_target(wanted: Celsius, altitude: Metres) -> Celsius {
    wanted.min(altitude::boiling_point(altitude) - CORE_BELOW_BOILING)
}
