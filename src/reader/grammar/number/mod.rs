//! Numbers as people write them: digits, fractions, words, and ranges of these.
//!
//! Left out: Roman numerals, and numbers in words above a hundred.

pub(super) mod words;

use winnow::Parser as _;
use winnow::combinator::alt;

use super::tokens::{Kind, Token};
use super::words::AND;
use super::{
    Input, Misfit, Result, beginning_alike, mark, meaning, peeked, peeked_word, perhaps, phrase,
    rest, take,
};
use words::{ANYWHERE, BETWEEN, DOZENS, TO, own};

/// One number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Number {
    pub(crate) value: f64,
    /// What it is with points and commas parting thousands.
    pub(crate) thousands: Option<f64>,
}

/// From a number to another; the same one twice where it is no range.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Range {
    pub(crate) low: f64,
    pub(crate) high: f64,
    pub(crate) thousands: Option<f64>,
}

impl Range {
    pub(crate) fn only(value: f64) -> Self {
        Self {
            low: value,
            high: value,
            thousands: None,
        }
    }

    pub(crate) fn middle(self) -> f64 {
        f64::midpoint(self.low, self.high)
    }

    pub(crate) fn is_range(self) -> bool {
        self.high > self.low
    }

    pub(crate) fn map(self, change: impl Fn(f64) -> f64) -> Self {
        Self {
            low: change(self.low),
            high: change(self.high),
            thousands: self.thousands.map(&change),
        }
    }
}

/// A number in digits, with or without a fraction: "2", "2,5", "½", "1 ½", "1 1/2", "1-1/2", "3/4".
pub(crate) fn digits(input: &mut Input<'_, '_>) -> Result<Number> {
    alt((mixed, fraction, vulgar, plain)).parse_next(input)
}

/// A number in digits or in words, and of dozens where they are counted: "2 dozen".
pub(crate) fn number(input: &mut Input<'_, '_>) -> Result<Number> {
    let number = alt((digits, in_words)).parse_next(input)?;
    match phrase(input, DOZENS) {
        Ok(()) => Ok(exact(12.0 * number.value)),
        Err(Misfit) => Ok(number),
    }
}

/// A range of numbers, or one of them.
pub(crate) fn range(input: &mut Input<'_, '_>) -> Result<Range> {
    let between = perhaps(input, |input| phrase(input, BETWEEN));
    let low = number(input)?;
    let high = perhaps(input, |input| {
        parting(input, between.is_some())?;
        let high = number(input)?;
        if high.value > low.value {
            Ok(high)
        } else {
            Err(Misfit)
        }
    });
    Ok(Range {
        low: low.value,
        high: high.unwrap_or(low).value,
        thousands: low.thousands.filter(|_| high.is_none()),
    })
}

/// What stands between the ends of a range.
pub(crate) fn parting(input: &mut Input<'_, '_>, is_between: bool) -> Result<()> {
    if mark(input, &['-', '–', '—', '−', '‐', '‑', '~']).is_ok() {
        return Ok(());
    }
    if is_between && phrase(input, AND).is_ok() {
        return Ok(());
    }
    phrase(input, TO)
}

fn plain(input: &mut Input<'_, '_>) -> Result<Number> {
    let token = peeked(input).ok_or(Misfit)?;
    let Kind::Number { value, thousands } = token.kind else {
        return Err(Misfit);
    };
    take(input, 1);
    Ok(Number { value, thousands })
}

fn vulgar(input: &mut Input<'_, '_>) -> Result<Number> {
    let Some(Kind::Vulgar(value)) = peeked(input).map(|token| token.kind) else {
        return Err(Misfit);
    };
    take(input, 1);
    Ok(exact(value))
}

/// "3/4": a smaller number over a larger one that somebody divides by.
fn fraction(input: &mut Input<'_, '_>) -> Result<Number> {
    let [over, stroke, under, ..] = rest(input) else {
        return Err(Misfit);
    };
    let value = over_under(over, stroke, under).ok_or(Misfit)?;
    take(input, 3);
    Ok(exact(value))
}

fn over_under(over: &Token<'_>, stroke: &Token<'_>, under: &Token<'_>) -> Option<f64> {
    let (over, under) = (whole(over)?, whole(under)?);
    let is_stroke = stroke.is_mark('/') || stroke.is_mark('⁄');
    let divides = [2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0].contains(&under);
    (is_stroke && divides && over < under && over > 0.0).then(|| over / under)
}

fn whole(token: &Token<'_>) -> Option<f64> {
    match token.kind {
        Kind::Number { value, .. } if value.fract() == 0.0 => Some(value),
        _ => None,
    }
}

/// "1 ½", "1½", "1 1/2", "1-1/2", "1 and 1/2".
fn mixed(input: &mut Input<'_, '_>) -> Result<Number> {
    let first = peeked(input).and_then(whole).ok_or(Misfit)?;
    take(input, 1);
    let joined = perhaps(input, |input| {
        if phrase(input, AND).is_ok() {
            return Ok(());
        }
        let close = |token: &&Token<'_>| token.space == 0;
        peeked(input).filter(close).ok_or(Misfit)?;
        mark(input, &['-', '‑', '‐'])?;
        peeked(input).filter(close).map(|_| ()).ok_or(Misfit)
    });
    let part = alt((fraction, vulgar)).parse_next(input)?;
    // "7 3/4" is mixed, while "500 1/2" may be anything.
    if joined.is_none() && first > MOST_WHOLE {
        return Err(Misfit);
    }
    Ok(exact(first + part.value))
}

/// The most that stands before a fraction.
const MOST_WHOLE: f64 = 99.0;

fn exact(value: f64) -> Number {
    Number {
        value,
        thousands: None,
    }
}

/// "half a", "drei", "une", "to" in Norwegian.
fn in_words(input: &mut Input<'_, '_>) -> Result<Number> {
    peeked_word(input)?;
    let anywhere = beginning_alike(input, ANYWHERE);
    let words = own(input.state).iter().chain(anywhere);
    meaning(input, words).map(exact)
}

#[cfg(test)]
mod tests;
