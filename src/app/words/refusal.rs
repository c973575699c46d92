//! Why nothing happened, and what to do.

use domain::bake::Refusal;
use domain::decimal::plain;
use domain::units::Celsius;
use platform::clock::time_of_day;
use platform::store::Degrees;

use super::quantity::{temperature_number, temperature_unit};

/// One sentence for a refusal.
pub(crate) fn refusal(refusal: &Refusal, degrees: Degrees) -> String {
    match refusal {
        Refusal::Over => "This bake is over; start another to go on.".to_owned(),
        Refusal::Unknown => "There is no such thing in this bake.".to_owned(),
        Refusal::NotOpen(_) => {
            "Something else has to end first. Leave that out if you have done it already."
                .to_owned()
        }
        Refusal::Already(_) => "That is so already.".to_owned(),
        Refusal::Implausible(out) => {
            let [value, min, max] =
                [out.value, out.min, out.max].map(|value| in_words(value, out.unit, degrees));
            let unit = if out.unit == CELSIUS {
                temperature_unit(degrees)
            } else {
                out.unit
            };
            format!(
                "{value} {unit} can't be right for the {}: it lies between {min} and {max} {unit}. Look again and type it anew.",
                out.label
            )
        }
        Refusal::NothingToUndo => "There is nothing to take back.".to_owned(),
        Refusal::NeverRetarded(_) => {
            "Only a dough that rises can be planned to stand in the fridge.".to_owned()
        }
        Refusal::Backwards => {
            "A time in the fridge has to end after it begins, and later than now.".to_owned()
        }
        Refusal::TooEarly(earliest) => format!(
            "By what was said before, that can't have been before {}.",
            time_of_day(*earliest)
        ),
        Refusal::TooLate(said) => {
            format!("You said so at {}, so it was no later.", time_of_day(*said))
        }
        Refusal::TooManyAway => {
            "There are too many times at which nobody is here. Remove some that aren't needed."
                .to_owned()
        }
    }
}

/// The unit of a temperature inside the model.
const CELSIUS: &str = "°C";

/// A refused number, in the baker's degrees where it is a temperature.
fn in_words(value: f64, unit: &str, degrees: Degrees) -> String {
    match Celsius::new(value) {
        Ok(temperature) if unit == CELSIUS => temperature_number(temperature, degrees),
        _ => plain(value, 2),
    }
}
