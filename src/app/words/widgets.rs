//! Words of the widgets, and numbers that are typed into them.

use domain::decimal::{self, plain};

/// While a page is on its way.
pub(crate) const OPENING: &str = "Opening…";
/// When it couldn't be fetched.
pub(crate) const NOT_FETCHED: &str = "This page couldn't be fetched: go where there is a network, and it opens by itself; if there is one, load Oventide again.";

/// Leaves a question without doing what it asks.
pub(crate) const LEAVE_IT: &str = "No, go back";

/// The button that makes a number smaller.
pub(crate) fn step_down(label: &str) -> String {
    format!("Less: {label}")
}

/// The button that makes a number larger.
pub(crate) fn step_up(label: &str) -> String {
    format!("More: {label}")
}

/// What stands in a field until there is a number.
pub(crate) const NO_NUMBER: &str = "—";

/// What a field wants, when it got something else.
pub(crate) fn number_between(min: f64, max: f64) -> String {
    let (min, max) = (plain(min, 2), plain(max, 2));
    format!("Type a number from {min} to {max}.")
}

/// The number that a text begins with, whatever unit follows it: "24,5 °C".
pub(crate) fn leading_number(text: &str) -> Option<f64> {
    let text = text.trim();
    let is_part = |letter: char| letter.is_ascii_digit() || ".,-+−".contains(letter);
    let end = text.find(|letter| !is_part(letter)).unwrap_or(text.len());
    decimal::parse(&text[..end].replace('−', "-"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_is_found_before_its_unit() {
        assert_eq!(leading_number("21,5 °C"), Some(21.5));
        assert_eq!(leading_number(" 70°F"), Some(70.0));
        assert_eq!(leading_number("−5 °C"), Some(-5.0));
        assert_eq!(leading_number("lots"), None);
        assert_eq!(leading_number("1-2 g"), None);
        assert_eq!(leading_number(""), None);
    }
}
