//! How many pieces a text says that it makes: "Makes 12 buns", "Für 12 Stück", "Yield: 2 loaves".
//!
//! Left out: the size of a batch in grams or tins.

use super::heading::without_frame;
use super::ingredient::cut_out;
use crate::found::Makes;
use crate::grammar::amount::about;
use crate::grammar::number::range;
use crate::grammar::tokens::Token;
use crate::grammar::units::{Unit, unit};
use crate::grammar::{input, mark, perhaps, phrase, rest, time};
use crate::language::Language;

/// How such a line begins.
#[rustfmt::skip]
const OPENING: &[&str] = &[
    "makes", "make", "serves", "serving", "servings", "yield", "yields", "for", "quantity", "makes about", "ergibt",
    "fur", "reicht fur", "portionen", "menge", "stuckzahl", "pour", "donne", "nombre de", "para", "salen", "rinde",
    "raciones", "gir", "til", "antall", "blir", "ca",
];

/// What stands between the number and what is made.
#[rustfmt::skip]
const PIECES: &[&str] = &[
    "stuck", "stk", "x", "small", "large", "medium", "kleine", "grosse", "petits", "petites", "store", "sma",
];

/// More are no batch of a home.
const MOST: f64 = 500.0;
/// The name of what is made has no more words.
const NOUN: usize = 3;
/// A line that goes on for longer tells something else.
const MOST_BEHIND: usize = 12;

/// How many pieces a line says that it all makes.
pub(crate) fn makes(text: &str, tokens: &[Token<'_>], language: Language) -> Option<Makes> {
    let mut input = input(without_frame(tokens), language);
    phrase(&mut input, OPENING).ok()?;
    mark(&mut input, &[':', '=']).ok();
    about(&mut input);
    let number = range(&mut input).ok()?;
    let count = number.high.round();
    if !(1.0..=MOST).contains(&count) {
        return None;
    }
    phrase(&mut input, PIECES).ok();
    let behind = rest(&input);
    if is_of_something_else(behind, language) || behind.len() > MOST_BEHIND {
        return None;
    }
    let words = behind.iter().take_while(|token| token.is_word());
    let noun = &behind[..words.take(NOUN).count()];
    Some(Makes {
        count: count as u16,
        noun: cut_out(text, noun).to_owned(),
    })
}

/// "For 500 g flour" and "for 10 minutes" make nothing.
fn is_of_something_else(behind: &[Token<'_>], language: Language) -> bool {
    let unit = perhaps(&mut input(behind, language), unit);
    let is_measured = unit.is_some_and(|unit| unit != Unit::Piece);
    is_measured
        || behind.first().is_some_and(|token| {
            time::is_unit(&token.word)
                || token.word == "cm"
                || token.is_mark('%')
                || token.is_mark('°')
        })
}

#[cfg(test)]
mod tests;
