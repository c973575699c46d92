//! The name of an ingredient and what is said beside it: "flour (340 g), sifted", "flour | 100 %".

use super::{Said, amount, cut_out, percentage};
use crate::foods::{self, Known};
use crate::grammar::tokens::{Kind, Token};
use crate::grammar::{Input, Misfit, Result, input, peeked, perhaps};
use crate::language::Language;
use crate::lines::ingredient::Written;
use crate::lines::table::GAP;

/// The name and its note. Amounts that stand behind the name are added to what is said of it.
pub(super) fn named_by(
    text: &str,
    tokens: &[Token<'_>],
    language: Language,
    said: &mut Said,
) -> Written {
    let mut end = None;
    for (place, token) in tokens.iter().enumerate() {
        let is_cell = token.is_mark('|') || (place > 0 && token.space >= GAP);
        if !is_cell && !parts(token, &tokens[place + 1..], language) {
            continue;
        }
        let is_mark = matches!(token.kind, Kind::Mark(_));
        let behind = &tokens[place + usize::from(is_mark)..];
        say_behind(behind, is_cell || token.is_mark('('), language, said);
        // "3 large, ripe bananas": the name goes on behind the comma until it names something.
        let names = || foods::known(cut_out(text, &tokens[..place])).is_some();
        if place > 0 && end.is_none() && (is_cell || token.is_mark('(') || names()) {
            end = Some(place);
        }
    }
    let (name, note) = tokens.split_at(end.unwrap_or(tokens.len()));
    let name = cut_out(text, name).trim();
    let known = foods::known(name)
        .or_else(|| foods::known(cut_out(text, tokens)))
        .or_else(|| misread(name));
    Written {
        name: name.to_owned(),
        note: cut_out(text, joined(note)).trim().to_owned(),
        known,
        ..Written::default()
    }
}

/// Whether a mark parts a name from what is said beside it.
fn parts(token: &Token<'_>, behind: &[Token<'_>], language: Language) -> bool {
    match token.kind {
        Kind::Mark(',' | ';') => true,
        // Close to a word a bracket belongs to it, unless an amount is in it: "flour(340 g)".
        Kind::Mark('(' | '[') if token.space == 0 => {
            amount(&mut input(behind, language)).is_ok_and(|found| found.has_unit())
        }
        Kind::Mark('–' | '—' | '-' | ':' | '=' | '(' | '[') => token.space > 0,
        _ => false,
    }
}

/// Adds an amount or a percentage that stands behind a name.
fn say_behind(behind: &[Token<'_>], is_set_off: bool, language: Language, said: &mut Said) {
    let mut input = input(behind, language);
    if let Some(found) = perhaps(&mut input, |input| closed(input, amount)) {
        // Without a first amount it is that of something else: "salt, 1 pinch of it for the top".
        if found.has_unit() && !said.amounts.is_empty() {
            said.amounts.push(found);
        }
    } else if said.percent.is_none() {
        let percent = perhaps(&mut input, |input| closed(input, percentage));
        said.percent = percent.filter(|_| is_set_off);
    }
}

/// A rule, then the bracket or cell ends.
fn closed<'t, 'a, T>(
    input: &mut Input<'t, 'a>,
    rule: impl Fn(&mut Input<'t, 'a>) -> Result<T>,
) -> Result<T> {
    let found = rule(input)?;
    let ends = peeked(input).is_none_or(|token| {
        matches!(
            token.kind,
            Kind::Mark(')' | ']' | '|' | ',' | ';' | '/' | '(')
        )
    });
    if ends { Ok(found) } else { Err(Misfit) }
}

/// A name that a machine misread: "mo1asses", "f1our".
fn misread(name: &str) -> Option<Known> {
    let is_mixed = name.bytes().any(|byte| byte.is_ascii_digit())
        && name.bytes().any(|byte| byte.is_ascii_alphabetic());
    let letters = || name.replace('1', "l").replace('0', "o").replace('5', "s");
    is_mixed.then(|| foods::known(&letters())).flatten()
}

/// A note without the mark that joins it to its name.
pub(super) fn joined<'t, 'a>(note: &'t [Token<'a>]) -> &'t [Token<'a>] {
    match note {
        [first, rest @ ..]
            if matches!(first.kind, Kind::Mark(',' | ';' | '|' | '–' | '—' | '-')) =>
        {
            rest
        }
        all => all,
    }
}
