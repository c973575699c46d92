//! Headings: of the ingredients, of the steps, of a part, and of what is neither.
//!
//! Left out: how a heading is set. Only its words, its frame, its colon and its capitals are looked at.

mod parts;
mod words;

use domain::food::unaccented;
use domain::formula::ComponentKind;

use super::ingredient::cut_out;
use crate::grammar::tokens::{Kind, Token};
pub(crate) use parts::{is_plain, part_kind};
use words::{ASIDE, FOR, INGREDIENTS, METHOD, OF_WHAT};

/// What a heading begins.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Heading {
    /// "Ingredients".
    Ingredients,
    /// "Method".
    Method,
    /// Notes, nutrition, comments, equipment: nothing to bake by.
    Aside,
    /// A part by its name: "For the dough".
    Part {
        /// As it is written.
        name: String,
        /// What part it plays; nothing where the name doesn't tell.
        kind: Option<ComponentKind>,
        /// Whether its form alone makes it a heading of a part: "For the …".
        is_sure: bool,
    },
}

/// Words of headings and no names: "Ingredients for the dough:".
const MOST_WORDS: usize = 8;
/// Nor, with all that stands in brackets, more tokens.
const MOST_TOKENS: usize = 24;

/// The heading that a line is, if it is one. A line that only may be one, because it is short, [`might_be`] one.
pub(crate) fn heading(text: &str, tokens: &[Token<'_>]) -> Option<Heading> {
    let bare = without_frame(tokens);
    let named = without_brackets(bare);
    let words = named.iter().filter(|token| token.is_word()).count();
    if words == 0 || words > MOST_WORDS || bare.len() > MOST_TOKENS || ends_a_sentence(bare) {
        return None;
    }
    let said = unaccented(cut_out(text, named));
    let said = said.trim_end_matches([':', '.', '-', '–', ' ']);
    if begins(said, INGREDIENTS) {
        return Some(part_of_ingredients(text, named).unwrap_or(Heading::Ingredients));
    }
    if begins(said, METHOD) {
        return Some(Heading::Method);
    }
    if begins(said, ASIDE) {
        return Some(Heading::Aside);
    }
    if named.first().is_some_and(Token::is_number) {
        return None;
    }
    let is_for_something = FOR.iter().any(|opening| {
        said.strip_prefix(opening)
            .is_some_and(|rest| rest.starts_with(' ') || opening.ends_with('\''))
    });
    let ends_with_colon = bare.last().is_some_and(|token| token.is_mark(':'));
    let is_framed = bare.len() < tokens.len() || ends_with_colon;
    let is_set_off = is_framed || is_capitals(text, named);
    let kind = part_kind(said);
    let is_part = match kind {
        Some(_) => is_for_something || is_set_off || words <= SHORT,
        None => is_for_something && is_set_off && words <= MOST_WORDS_FOR,
    };
    is_part.then(|| Heading::Part {
        name: cut_out(text, named)
            .trim_end_matches([':', ' ', '-', '–'])
            .to_owned(),
        kind,
        is_sure: is_for_something || is_framed,
    })
}

/// Whether a heading is one of some, alone or with what it is for behind it.
fn begins(said: &str, headings: &[&str]) -> bool {
    let is = |heading: &&str| {
        said.strip_prefix(heading).is_some_and(|rest| {
            rest.is_empty() || OF_WHAT.iter().any(|opening| rest.starts_with(opening))
        })
    };
    headings.iter().any(is)
}

/// "Ingredients for the filling" names a part.
fn part_of_ingredients(text: &str, named: &[Token<'_>]) -> Option<Heading> {
    let is_opening = |&place: &usize| {
        let said = unaccented(cut_out(text, &named[..place]));
        INGREDIENTS.contains(&said.as_str())
    };
    let opening = (1..named.len()).find(is_opening)?;
    let marks = |token: &&Token<'_>| matches!(token.kind, Kind::Mark(':' | '-' | '–' | '('));
    let marks = named[opening..].iter().take_while(marks).count();
    let name = cut_out(text, &named[opening + marks..]).trim_end_matches([':', '.', '-', '–', ' ']);
    Some(Heading::Part {
        name: name.to_owned(),
        kind: Some(part_kind(name)?),
        is_sure: true,
    })
}

/// So few words are the name of a part without anything that sets them off.
const SHORT: usize = 3;
/// "For the …", where the name tells nothing, has no more words.
const MOST_WORDS_FOR: usize = 5;

/// Whether a line is as short as a title or heading, and no sentence.
pub(crate) fn might_be(tokens: &[Token<'_>]) -> bool {
    let bare = without_frame(tokens);
    let words = bare.iter().filter(|token| token.is_word()).count();
    (1..=MOST_WORDS + 2).contains(&words)
        && !ends_a_sentence(bare)
        && !bare.first().is_some_and(Token::is_number)
}

/// Without what frames a heading: "## Dough", "**Dough**", "--- Filling ---", "[Dough]".
pub(crate) fn without_frame<'t, 'a>(tokens: &'t [Token<'a>]) -> &'t [Token<'a>] {
    let frames = |token: &Token<'_>| matches!(token.kind, Kind::Mark(mark) if !"().,;:!?/&%'\"“”„«»+°<>".contains(mark));
    let front = tokens.iter().take_while(|token| frames(token)).count();
    let tokens = &tokens[front..];
    let back = tokens
        .iter()
        .rev()
        .take_while(|token| frames(token))
        .count();
    &tokens[..tokens.len() - back]
}

/// Without what stands in brackets behind the name: "Dough (day 1)".
fn without_brackets<'t, 'a>(tokens: &'t [Token<'a>]) -> &'t [Token<'a>] {
    let opened = tokens.iter().position(|token| token.is_mark('('));
    match opened {
        Some(place) if place > 0 => &tokens[..place],
        _ => tokens,
    }
}

fn ends_a_sentence(tokens: &[Token<'_>]) -> bool {
    tokens
        .last()
        .is_some_and(|token| matches!(token.kind, Kind::Mark('.' | '!' | '?' | ',' | ';')))
}

fn is_capitals(text: &str, tokens: &[Token<'_>]) -> bool {
    let said = cut_out(text, tokens);
    said.chars().any(char::is_uppercase) && !said.chars().any(char::is_lowercase)
}

#[cfg(test)]
mod tests;
