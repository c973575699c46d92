//! Formulas from other programs and for them, without the records that they are written as.

use domain::formula::Formula;
use records::ReadError;

/// The formula that Oventide itself put into a text or page; nothing where none is in it.
///
/// # Errors
/// [`ReadError`] where it is ours and can't be read.
pub fn own(text: &str) -> Result<Option<Formula>, ReadError> {
    records::interchange::own(text)
}

/// A page with a formula on it, for people and for programs.
#[must_use]
pub fn page(formula: &Formula) -> String {
    records::interchange::page(formula)
}
