//! Amounts: "2 1/2 cups", "1 lb 2 oz", "4 x 125 g", "about 340 g".
//!
//! Left out: ranges from one unit to another ("500 g to 1 kg"), of which the first amount is taken.

use super::number::{Number, Range, digits, number, parting, range};
use super::openings::ABOUT_SIGNS;
use super::units::{Unit, unit};
use super::words::{ABOUT, AND, AND_A_HALF, HEAPED};
use super::{Input, Misfit, Result, mark, may_begin, peeked, perhaps, phrase, skip};

/// A number of something.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Term {
    pub(crate) number: Range,
    pub(crate) unit: Unit,
    /// Whether the unit was written; pieces needn't be.
    pub(crate) has_unit: bool,
}

/// Terms that are added up: "1 lb 2 oz".
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Amount {
    pub(crate) terms: Vec<Term>,
}

impl Amount {
    /// Of two ways to say an amount the less vague one is taken.
    pub(crate) fn vagueness(&self) -> u8 {
        let vagueness = |term: &Term| term.unit.vagueness();
        self.terms.iter().map(vagueness).max().unwrap_or(u8::MAX)
    }

    /// Whether a unit stands with every number.
    pub(crate) fn has_unit(&self) -> bool {
        self.terms.iter().all(|term| term.has_unit)
    }

    /// Whether it counts pieces: "2 stk".
    pub(crate) fn is_pieces(&self) -> bool {
        self.terms.iter().all(|term| term.unit == Unit::Piece)
    }

    /// So many times as much.
    pub(crate) fn times(mut self, factor: f64) -> Self {
        for term in &mut self.terms {
            term.number = term.number.map(|value| value * factor);
        }
        self
    }
}

/// An amount with its units, or a bare number of pieces.
pub(crate) fn amount(input: &mut Input<'_, '_>) -> Result<Amount> {
    peeked(input).filter(|next| may_begin(next)).ok_or(Misfit)?;
    about(input);
    if let Some(several) = perhaps(input, several) {
        return Ok(several);
    }
    let first = term(input)?;
    let mut terms = vec![first];
    if first.has_unit {
        while let Some(next) = perhaps(input, |input| further(input, first.unit)) {
            terms.push(next);
        }
    }
    about_after(input);
    Ok(Amount { terms })
}

/// A number and its unit.
pub(crate) fn term(input: &mut Input<'_, '_>) -> Result<Term> {
    let number = range(input)?;
    // "500 g to 550 g": the unit may stand behind both numbers.
    let found = perhaps(input, |input| unit_behind(input, number));
    let unit = found.unwrap_or(Unit::Piece);
    let mut term = Term {
        number: meant(number, unit),
        unit,
        has_unit: found.is_some(),
    };
    if !term.has_unit {
        return Ok(term);
    }
    if phrase(input, AND_A_HALF).is_ok() {
        term.number = term.number.map(|value| value + 0.5);
    }
    if !term.number.is_range() {
        let high = perhaps(input, |input| {
            parting(input, false)?;
            let high = number_of(input, unit)?;
            if high > term.number.low {
                Ok(high)
            } else {
                Err(Misfit)
            }
        });
        term.number.high = high.unwrap_or(term.number.high);
    }
    Ok(term)
}

fn unit_behind(input: &mut Input<'_, '_>, number: Range) -> Result<Unit> {
    skip(input, HEAPED);
    // "1/4-oz."
    if peeked(input).is_some_and(|token| token.space == 0) {
        mark(input, &['-', '‑']).ok();
    }
    let letter = peeked(input).map_or("", |token| token.text);
    let found = unit(input)?;
    // "26 C" is a temperature; nobody takes so many cups.
    if letter.eq_ignore_ascii_case("c") && number.low > MOST_CUPS {
        return Err(Misfit);
    }
    Ok(found)
}

/// The thousands of "1.000 g" are taken where grams or millilitres say that they are meant.
fn meant(number: Range, unit: Unit) -> Range {
    match (number.thousands, unit) {
        (Some(thousands), Unit::Grams(1.0) | Unit::Millilitres(1.0)) => Range::only(thousands),
        _ => number,
    }
}

/// More are no cups.
const MOST_CUPS: f64 = 12.0;

/// The upper end of a range, with the same unit once more.
fn number_of(input: &mut Input<'_, '_>, wanted: Unit) -> Result<f64> {
    let Number { value, thousands } = number(input)?;
    let range = Range {
        thousands,
        ..Range::only(value)
    };
    match unit(input)? {
        found if found == wanted => Ok(meant(range, wanted).low),
        _ => Err(Misfit),
    }
}

/// "4 x 125 g", "2 (400 g) tins", "one 400 g tin".
fn several(input: &mut Input<'_, '_>) -> Result<Amount> {
    let count = number(input)?;
    let crossed = mark(input, &['×', '*']).is_ok() || phrase(input, &["x"]).is_ok();
    let opened = !crossed && mark(input, &['(']).is_ok();
    about(input);
    let Number { value, thousands } = digits(input)?;
    if peeked(input).is_some_and(|token| token.space == 0) {
        mark(input, &['-', '‑']).ok();
    }
    let unit_of_each = unit(input)?;
    if opened {
        perhaps(input, |input| phrase(input, &["each"]));
        mark(input, &[')'])?;
    }
    if !matches!(unit_of_each, Unit::Grams(_) | Unit::Millilitres(_)) {
        return Err(Misfit);
    }
    // Without a cross it is a container that tells what is in it, or else "1 500 g" is one number and a bit.
    let container = perhaps(input, |input| match unit(input)? {
        Unit::Container | Unit::Packet | Unit::Cube => Ok(()),
        _ => Err(Misfit),
    });
    if !crossed && container.is_none() {
        return Err(Misfit);
    }
    let each = Range {
        thousands,
        ..Range::only(value)
    };
    Ok(Amount {
        terms: vec![Term {
            number: meant(each, unit_of_each).map(|each| count.value * each),
            unit: unit_of_each,
            has_unit: true,
        }],
    })
}

/// "2 oz" behind "1 lb", "plus 2 tbsp" behind "1 cup".
fn further(input: &mut Input<'_, '_>, first: Unit) -> Result<Term> {
    let joined = perhaps(input, |input| {
        if mark(input, &['+']).is_ok() {
            return Ok(());
        }
        phrase(input, &["plus"]).or_else(|Misfit| phrase(input, AND))
    });
    let next = term(input)?;
    let smaller = match (first, next.unit) {
        (Unit::Grams(large), Unit::Grams(small))
        | (Unit::Millilitres(large), Unit::Millilitres(small)) => small < large,
        (Unit::Cup, Unit::Tablespoon | Unit::Teaspoon) | (Unit::Tablespoon, Unit::Teaspoon) => {
            joined.is_some()
        }
        _ => false,
    };
    if smaller && next.has_unit {
        Ok(next)
    } else {
        Err(Misfit)
    }
}

/// "about", "ca.", "~".
pub(crate) fn about(input: &mut Input<'_, '_>) {
    while mark(input, ABOUT_SIGNS).is_ok() || phrase(input, ABOUT).is_ok() {}
}

/// "approx." behind the amount, and what parts it from the name.
fn about_after(input: &mut Input<'_, '_>) {
    perhaps(input, |input| {
        phrase(input, &["approx", "circa", "environ", "ca"])
    });
    if mark(input, &['|', ':', ';', '–', '—', '-']).is_ok() {
        while mark(input, &['|']).is_ok() {}
    }
}

#[cfg(test)]
mod tests;
