//! Lines that belong together: a sentence that goes on in the next line, a word that was cut.
//!
//! A small letter tells that a line goes on, but only in a text whose lines mostly begin with capitals. Left out: lists in
//! two columns that were printed beside each other.

mod framed;

use domain::food::unaccented;

use crate::foods;
use crate::grammar::heat::words::DEGREES;
use crate::grammar::time;
use crate::grammar::tokens::tokens;
use crate::language::Language;
use crate::lines::ingredient::ingredients;
use framed::{CAPTIONS, without_running_heads, without_times};

/// The lines of a text as they were meant.
pub(crate) fn lines(text: &str) -> Vec<String> {
    let plain: Vec<&str> = text.lines().collect();
    let timed = plain.iter().filter(|line| line.contains("-->")).count();
    let plain = if timed >= CAPTIONS {
        without_times(&plain)
    } else {
        plain
    };
    let plain = without_running_heads(plain);
    let goes_by_capitals = begins_mostly_with_capitals(&plain);
    let mut lines: Vec<String> = Vec::new();
    for line in plain {
        let line = line.trim_end();
        match lines.last_mut() {
            Some(last) if goes_by_capitals && goes_on(last, line) => join(last, line.trim_start()),
            _ => lines.push(line.to_owned()),
        }
    }
    lines
}

/// Whether a small letter at the beginning of a line tells anything: in a message all are small.
fn begins_mostly_with_capitals(lines: &[&str]) -> bool {
    let firsts = lines
        .iter()
        .take(LOOKED_AT)
        .filter_map(|line| line.trim_start().chars().next());
    let (mut small, mut large) = (0, 0);
    for first in firsts {
        if first.is_lowercase() {
            small += 1;
        } else if first.is_uppercase() {
            large += 1;
        }
    }
    large >= 2 && large * 8 >= small
}

const LOOKED_AT: usize = 400;

/// Whether a line is the rest of the one before it.
fn goes_on(last: &str, next: &str) -> bool {
    let begins_small = next.trim_start().starts_with(char::is_lowercase);
    let Some(end) = last.trim_end().chars().next_back() else {
        return false;
    };
    // Lines of a long sentence are long; nobody breaks a word in a list of short items.
    if last.trim().is_empty() || next.trim().is_empty() || last.len() > LONGEST {
        return false;
    }
    if end == '-' && begins_small && last.trim_end().len() > 1 && !last.trim_end().ends_with(" -") {
        return true;
    }
    if ends_open(last)
        && next
            .trim_start()
            .starts_with(|letter: char| letter.is_lowercase() || letter.is_ascii_digit())
    {
        return true;
    }
    if !begins_small || matches!(end, '.' | '!' | '?' | ':' | ';' | '|' | ')') {
        return false;
    }
    if begins_with_an_amount(last) {
        // "2 cups boiling" misses its food, while "30 g sugar" is complete.
        return !names_a_food(last);
    }
    let goes_on_with_a_unit = first_word(next)
        .is_some_and(|word| time::is_unit(&word) || DEGREES.contains(&word.as_str()));
    let is_complete = (end.is_ascii_digit() && !goes_on_with_a_unit) || end == '%';
    is_sentence(last) && !is_complete && !is_item(next)
}

fn names_a_food(line: &str) -> bool {
    let tokens = tokens(line);
    let found = ingredients(line, &tokens, Language::of(&tokens));
    found.iter().any(|one| one.known.is_some())
}

/// The first word of a line, in lower case and without accents.
fn first_word(line: &str) -> Option<String> {
    let written = line.split_whitespace().next()?;
    Some(unaccented(
        written.trim_matches(|letter: char| !letter.is_alphabetic()),
    ))
}

/// Whether a line begins with a number that doesn't number it.
fn begins_with_an_amount(line: &str) -> bool {
    let line = line.trim_start_matches(|letter: char| !letter.is_alphanumeric());
    let behind = line.trim_start_matches(|letter: char| letter.is_numeric());
    behind.len() < line.len() && !behind.starts_with(['.', ')'])
}

/// Whether a line is an item of a list by itself: "salt", "honey 3 %".
fn is_item(line: &str) -> bool {
    let words = line.split_whitespace().count();
    let has_number = line.contains(|letter: char| letter.is_ascii_digit());
    words <= ITEM
        && !line.trim_end().ends_with('.')
        && (has_number || words <= 3)
        && foods::known(line).is_some()
}

/// An item of a list has no more words.
const ITEM: usize = 6;

/// Lines that have been joined take up no more than so many bytes.
const LONGEST: usize = 4000;

fn is_sentence(line: &str) -> bool {
    line.split_whitespace().nth(SENTENCE).is_some()
}

/// A line of a paragraph has more words.
const SENTENCE: usize = 4;

/// Words that nothing ends with, as they are written in the midst of a sentence.
#[rustfmt::skip]
const OPEN: &[&str] = &[
    "or", "and", "to", "with", "of", "the", "a", "for", "at", "in", "into", "oder", "und", "mit", "bis", "auf",
    "bei", "der", "die", "das", "et", "ou", "de", "y", "o", "con", "og", "eller", "til", "med", "about", "set",
];

/// Whether a line ends with a word that nothing ends with.
fn ends_open(line: &str) -> bool {
    line.split_whitespace()
        .next_back()
        .is_some_and(|last| OPEN.contains(&last))
}

/// What is written with a hyphen anyway keeps it at the end of a line.
const HYPHENATED: &[&str] = &[
    "all", "self", "semi", "half", "full", "low", "non", "fast", "quick", "old", "pre",
];

fn join(last: &mut String, next: &str) {
    let whole = last.trim_end().len();
    last.truncate(whole);
    let Some(cut) = last.strip_suffix('-') else {
        last.push(' ');
        last.push_str(next);
        return;
    };
    let before = cut
        .rsplit(|letter: char| !letter.is_alphabetic())
        .next()
        .unwrap_or("");
    if !HYPHENATED.contains(&before.to_lowercase().as_str()) {
        last.pop();
    }
    last.push_str(next);
}

#[cfg(test)]
mod tests;
