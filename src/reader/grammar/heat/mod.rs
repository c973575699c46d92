//! Temperatures: "200C/180C fan/gas 6", "375°F", "bei 220 °C (Umluft 200 °C)", "th. 6".
//!
//! Sources: gas marks as in [`domain::thermal::oven`]; the thermostat of French ovens is common practice. Left out:
//! ovens in words ("a hot oven"), and what a fan makes of a temperature: it is told with it, not reckoned off.

pub(crate) mod words;

use domain::thermal::oven::GasMark;

use super::amount::about;
use super::number::{Range, digits, parting, range};
use super::tokens::Token;
use super::words::OR;
use super::{Input, Misfit, Result, mark, peeked, peeked_word, perhaps, phrase, take};
use words::{DEGREES, GAS, HEAT_FROM_BELOW, THERMOSTAT, WITH_FAN, WITHOUT_FAN};

/// A temperature that was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Heat {
    /// In °C; the middle of a range.
    pub(crate) celsius: f64,
    /// Whether it is of an oven with a fan.
    pub(crate) fan: bool,
    scale: Scale,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Scale {
    Celsius,
    Fahrenheit,
    Gas,
    Thermostat,
    /// No scale was written.
    Guessed,
}

impl Heat {
    /// Whether the scale was guessed: "bake at 350".
    pub(crate) fn is_guessed(&self) -> bool {
        self.scale == Scale::Guessed
    }
}

/// A temperature in one or several scales, of which the one for an oven without fan in °C is taken.
pub(crate) fn heat(input: &mut Input<'_, '_>) -> Result<Heat> {
    let first = one(input)?;
    let mut all = vec![first];
    while let Some(other) = perhaps(input, |input| other(input, &all)) {
        all.push(other);
    }
    all.sort_by_key(|heat| (heat.fan, heat.scale));
    all.first().copied().ok_or(Misfit)
}

/// The same temperature again, in another scale or for another kind of oven.
fn other(input: &mut Input<'_, '_>, before: &[Heat]) -> Result<Heat> {
    let signs = ['/', ',', '(', ')', ';', '=', '[', ']', '|', '–', '-'];
    while mark(input, &signs).is_ok()
        || phrase(input, OR).is_ok()
        || phrase(input, &["for"]).is_ok()
    {}
    let next = one(input)?;
    let is_new = |known: &Heat| known.fan != next.fan || known.scale != next.scale;
    if !before.iter().all(is_new) {
        return Err(Misfit);
    }
    mark(input, &[')', ']']).ok();
    Ok(next)
}

fn one(input: &mut Input<'_, '_>) -> Result<Heat> {
    let before = fan(input);
    let (celsius, scale) = perhaps(input, marked).map_or_else(|| by_gas(input), Ok)?;
    let behind = perhaps(input, |input| {
        mark(input, &['(']).ok();
        let found = fan(input).ok_or(Misfit)?;
        // In "220 °C (Umluft 200 °C)" the word belongs to the next number.
        if peeked(input).is_some_and(Token::is_number) {
            return Err(Misfit);
        }
        mark(input, &[')']).ok();
        Ok(found)
    });
    Ok(Heat {
        celsius,
        fan: before.or(behind).unwrap_or(false),
        scale,
    })
}

/// A number with its scale.
fn marked(input: &mut Input<'_, '_>) -> Result<(f64, Scale)> {
    about(input);
    let number = perhaps(input, twice_marked).map_or_else(|| range(input), Ok)?;
    let scale = scale(input)?;
    let celsius = |value: f64| match scale {
        Scale::Fahrenheit => (value - 32.0) / 1.8,
        _ => value,
    };
    Ok((celsius(number.middle()), scale))
}

/// "75°F to 78°F", "24 °C – 26 °C", "75°–78°F".
fn twice_marked(input: &mut Input<'_, '_>) -> Result<Range> {
    let low = digits(input)?;
    let degree = degree(input);
    let first = perhaps(input, letter);
    if !degree && first.is_none() {
        return Err(Misfit);
    }
    parting(input, false)?;
    let high = digits(input)?;
    if high.value <= low.value {
        return Err(Misfit);
    }
    let mut range = Range::only(low.value);
    range.high = high.value;
    Ok(range)
}

