//! Lines that say nothing to bake by, though they have numbers: "Prep time: 20 min", "320 kcal", "Total 1905 g".
//!
//! Left out: talk. A line of it is no aside, but has neither ingredients nor a verb of the trade, and so is passed over.

mod words;

use super::heading::without_frame;
use super::table::{GAP, is_head};
use crate::grammar::tokens::{Kind, Token};
use words::{ANYWHERE, BEGINS, CURRENCIES, TOTALS};

/// Whether a line is none of the ingredients and steps, though it may look like them.
pub(crate) fn is_aside(tokens: &[Token<'_>]) -> bool {
    let tokens = without_frame(tokens);
    let tokens = match tokens {
        [open, rest @ ..] if open.is_mark('(') => rest,
        all => all,
    };
    if !tokens.iter().any(Token::is_word) || is_head(tokens) || is_total(tokens) {
        return true;
    }
    let ends = |token: &Token<'_>| {
        token.is_mark(':') || token.is_mark('|') || token.is_number() || token.space >= GAP
    };
    let Some(end) = tokens.iter().skip(1).position(ends).map(|end| end + 1) else {
        return has_telling_word(tokens);
    };
    let front: Vec<&str> = tokens[..end]
        .iter()
        .map(|token| token.word.as_str())
        .collect();
    // A single word needs its colon: "Time: 20 min", while "from 2 lemons" is no aside.
    let is_told = front.len() > 1 || !tokens[end].is_number();
    let front = front.join(" ");
    (is_told && BEGINS.contains(&front.trim())) || has_telling_word(tokens)
}

/// "TOTAL .... 1905 g", "| **923 g** | **Total** |".
fn is_total(tokens: &[Token<'_>]) -> bool {
    let words = tokens
        .iter()
        .filter(|token| token.is_word() && token.word.len() > 2);
    let words: Vec<&str> = words.take(3).map(|token| token.word.as_str()).collect();
    let has_number = tokens.iter().any(Token::is_number);
    has_number && words.len() <= 3 && words.first().is_some_and(|word| TOTALS.contains(word))
}

fn has_telling_word(tokens: &[Token<'_>]) -> bool {
    let told = |token: &Token<'_>| {
        ANYWHERE.contains(&token.word.as_str()) || token.is_mark('★') || token.is_mark('☆')
    };
    tokens.iter().take(LOOKED_AT).any(told)
}

/// So many tokens of a line are looked at.
const LOOKED_AT: usize = 60;
/// Whether a line has a price in it: what is sold is not what is baked.
pub(crate) fn has_price(tokens: &[Token<'_>]) -> bool {
    let sign = |token: &Token<'_>| matches!(token.kind, Kind::Mark('€' | '$' | '£'));
    let mut near = tokens.iter().take(LOOKED_AT);
    tokens.iter().any(sign) || near.any(|token| CURRENCIES.contains(&token.word.as_str()))
}

#[cfg(test)]
mod tests;
