//! How long something takes: "10–12 Std.", "1 hr 15 min", "an hour and a half", "overnight".
//!
//! Left out: times of day ("until 7 in the morning"), and lengths that hang on something else ("twice as long").

pub(super) mod words;

use super::number::{digits, parting, range};
use super::words::{ABOUT, AND, AND_A_HALF, AND_A_QUARTER};
use super::{
    Input, Misfit, Result, beginning_alike, mark, meaning, peeked, peeked_word, perhaps, phrase,
};
use crate::language::Language;
use words::{HOUR, OVERNIGHT, WORDED, minutes_of};

/// A length of time, in minutes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Span {
    pub(crate) low_min: f64,
    pub(crate) high_min: f64,
}

/// ASSUMPTION: a night between an evening and a morning in the kitchen, in hours.
const NIGHT: (f64, f64) = (8.0, 12.0);

/// A length of time, if one stands next.
pub(crate) fn span(input: &mut Input<'_, '_>) -> Result<Span> {
    super::skip(input, ABOUT);
    if let Some(night) = perhaps(input, overnight) {
        return Ok(night);
    }
    let first = perhaps(input, worded).map_or_else(|| counted(input), Ok)?;
    // "45 minutes to 1 hour", "1 hour or 2".
    let second = perhaps(input, |input| {
        parting(input, false)?;
        super::skip(input, ABOUT);
        let second = perhaps(input, worded).map_or_else(|| counted(input), Ok)?;
        if second.high_min > first.high_min {
            Ok(second)
        } else {
            Err(Misfit)
        }
    });
    Ok(Span {
        high_min: second.unwrap_or(first).high_min,
        ..first
    })
}

fn only(minutes: f64) -> Span {
    Span {
        low_min: minutes,
        high_min: minutes,
    }
}

fn overnight(input: &mut Input<'_, '_>) -> Result<Span> {
    phrase(input, OVERNIGHT)?;
    let (low, high) = NIGHT;
    Ok(Span {
        low_min: low * HOUR,
        high_min: high * HOUR,
    })
}

/// A time in words of its own.
fn worded(input: &mut Input<'_, '_>) -> Result<Span> {
    peeked_word(input)?;
    meaning(input, beginning_alike(input, WORDED)).map(only)
}

/// A number with a unit of time, and perhaps a smaller one behind it.
fn counted(input: &mut Input<'_, '_>) -> Result<Span> {
    if let Some(clock) = perhaps(input, by_the_clock) {
        return Ok(clock);
    }
    let number = range(input)?;
    // "1–2-hour", "a 10-minute rest".
    perhaps(input, |input| mark(input, &['-', '‑']));
    let unit = unit(input)?;
    let mut span = Span {
        low_min: number.low * unit,
        high_min: number.high * unit,
    };
    if unit > 1.0 && !number.is_range() {
        let smaller = perhaps(input, |input| smaller(input, unit)).unwrap_or(0.0);
        span.low_min += smaller;
        span.high_min += smaller;
    }
    Ok(span)
}

/// "15 min" behind "1 hr", "30" behind "1 h", "and a half" behind "2 hours".
fn smaller(input: &mut Input<'_, '_>, unit: f64) -> Result<f64> {
    if phrase(input, AND_A_HALF).is_ok() {
        return Ok(unit / 2.0);
    }
    if phrase(input, AND_A_QUARTER).is_ok() {
        return Ok(unit / 4.0);
    }
    perhaps(input, |input| phrase(input, AND));
    let close = peeked(input).is_some_and(|token| token.space == 0);
    let number = digits(input)?;
    match perhaps(input, self::unit) {
        Some(next) if next < unit => Ok(number.value * next),
        // "1 h ¼" is a part of an hour.
        None if number.value < 1.0 => Ok(number.value * unit),
        // "1h30" and "1 h 30" say minutes; "bake 1 hour 200 °C" doesn't.
        None if unit == HOUR && number.value < HOUR && (close || ends(input)) => Ok(number.value),
        _ => Err(Misfit),
    }
}

fn ends(input: &Input<'_, '_>) -> bool {
    peeked(input).is_none_or(|token| {
        ['.', ',', ';', ')', ':']
            .iter()
            .any(|&mark| token.is_mark(mark))
            || (token.is_word() && token.word != "c" && token.word != "f")
    })
}

/// "1:30 h", "0:45 Std.".
fn by_the_clock(input: &mut Input<'_, '_>) -> Result<Span> {
    let hours = digits(input)?;
    mark(input, &[':'])?;
    let minutes = digits(input)?;
    if minutes.value >= HOUR || self::unit(input)? != HOUR {
        return Err(Misfit);
    }
    Ok(only(hours.value * HOUR + minutes.value))
}

/// A unit of time, in minutes.
fn unit(input: &mut Input<'_, '_>) -> Result<f64> {
    // Minutes of a clock face: 90'. Inches have two strokes.
    if peeked(input).is_some_and(|token| token.space == 0)
        && perhaps(input, |input| mark(input, &['\'', '′', '’'])).is_some()
    {
        return Ok(1.0);
    }
    let word = peeked_word(input)?;
    // "m" stands close to its number or it is none.
    if word.word == "m" && word.space > 0 {
        return Err(Misfit);
    }
    let minutes = minutes_of(&word.word, input.state).ok_or(Misfit)?;
    phrase(input, &[&word.word])?;
    Ok(minutes)
}

/// Whether a word is a unit of time in any language.
pub(crate) fn is_unit(word: &str) -> bool {
    minutes_of(word, Language::Norwegian).is_some()
}

#[cfg(test)]
mod tests;
