//! Text in tokens: numbers, fractions, words and marks.
//!
//! A token keeps its place, so that what was understood can be cut out of the text and the rest stays letter for
//! letter what it was. Left out: numbers in digits of other scripts, which are marks.

use winnow::Parser as _;
use winnow::combinator::{alt, opt};
use winnow::stream::Stream as _;
use winnow::token::{any, take_while};

use super::Result;
use domain::food::{is_accent, unaccented};

/// What a token is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Kind {
    /// Digits, perhaps with points and commas; the value with the last of them as the decimal point.
    Number {
        value: f64,
        /// The value with every point and comma parting thousands, where that can be meant: "1.000".
        thousands: Option<f64>,
    },
    /// A fraction in one letter: ½.
    Vulgar(f64),
    /// Letters.
    Word,
    /// Anything else, one letter each.
    Mark(char),
}

/// A piece of a text.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Token<'a> {
    pub(crate) kind: Kind,
    /// As it is written.
    pub(crate) text: &'a str,
    /// In lower case and without accents, where it is a word; empty otherwise.
    pub(crate) word: String,
    /// Where it begins in the text, in bytes.
    pub(crate) start: usize,
    /// How much space stands before it, in letters; a tab counts as many.
    pub(crate) space: usize,
}

impl Token<'_> {
    /// Where it ends in the text, in bytes.
    pub(crate) fn end(&self) -> usize {
        self.start + self.text.len()
    }

    pub(crate) fn is_mark(&self, mark: char) -> bool {
        self.kind == Kind::Mark(mark)
    }

    pub(crate) fn is_word(&self) -> bool {
        self.kind == Kind::Word
    }

    pub(crate) fn is_number(&self) -> bool {
        matches!(self.kind, Kind::Number { .. } | Kind::Vulgar(_))
    }
}

/// The tokens of a text. It takes as long as the text is.
pub(crate) fn tokens(text: &str) -> Vec<Token<'_>> {
    let mut rest = text;
    let mut found = Vec::new();
    let mut space = 0;
    while let Some(next) = rest.chars().next() {
        if next.is_whitespace() || next == '\u{feff}' || next == '\u{200b}' {
            space += if next == '\t' { TAB } else { 1 };
            rest = &rest[next.len_utf8()..];
            continue;
        }
        let start = text.len() - rest.len();
        let before = rest;
        // The last of the alternatives takes any letter.
        let Ok(kind) = token(&mut rest) else { break };
        let written = &before[..before.len() - rest.len()];
        found.push(Token {
            kind,
            text: written,
            word: match kind {
                Kind::Word => unaccented(written),
                _ => String::new(),
            },
            start,
            space,
        });
        space = 0;
    }
    found
}

/// A tab parts columns, as a wide gap does.
const TAB: usize = 8;

fn token(input: &mut &str) -> Result<Kind> {
    alt((number, vulgar, word, mark)).parse_next(input)
}

/// Digits with points or commas between them: "1.000,5" or "2,5". A stroke or point that no digit follows isn't its own.
fn number(input: &mut &str) -> Result<Kind> {
    let mut groups = Vec::with_capacity(2);
    let first = digits(input)?;
    loop {
        let before = input.checkpoint();
        let part = take_while(1..=1, ['.', ',', '\u{a0}', '\u{202f}', '\'', '’']);
        match (part, digits).parse_next(input) as Result<(&str, &str)> {
            // A space that can't be broken parts thousands and nothing else.
            Ok((part, group)) if matches!(part, "." | ",") || group.len() == 3 => {
                groups.push((part, group));
            }
            _ => {
                input.reset(&before);
                break;
            }
        }
    }
    Ok(valued(first, &groups))
}

fn digits<'a>(input: &mut &'a str) -> Result<&'a str> {
    take_while(1.., |letter: char| letter.is_ascii_digit()).parse_next(input)
}

/// What digits in groups come to.
fn valued(first: &str, groups: &[(&str, &str)]) -> Kind {
    let by_thousands = !groups.is_empty()
        && (1..=3).contains(&first.len())
        && !first.starts_with('0')
        && groups
            .iter()
            .all(|(part, group)| group.len() == 3 && *part == groups[0].0);
    let all: String = groups.iter().map(|(_, group)| *group).collect();
    let thousands = by_thousands.then(|| reckoned(first, &all, 0));
    let value = match groups {
        [.., (_, last)] if !by_thousands || groups.len() == 1 => reckoned(first, &all, last.len()),
        _ => reckoned(first, &all, 0),
    };
    let sure = groups.iter().any(|(part, _)| !matches!(*part, "." | ","));
    match thousands {
        Some(thousands) if sure || groups.len() > 1 => Kind::Number {
            value: thousands,
            thousands: None,
        },
        thousands => Kind::Number { value, thousands },
    }
}

/// The digits as one number, so many of them after the point. More digits than anybody weighs are cut.
fn reckoned(first: &str, rest: &str, after_point: usize) -> f64 {
    const MOST_DIGITS: usize = 15;
    let mut value = 0.0;
    for digit in first.chars().chain(rest.chars()).take(MOST_DIGITS) {
        value = value * 10.0 + f64::from(digit.to_digit(10).unwrap_or(0));
    }
    let cut = (first.len() + rest.len()).saturating_sub(MOST_DIGITS);
    let places = after_point.saturating_sub(cut).min(MOST_DIGITS);
    let beyond = cut.saturating_sub(after_point).min(MOST_DIGITS);
    value * 10_f64.powi(beyond as i32) / 10_f64.powi(places as i32)
}

fn vulgar(input: &mut &str) -> Result<Kind> {
    any.verify_map(|letter| {
        Some(Kind::Vulgar(match letter {
            '½' => 1.0 / 2.0,
            '⅓' => 1.0 / 3.0,
            '⅔' => 2.0 / 3.0,
            '¼' => 1.0 / 4.0,
            '¾' => 3.0 / 4.0,
            '⅕' => 1.0 / 5.0,
            '⅖' => 2.0 / 5.0,
            '⅗' => 3.0 / 5.0,
            '⅘' => 4.0 / 5.0,
            '⅙' => 1.0 / 6.0,
            '⅚' => 5.0 / 6.0,
            '⅛' => 1.0 / 8.0,
            '⅜' => 3.0 / 8.0,
            '⅝' => 5.0 / 8.0,
            '⅞' => 7.0 / 8.0,
            _ => return None,
        }))
    })
    .parse_next(input)
}

/// Letters, with an apostrophe or a hyphen between two of them: "d'eau", "fast-action", "all-purpose".
fn word(input: &mut &str) -> Result<Kind> {
    let letters = |input: &mut &str| -> Result<()> {
        take_while(1.., |letter: char| is_letter(letter) || is_accent(letter))
            .void()
            .parse_next(input)
    };
    letters(input)?;
    loop {
        let before = input.checkpoint();
        let joined = opt(take_while(1..=1, ['\'', '’', '-', '‑'])).parse_next(input)?;
        if joined.is_none() || letters(input).is_err() {
            input.reset(&before);
            return Ok(Kind::Word);
        }
    }
}

/// The sign of an ordinal counts as a letter elsewhere; here it is a degree, as Spaniards type it.
fn is_letter(letter: char) -> bool {
    letter.is_alphabetic() && letter != 'º'
}

fn mark(input: &mut &str) -> Result<Kind> {
    any.map(Kind::Mark).parse_next(input)
}

#[cfg(test)]
mod tests;
