//! Specific heat from water alone, to compare with.
//!
//! `c = 4.19 w + 0.84 (1 - w)`, with c in J/(g K) and w the share of water.
//!
//! Source: R. L. Earle, *Unit Operations in Food Processing*, appendix 7. Good to some
//! percent for milk and fruit; 28 to 40 % too low for flour, butter and egg yolk, whose dry
//! matter takes far more heat than 0.84. The model goes by [`choi_okos`](super::choi_okos).

use crate::units::{JoulesPerGramKelvin, Share};

/// The specific heat by that rule.
#[must_use]
pub fn specific_heat(water: Share) -> JoulesPerGramKelvin {
    JoulesPerGramKelvin::clamped(4.19 * water.get() + 0.84 * (1.0 - water.get()))
}