/// "°C", "F", "degrees", "degrees Fahrenheit".
fn scale(input: &mut Input<'_, '_>) -> Result<Scale> {
    let degree = degree(input);
    if let Some(scale) = perhaps(input, letter) {
        return Ok(scale);
    }
    if degree {
        Ok(Scale::Guessed)
    } else {
        Err(Misfit)
    }
}

fn degree(input: &mut Input<'_, '_>) -> bool {
    mark(input, &['°', 'º', '˚', '*']).is_ok() || phrase(input, DEGREES).is_ok()
}

/// The letter or name of a scale. "ºC" may be one letter, ℃.
fn letter(input: &mut Input<'_, '_>) -> Result<Scale> {
    if mark(input, &['℃']).is_ok() {
        return Ok(Scale::Celsius);
    }
    if mark(input, &['℉']).is_ok() {
        return Ok(Scale::Fahrenheit);
    }
    let word = peeked_word(input)?;
    let scale = match word.word.as_str() {
        "c" | "celsius" | "centigrade" | "centigrados" => Scale::Celsius,
        "f" | "fahrenheit" | "farenheit" => Scale::Fahrenheit,
        _ => return Err(Misfit),
    };
    // "2 c flour" are cups: a small letter has to stand close.
    if word.text == "c" && word.space > 0 {
        return Err(Misfit);
    }
    take(input, 1);
    Ok(scale)
}

/// "gas mark 6", "gas 6", "th. 6".
fn by_gas(input: &mut Input<'_, '_>) -> Result<(f64, Scale)> {
    if phrase(input, GAS).is_ok() {
        let number = range(input)?;
        let fahrenheit = match number.middle() {
            quarter if quarter <= 0.25 => f64::from(GasMark::Quarter.fahrenheit()),
            half if half <= 0.5 => f64::from(GasMark::Half.fahrenheit()),
            // Marks lie 25 °F apart, so half a mark between two is meant by "3–4".
            mark if mark <= 10.0 => 250.0 + 25.0 * mark,
            _ => return Err(Misfit),
        };
        return Ok(((fahrenheit - 32.0) / 1.8, Scale::Gas));
    }
    phrase(input, THERMOSTAT)?;
    let number = range(input)?;
    if !(1.0..=10.0).contains(&number.middle()) {
        return Err(Misfit);
    }
    // Marks of French ovens lie 30 °C apart: 6 is 180 °C. Common practice, no source.
    Ok((30.0 * number.middle(), Scale::Thermostat))
}

/// Whether it is said to be of an oven with or without a fan.
fn fan(input: &mut Input<'_, '_>) -> Option<bool> {
    let with = phrase(input, WITH_FAN).is_ok();
    if !with {
        phrase(input, WITHOUT_FAN).ok()?;
        // "Ober-/Unterhitze", "O/U".
        if mark(input, &['-']).is_ok() | mark(input, &['/']).is_ok() {
            phrase(input, HEAT_FROM_BELOW).ok();
        }
    }
    mark(input, &[':']).ok();
    Some(with)
}

/// Whether a single word says whether the oven has a fan.
pub(crate) fn names_a_fan(word: &str) -> bool {
    // An "o" is mostly an "or".
    word != "o" && (WITH_FAN.contains(&word) || WITHOUT_FAN.contains(&word))
}

/// A bare number that can be an oven's temperature, where the words around speak of an oven.
pub(crate) fn bare(input: &mut Input<'_, '_>) -> Result<Heat> {
    let number = digits(input)?;
    let fan = fan(input).unwrap_or(false);
    let celsius = match number.value {
        celsius if (100.0..=HOTTEST_CELSIUS).contains(&celsius) => celsius,
        fahrenheit if (HOTTEST_CELSIUS..=550.0).contains(&fahrenheit) => (fahrenheit - 32.0) / 1.8,
        _ => return Err(Misfit),
    };
    Ok(Heat {
        celsius,
        fan,
        scale: Scale::Guessed,
    })
}

/// Home ovens go no higher in °C, and nobody bakes bread below it in °F.
const HOTTEST_CELSIUS: f64 = 290.0;

#[cfg(test)]
mod tests;
