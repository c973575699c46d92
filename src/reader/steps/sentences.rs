//! The sentences of a paragraph, and their parts with one time and one temperature each.

use super::marks::{What, marks};
use crate::grammar::tokens::{Kind, Token};
use crate::grammar::words::AND;
use crate::language::Language;

/// What begins the next thing to do, beside "and".
const THEN: &[&str] = &[
    "then",
    "dann",
    "danach",
    "anschliessend",
    "puis",
    "ensuite",
    "luego",
    "despues",
    "deretter",
    "sa",
];

/// What leads to a time or temperature.
const LEADS: &[&str] = &[
    "auf", "to", "at", "a", "til", "pa", "fallend", "falling", "down", "turn", "reduce", "with",
    "for", "in",
];

/// Parts of a sentence with one time and one temperature each.
pub(super) fn parts<'t, 'a>(
    tokens: &'t [Token<'a>],
    language: Language,
    of_oven: bool,
) -> Vec<&'t [Token<'a>]> {
    let marks = marks(tokens, language, of_oven);
    let mut parts = Vec::new();
    let mut from = 0;
    let (mut time, mut heat) = (None::<usize>, None::<usize>);
    for (place, mark) in marks.iter().enumerate() {
        let seen = match mark.what {
            What::Time(_) => &mut time,
            What::Heat(_) => &mut heat,
        };
        if let Some(last) = *seen {
            let cut = boundary(tokens, last.max(from), mark.from);
            parts.push(&tokens[from..cut]);
            from = cut;
            (time, heat) = (None, None);
            // What stands between the cut and this one belongs to the new part too.
            let new = marks[..=place]
                .iter()
                .rev()
                .take_while(|earlier| earlier.from >= cut);
            for earlier in new {
                match earlier.what {
                    What::Time(_) => time = time.or(Some(earlier.to)),
                    What::Heat(_) => heat = heat.or(Some(earlier.to)),
                }
            }
        } else {
            *seen = Some(mark.to);
        }
    }
    parts.push(&tokens[from..]);
    parts
}

/// Where to cut between two times: at the first place where a clause ends, or else before the words that lead to the second.
fn boundary(tokens: &[Token<'_>], from: usize, to: usize) -> usize {
    let is_cut = |token: &Token<'_>| {
        matches!(token.kind, Kind::Mark(',' | ';' | '.' | '–' | '—' | '|'))
            || THEN.contains(&token.word.as_str())
            || AND.contains(&token.word.as_str())
    };
    let strong = |token: &Token<'_>| matches!(token.kind, Kind::Mark(';' | '.' | '|'));
    let between = &tokens[from..to];
    let place = between
        .iter()
        .position(strong)
        .or_else(|| between.iter().position(is_cut));
    let leading = || {
        between
            .iter()
            .rev()
            .take_while(|token| LEADS.contains(&token.word.as_str()))
            .count()
    };
    from + place.unwrap_or_else(|| between.len() - leading())
}

/// The sentences of a paragraph.
pub(super) fn sentences<'t, 'a>(tokens: &'t [Token<'a>]) -> Vec<&'t [Token<'a>]> {
    let mut sentences = Vec::new();
    let mut from = 0;
    for place in 0..tokens.len() {
        if ends_sentence(tokens, place) {
            sentences.push(&tokens[from..=place]);
            from = place + 1;
        }
    }
    if from < tokens.len() {
        sentences.push(&tokens[from..]);
    }
    sentences
}

fn ends_sentence(tokens: &[Token<'_>], place: usize) -> bool {
    let token = &tokens[place];
    // As telegrams end their sentences.
    if token.text == "STOP" {
        return true;
    }
    if !matches!(token.kind, Kind::Mark('.' | '!' | '?')) {
        return false;
    }
    let Some(next) = tokens.get(place + 1) else {
        return true;
    };
    if next.space == 0 {
        return false;
    }
    let before = place.checked_sub(1).map(|before| &tokens[before]);
    let is_short = before.is_some_and(|before| SHORT.contains(&before.word.as_str()));
    // Behind an abbreviation only a capital begins a sentence, and behind a number a letter.
    let is_capital = next.text.starts_with(char::is_uppercase);
    if is_short || before.is_some_and(Token::is_number) {
        is_capital
    } else {
        true
    }
}

/// Abbreviations that end with a point, folded.
const SHORT: &[&str] = &[
    "min", "mins", "std", "hr", "hrs", "h", "ca", "approx", "c", "f", "oz", "tbsp", "tsp", "el",
    "tl", "pck", "msp", "g", "ml", "l", "kg", "no", "nr", "st", "stk", "bzw", "ev", "evtl", "z",
    "b", "etc", "env", "th", "cm", "in", "gestr", "geh", "inkl", "max", "mind", "vol",
];
