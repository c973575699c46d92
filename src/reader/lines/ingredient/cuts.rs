//! Where one ingredient of a line ends and another begins: "500 g flour and 10 g salt", "WATER 270 ML, SALT 2 TSP".
//!
//! A comma or an "and" is no end by itself ("peeled and chopped"): before it there is a food, and behind it another with
//! its own amount, or a list has been going on.

use crate::foods;
use crate::grammar::amount::amount;
use crate::grammar::tokens::{Kind, Token};
use crate::grammar::words::AND;
use crate::grammar::{Input, Misfit, Result, input, mark, peeked, phrase, rest};
use crate::language::Language;

/// Where one ingredient ends and another begins.
pub(super) struct Cut {
    pub(super) at: usize,
    pub(super) past: usize,
}

/// How many words of a name are looked at to see whether it is a food.
pub(super) const LOOKED_AT: usize = 8;

pub(super) fn cuts(tokens: &[Token<'_>], language: Language) -> Vec<Cut> {
    let mut found: Vec<Cut> = Vec::new();
    let mut depth = 0_usize;
    let mut place = 1;
    while place < tokens.len() {
        match tokens[place].kind {
            Kind::Mark('(') => depth += 1,
            Kind::Mark(')') => depth = depth.saturating_sub(1),
            _ => {}
        }
        let mut parted = input(&tokens[place..], language);
        let is_parted = depth == 0 && parting(&mut parted).is_ok();
        let past = tokens.len() - rest(&parted).len();
        let from = found.last().map_or(0, |cut| cut.past);
        let is_list = found.len() >= LIST;
        if is_parted && is_cut(tokens, from, place, past, is_list, language) {
            found.push(Cut { at: place, past });
            place = past;
        } else {
            place += 1;
        }
    }
    found
}

/// Whether what parts two things at a place parts two ingredients.
fn is_cut(
    tokens: &[Token<'_>],
    from: usize,
    place: usize,
    past: usize,
    is_list: bool,
    language: Language,
) -> bool {
    let (before, behind) = (&tokens[from..place], &tokens[past..]);
    let is_comma = tokens[place].is_mark(',');
    let may_be = begins_with_a_measured_food(behind, language)
        || (is_comma && ends_with_its_amount(before, language))
        || (is_comma && is_list && is_bare_food(behind));
    may_be && is_about_a_food(before)
}

/// What stands between two ingredients of a line, beside "and".
const BETWEEN: &[&str] = &[
    "plus",
    "sowie",
    "in",
    "dissolved in",
    "mixed with",
    "with",
    "mit",
    "in etwas",
    "dans",
    "con",
    "med",
    "i",
];

fn parting(input: &mut Input<'_, '_>) -> Result<()> {
    let marked = mark(input, &[',', ';', '+', '&', '·', '•', '.', '/']);
    let said = phrase(input, BETWEEN).or_else(|Misfit| phrase(input, AND));
    marked.or(said)
}

/// "2 tbsp for the top": a small word first tells that no name follows.
const NO_NAME: &[&str] = &[
    "for", "fur", "pour", "para", "til", "extra", "more", "davon",
];

/// Whether another ingredient with its own amount stands here: "1 tbsp for brushing" is none.
fn begins_with_a_measured_food(tokens: &[Token<'_>], language: Language) -> bool {
    let mut input = input(tokens, language);
    let begins = peeked(&input).is_some_and(|token| token.is_number() || token.is_word());
    if !begins || amount(&mut input).is_err() {
        return false;
    }
    let named = rest(&input);
    let first = named.first().map_or("", |token| token.word.as_str());
    !NO_NAME.contains(&first) && foods::known(&words(named).join(" ")).is_some()
}

/// The first words of some tokens, up to a mark.
fn words<'a>(tokens: &[Token<'a>]) -> Vec<&'a str> {
    let words = tokens.iter().take(LOOKED_AT);
    let words = words.take_while(|token| token.is_word());
    words.map(|token| token.text).collect()
}

/// Whether an item of a list in which names come first is complete: "WATER 270 ML".
fn ends_with_its_amount(tokens: &[Token<'_>], language: Language) -> bool {
    let is_named = tokens.first().is_some_and(Token::is_word);
    let from = tokens.len().saturating_sub(LONGEST_AMOUNT).max(1);
    is_named
        && (from..tokens.len()).any(|place| {
            let mut input = input(&tokens[place..], language);
            tokens[place].is_number()
                && amount(&mut input).is_ok_and(|found| found.has_unit())
                && rest(&input).is_empty()
        })
}

/// An amount has no more tokens.
const LONGEST_AMOUNT: usize = 6;

/// So many measured ingredients in a row make a list, in which foods may stand without an amount.
const LIST: usize = 2;

/// Whether a food alone stands between here and the next comma: "du sel,".
fn is_bare_food(tokens: &[Token<'_>]) -> bool {
    let item = words(tokens);
    let ends = tokens
        .get(item.len())
        .is_none_or(|token| matches!(token.kind, Kind::Mark(',' | '.' | ';')));
    (1..=3).contains(&item.len()) && ends && foods::known(&item.join(" ")).is_some()
}

fn is_about_a_food(tokens: &[Token<'_>]) -> bool {
    let words = tokens.iter().filter(|token| token.is_word());
    let words: Vec<&str> = words.take(2 * LOOKED_AT).map(|token| token.text).collect();
    foods::known(&words.join(" ")).is_some()
}
