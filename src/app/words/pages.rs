//! Words of the widgets and of the page Today.

use domain::decimal::{self, fixed, plain};
use domain::kitchen::Scales;
use domain::schedule::Running;
use domain::units::{Grams, Moment};
use platform::clock::time_of_day;

use super::quantity::span;

/// Leaves a question without doing what it asks.
pub(crate) const LEAVE_IT: &str = "No, leave it";
/// Changes to the version that waits.
pub(crate) const UPDATE: &str = "A new version is ready: change to it";
/// Leads to the Bench.
pub(crate) const TO_BENCH: &str = "To the Bench";
/// When nothing is baking.
pub(crate) const WHAT_TO_BAKE: &str = "What shall it be?";
/// The heading of what the baker wanted to do differently.
pub(crate) const NEXT_TIME: &str = "Next time, you wrote";
/// The heading of what this phone can do.
pub(crate) const THIS_PHONE: &str = "This phone";
/// Leads to the set-aside records.
pub(crate) const SEE_SET_ASIDE: &str = "See them in Kitchen";
/// Lets the alarm be heard.
pub(crate) const TEST_ALARM: &str = "Test the alarm";

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

/// An amount as these scales show it: always in grams, so that it can be weighed as it stands.
pub(crate) fn amount(amount: Grams, scales: &Scales) -> String {
    let finely = scales.fine.filter(|fine| amount <= fine.up_to);
    let step = finely.map_or(scales.step, |fine| fine.step);
    let digits = match step.get() {
        step if step < 0.095 => 2,
        step if step < 0.95 => 1,
        _ => 0,
    };
    format!("{}\u{a0}g", fixed(amount.get(), digits))
}

/// "3 records can't be read. They are kept as they are."
pub(crate) fn set_aside_count(count: usize) -> String {
    let what = if count == 1 {
        "1 record".to_owned()
    } else {
        format!("{count} records")
    };
    format!("{what} on this phone can't be read. Nothing was thrown away.")
}

/// Leads to the Bench of one bake of several.
pub(crate) fn to_bench_of(name: &str) -> String {
    format!("{TO_BENCH}: {name}")
}

/// The next thing to look at: "First rise: look in 25 min, about 14:05".
pub(crate) fn next_look(title: &str, running: &Running, now: Moment) -> String {
    let at = time_of_day(running.look);
    if running.look <= now {
        format!("{title}: look now, due since {at}.")
    } else {
        format!("{title}: look in {}, at {at}.", span(running.look - now))
    }
}

/// The formula and the step before what is written about them.
pub(crate) fn lesson_of(formula: &str, step: &str) -> String {
    format!("{formula}, {}:", super::letters::lower_first(step))
}

/// A step's name before what is written about it.
pub(crate) fn at_step(title: &str) -> String {
    format!("{title}:")
}

#[cfg(test)]
mod tests {
    use super::*;
    use domain::kitchen::FineScales;
    use domain::units::grams;

    #[test]
    fn a_number_is_found_before_its_unit() {
        assert_eq!(leading_number("21,5 °C"), Some(21.5));
        assert_eq!(leading_number(" 70°F"), Some(70.0));
        assert_eq!(leading_number("−5 °C"), Some(-5.0));
        assert_eq!(leading_number("lots"), None);
        assert_eq!(leading_number("1-2 g"), None);
        assert_eq!(leading_number(""), None);
    }

    #[test]
    fn an_amount_has_the_digits_of_the_scales_it_is_weighed_on() {
        let fine = FineScales {
            step: grams(0.01),
            up_to: grams(50.0),
        };
        let scales = Scales {
            step: grams(1.0),
            fine: Some(fine),
        };
        assert_eq!(amount(grams(3.5), &scales), "3.50\u{a0}g");
        assert_eq!(amount(grams(1250.0), &scales), "1250\u{a0}g");
        assert_eq!(amount(grams(7.0), &Scales::KITCHEN), "7\u{a0}g");
    }
}
