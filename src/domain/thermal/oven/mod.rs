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
//!
//! So two laws stand side by side. Size goes by [`bake_window`]: it has no fitted number, a baker can check
//! it with a pocket calculator, and what the second makes of another size lies within its window
//! (`tests/native/heating/windows.rs`). What it knows nothing of goes by [`Baking::longer_than`]: another
//! form, oven or height at the same size. It has a fitted conductivity and is asked for ratios only.
//!
//! Another oven temperature: [`heating`](Baking::time_ratio), by which the window takes in how far the
//! oven may be from what its dial says, the square of which is added to the square of the
//! formula's own spread, in logarithms:
//!
//! `ln² (end / likely) = ln² (end_0 / likely) + ln² (t(T ± off) / t(T))`
//!
//! Another form or tin: [`BakeForm`] by [`Baking::form_ratio`], as uncertain as [`FORM_SPREAD`] has it. Height:
//! [`Baking::height_ratio`]. A fuller oven: its late end, by [`CROWDED`]. All that is independent is added so.
//! Left out: another colour of tin ([`BakeForm`] says how wrong that makes it), steam, and an
//! oven's own hot corner, which turning the tray makes up for.
//!
//! The core of moist crumb stays below boiling, which falls with altitude ([`altitude`]).

pub mod altitude;
mod form;
mod heating;
mod setting;

pub use form::BakeForm;
pub use heating::{Baking, Heat, oven_course};
pub use setting::{Dial, DialSetting, Fan, GasMark, dial_setting, with_fan, without_fan};

use super::constants::{CORE_BELOW_BOILING, CROWDED};
use crate::estimate::Estimate;
use crate::units::{Celsius, CelsiusDelta, Grams, Metres, Minutes, grams};
use form::FORM_SPREAD;
use heating::OF_HEIGHT;
use std::f64::consts::LN_2;

/// The bake window of a piece, from the formula's window at the formula's piece.
///
/// For size alone; a form, an oven and a height are [`window_in`]'s. Without two masses to compare, the
/// formula's window stands.
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

/// What a window in the oven was written for, and what is known of today's oven.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Written {
    /// The form that it was written for.
    pub form: BakeForm,
    /// All that was in the oven then; none where that is what is in it today.
    pub load: Option<Grams>,
    /// The temperature that it is for, without a fan.
    pub conventional: Celsius,
}

/// Today's oven.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Today {
    /// All that is in it.
    pub load: Grams,
    /// Whether its fan is on.
    pub fan: Fan,
    /// How far it may be from the temperature that it is to have.
    pub off: CelsiusDelta,
}

/// A bake window for pieces that may be in another form than it was `written` for, at their height, in an
/// oven that isn't known better than `today` says and may hold more.
///
/// With its fan on an oven may also bake sooner than the 20 K of its lower setting make up for.
#[must_use]
pub fn window_in(
    window: &Estimate<Minutes>,
    baking: &Baking,
    written: Written,
    today: Today,
) -> Estimate<Minutes> {
    let (conventional, Today { load, fan, off }) = (written.conventional, today);
    let load = written.load.map_or(1.0, |written| load / written);
    let still = |air| Heat { air, fan: Fan::Off };
    let stated = still(conventional);
    let hotter = match fan {
        Fan::Off => still(conventional + off),
        Fan::On => Heat {
            air: with_fan(conventional) + off,
            fan,
        },
    };
    let cooler = still(conventional - off);
    let [takes, in_cooler, in_hotter] = baking.takes_in([stated, cooler, hotter]);
    let by_form = baking.form_ratio(written.form, stated);
    let form_ln = if written.form == baking.form {
        0.0
    } else {
        FORM_SPREAD.ln()
    };
    let most = baking.height_ratio(stated);
    let by_height = 1.0 + OF_HEIGHT * (most - 1.0);
    // log₂ of the load
    let fuller = CROWDED.get() * (load.ln() / LN_2).clamp(0.0, 2.0);
    let window = window.longer(
        by_form * by_height,
        (in_hotter / takes)
            .ln()
            .hypot(form_ln)
            .hypot(by_height.ln()),
        (in_cooler / takes)
            .ln()
            .hypot(form_ln)
            .hypot((most / by_height).ln()),
    );
    Estimate::new(
        window.low(),
        window.likely(),
        window.high() * (1.0 + fuller),
        window.basis(),
    )
}

/// The core temperature to look for: the wanted one, or what moist crumb can reach at that altitude.
#[must_use]
pub fn core_target(wanted: Celsius, altitude: Metres) -> Celsius {
    wanted.min(altitude::boiling_point(altitude) - CORE_BELOW_BOILING)
}
