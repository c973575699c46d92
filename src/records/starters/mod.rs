//! Oventide's own formulas, in the same shape as the baker's.

use domain::formula::Formula;

use crate::Record as _;
use crate::formula::FormulaRecord;

/// The stored text of every starter formula.
pub const TEXTS: [&str; 3] = [
    include_str!("plum_almond_buns.json"),
    include_str!("orange_braid.json"),
    include_str!("overnight_tin_loaf.json"),
];

/// Every starter formula.
///
/// # Panics
/// Never in a released program: a test reads them all.
#[must_use]
pub fn all() -> Vec<Formula> {
    TEXTS
        .iter()
        .map(|text| {
            FormulaRecord::read(text)
                .and_then(Formula::try_from)
                .expect("the starters are part of the program and a test reads them")
        })
        .collect()
}
