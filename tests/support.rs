//! What the checks share.

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
