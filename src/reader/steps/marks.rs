//! The times and temperatures of a sentence, and where they stand.

use domain::formula::StepKind;

use super::verbs::verb;
use crate::grammar::tokens::Token;
use crate::grammar::units::{Unit, unit};
use crate::grammar::{self, heat, may_begin, perhaps, rest, time};
use crate::language::Language;

/// A time or a temperature, and where it stands.
#[derive(Debug, Clone, Copy)]
pub(super) struct Mark {
    pub(super) what: What,
    pub(super) from: usize,
    pub(super) to: usize,
}

#[derive(Debug, Clone, Copy)]
pub(super) enum What {
    Time(time::Span),
    Heat(heat::Heat),
}

/// The times and temperatures of some tokens.
pub(super) fn marks(
    tokens: &[Token<'_>],
    language: Language,
    speaks_of_an_oven: bool,
) -> Vec<Mark> {
    let mut found: Vec<Mark> = Vec::new();
    let mut from = 0;
    while from < tokens.len() {
        let Some((what, left)) = what_at(tokens, from, speaks_of_an_oven, language) else {
            from += 1;
            continue;
        };
        let to = tokens.len() - left;
        found.push(Mark { what, from, to });
        from = to.max(from + 1);
    }
    found
}

/// Whether a bare number may be a temperature: of an oven, which a whole sentence speaks of though it is divided.
pub(super) fn speaks_of_an_oven(tokens: &[Token<'_>]) -> bool {
    tokens.iter().any(|token| {
        token.is_word()
            && (OVEN.iter().any(|oven| token.word.starts_with(oven))
                || matches!(verb(&token.word), Some(StepKind::Bake | StepKind::OvenOn)))
    })
}

/// The time or temperature that begins at a place, and how many tokens are left behind it.
fn what_at(
    tokens: &[Token<'_>],
    from: usize,
    speaks_of_an_oven: bool,
    language: Language,
) -> Option<(What, usize)> {
    if !may_begin(&tokens[from]) {
        return None;
    }
    let mut input = grammar::input(&tokens[from..], language);
    // A heat first: "180 C" is no time, and "1 h" no heat.
    if let Some(heat) = perhaps(&mut input, heat::heat) {
        return Some((What::Heat(heat), rest(&input).len()));
    }
    if !is_inside_a_number(tokens, from)
        && let Some(span) = perhaps(&mut input, time::span)
    {
        return Some((What::Time(span), rest(&input).len()));
    }
    if !speaks_of_an_oven || !is_behind_at(tokens, from) {
        return None;
    }
    let heat = perhaps(&mut input, heat::bare)?;
    let left = rest(&input);
    (!is_of_something_else(left, language)).then_some((What::Heat(heat), left.len()))
}

/// How words begin that name an oven.
const OVEN: &[&str] = &[
    "oven", "ofen", "backofen", "four", "horno", "ovn", "stekeovn",
];

/// What stands before a bare temperature.
#[rustfmt::skip]
const AT: &[&str] = &[
    "at", "to", "auf", "bei", "mit", "a", "pa", "ved", "til", "oven", "ofen", "four", "horno", "ovn", "bake", "backen",
    "sur", "fallend", "then", "dann", "about", "around", "ca",
];

/// "bake at 200", "auf 220 vorheizen", "reduce to 180", "190 fan".
fn is_behind_at(tokens: &[Token<'_>], place: usize) -> bool {
    let before = place.checked_sub(1).and_then(|before| tokens.get(before));
    let behind = tokens.get(place + 1);
    before.is_some_and(|token| AT.contains(&token.word.as_str()))
        || behind.is_some_and(|token| heat::names_a_fan(&token.word))
}

/// "bake 200 g at a time": a unit behind the number says that it is no temperature.
fn is_of_something_else(left: &[Token<'_>], language: Language) -> bool {
    let unit = perhaps(&mut grammar::input(left, language), unit);
    let is_measured = matches!(
        unit,
        Some(Unit::Grams(_) | Unit::Millilitres(_) | Unit::Piece)
    );
    is_measured
        || left.first().is_some_and(|token| {
            time::is_unit(&token.word)
                || ["cm", "mm", "x", "pieces"].contains(&token.word.as_str())
                || token.is_mark('%')
                || token.is_mark('×')
        })
}

/// Whether a number goes on with this one: the "30" of "7:30 h".
fn is_inside_a_number(tokens: &[Token<'_>], place: usize) -> bool {
    let token = &tokens[place];
    let before = place.checked_sub(1).and_then(|before| tokens.get(before));
    token.space == 0
        && token.is_number()
        && before.is_some_and(|before| before.is_mark(':') || before.is_number())
}
