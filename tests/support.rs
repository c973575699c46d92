//! What the checks share.

pub mod baker;
pub mod reckon;
pub mod reforecast;

use domain::formula::Formula;
use records::starters;

/// A formula that comes with the app.
///
/// # Panics
/// When none has this name.
#[must_use]
pub fn starter(id: &str) -> Formula {
    let mut starters = starters::all().into_iter();
    let found = starters.find(|formula| formula.id.0 == id);
    found.expect("a starter of that name")
}

/// Fails with both numbers, their distance and the case's name.
///
/// # Panics
/// When `got` is further from `expected` than `tolerance`, or is not a number.
pub fn assert_close(case: &str, got: f64, expected: f64, tolerance: f64) {
    let off = (got - expected).abs();
    assert!(
        off <= tolerance,
        "{case}: got {got}, expected {expected}, off by {off}, more than {tolerance}"
    );
}
