//! Ingredients that stand in the midst of sentences: "rub 2 oz of lard into 1 lb of flour".

use super::cuts::LOOKED_AT;
use super::{Said, Written, alternatives, amount, cut_out};
use crate::foods;
use crate::grammar::tokens::Token;
use crate::grammar::words::OF;
use crate::grammar::{input, phrase, rest};
use crate::language::Language;

/// The words with which a name in a sentence ends.
#[rustfmt::skip]
const ENDS: &[&str] = &[
    "into", "in", "and", "with", "to", "for", "from", "over", "on", "at", "or", "until", "then", "that", "which", "stop",
    "was", "is", "are", "a", "the",
    "und", "mit", "auf", "zu", "fur",
    "et", "avec", "dans", "sur",
    "y", "con", "en", "para",
    "og", "med", "i", "pa", "til",
];

/// The ingredients of a sentence that have an amount.
pub(crate) fn inside(text: &str, tokens: &[Token<'_>], language: Language) -> Vec<Written> {
    let mut found = Vec::new();
    let mut place = 0;
    while place < tokens.len() {
        match one_inside(text, &tokens[place..], language) {
            Some((written, taken)) => {
                found.push(written);
                place += taken.max(1);
            }
            None => place += 1,
        }
    }
    found
}

/// An amount with a food right behind it, and how many tokens they take.
fn one_inside(text: &str, tokens: &[Token<'_>], language: Language) -> Option<(Written, usize)> {
    let mut input = input(tokens, language);
    let mut said = Said {
        amounts: vec![amount(&mut input).ok()?],
        percent: None,
    };
    alternatives(&mut input, &mut said.amounts);
    let spent = tokens.len() - rest(&input).len();
    phrase(&mut input, OF).ok();
    let named = rest(&input);
    let words = named.iter().take(LOOKED_AT);
    let length = words
        .take_while(|token| token.is_word() && !ENDS.contains(&token.word.as_str()))
        .count();
    let taken = tokens.len() - named.len() + length;
    let name = cut_out(text, &named[..length]);
    let written = Written {
        name: name.to_owned(),
        known: Some(foods::known(name)?),
        is_amount_first: true,
        ..Written::default()
    };
    Some((said.of(written, cut_out(text, &tokens[..spent])), taken))
}
