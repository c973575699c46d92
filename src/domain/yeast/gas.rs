//! Carbon dioxide from sugar.
//!
//! `C6H12O6 -> 2 C2H5OH + 2 CO2`, so a gram of glucose gives `2 M(CO2) / M(glucose)` grams,
//! and as an ideal gas a volume of `n R T / p`, with n in mol, T in K, p in Pa.
//!
//! Molar masses 44.0095 and 180.156 g/mol (IUPAC atomic weights 2013, conventional). Left out:
//! the few percent that grow yeast and glycerol, what dissolves in the dough, and the real
//! gas, which takes half a percent less room.

use super::q10::GAS_CONSTANT;
use crate::units::{Celsius, Grams, Millilitres, Pascals};

const CARBON_DIOXIDE_G_PER_MOL: f64 = 44.009_5;
const GLUCOSE_G_PER_MOL: f64 = 180.156;

/// How much carbon dioxide so much glucose becomes at most.
#[must_use]
pub fn carbon_dioxide_from(glucose: Grams) -> Grams {
    glucose * (2.0 * CARBON_DIOXIDE_G_PER_MOL / GLUCOSE_G_PER_MOL)
}

/// How much room carbon dioxide takes.
#[must_use]
pub fn volume(carbon_dioxide: Grams, at: Celsius, pressure: Pascals) -> Millilitres {
    let moles = carbon_dioxide.get() / CARBON_DIOXIDE_G_PER_MOL;
    // V = n R T / p, in m³
    let cubic_metres = moles * GAS_CONSTANT * (at.get() + 273.15) / pressure.get().max(1.0);
    Millilitres::clamped(cubic_metres * 1e6)
}
