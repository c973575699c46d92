//! The grammar of amounts, times and temperatures.
//!
//! Every rule takes tokens from the front of an input and fails where it doesn't fit; [`perhaps`] then has the input as
//! it was. What a word means is looked up without case and accents, in all languages at once, unless [`Language`] has to
//! tell. Words that several rules share stand in [`words`].
//!
//! Left out: amounts that are reckoned ("half as much as flour"), and times of day.

pub(crate) mod amount;
pub(crate) mod heat;
pub(crate) mod number;
mod openings;
pub(crate) mod time;
pub(crate) mod tokens;
pub(crate) mod units;
pub(crate) mod words;

/// That a rule doesn't fit. Why it doesn't matters to nobody: the next rule is tried.
pub(crate) use winnow::error::EmptyError as Misfit;
use winnow::stream::{Stateful, Stream as _, TokenSlice};

use crate::language::Language;
pub(crate) use openings::may_begin;
use tokens::Token;

/// Tokens to read, and the language they are in.
pub(crate) type Input<'t, 'a> = Stateful<TokenSlice<'t, Token<'a>>, Language>;

/// What a rule comes to.
pub(crate) type Result<T> = std::result::Result<T, Misfit>;

pub(crate) fn input<'t, 'a>(tokens: &'t [Token<'a>], language: Language) -> Input<'t, 'a> {
    Stateful {
        input: TokenSlice::new(tokens),
        state: language,
    }
}

/// The next token, without taking it.
pub(crate) fn peeked<'t, 'a>(input: &Input<'t, 'a>) -> Option<&'t Token<'a>> {
    input.input.peek_token()
}

/// The next token where it is a word, without taking it.
pub(crate) fn peeked_word<'t, 'a>(input: &Input<'t, 'a>) -> Result<&'t Token<'a>> {
    peeked(input).filter(|token| token.is_word()).ok_or(Misfit)
}

/// The tokens that are left.
pub(crate) fn rest<'t, 'a>(input: &Input<'t, 'a>) -> &'t [Token<'a>] {
    input.input.peek_finish()
}

/// Takes so many tokens.
pub(crate) fn take(input: &mut Input<'_, '_>, count: usize) {
    let count = count.min(input.input.eof_offset());
    let _ = input.input.next_slice(count);
}

/// How many tokens a phrase takes, if it stands next. Points behind abbreviations don't count.
fn words_at(input: &Input<'_, '_>, phrase: &str) -> Option<usize> {
    let tokens = rest(input);
    let mut place = 0;
    let mut last = "";
    for (count, word) in phrase.split(' ').enumerate() {
        if count > 0 {
            let points = tokens[place..]
                .iter()
                .take_while(|token| token.is_mark('.'));
            place += points.count();
        }
        tokens.get(place).filter(|token| token.word == word)?;
        place += 1;
        last = word;
    }
    // The point of an abbreviation stands close to it and ends no sentence.
    let point = tokens
        .get(place)
        .is_some_and(|token| token.is_mark('.') && token.space == 0);
    let goes_on = tokens
        .get(place + 1)
        .is_some_and(|next| !next.text.starts_with(char::is_uppercase));
    let is_short = last.len() <= LONGEST_ABBREVIATION;
    Some(place + usize::from(point && (goes_on || is_short)))
}

/// A longer word ends a sentence with its point; in bytes.
const LONGEST_ABBREVIATION: usize = 5;

/// Takes the longest of some phrases that stands next.
pub(crate) fn phrase(input: &mut Input<'_, '_>, phrases: &[&str]) -> Result<()> {
    let first = first_letter(input)?;
    let longest = phrases
        .iter()
        .filter(|phrase| phrase.as_bytes().first() == Some(&first))
        .filter_map(|phrase| words_at(input, phrase))
        .max();
    take(input, longest.ok_or(Misfit)?);
    Ok(())
}

/// Takes the longest of some phrases that stands next, and tells what it means; of two that are as long the first.
pub(crate) fn meaning<'p, T: Copy + 'p>(
    input: &mut Input<'_, '_>,
    phrases: impl IntoIterator<Item = &'p (&'p str, T)>,
) -> Result<T> {
    let first = first_letter(input)?;
    let mut best: Option<(usize, T)> = None;
    for &(written, meaning) in phrases {
        if written.as_bytes().first() == Some(&first)
            && let Some(length) = words_at(input, written)
            && best.is_none_or(|(longest, _)| length > longest)
        {
            best = Some((length, meaning));
        }
    }
    let (length, meaning) = best.ok_or(Misfit)?;
    take(input, length);
    Ok(meaning)
}

/// The phrases of a table that begin with the letter of the next word; the table is in the order of their letters.
pub(crate) fn beginning_alike<'p, T>(
    input: &Input<'_, '_>,
    table: &'p [(&'p str, T)],
) -> &'p [(&'p str, T)] {
    let letter = first_letter(input).unwrap_or(0);
    let first = |(written, _): &(&str, T)| written.as_bytes().first().copied().unwrap_or(0);
    let from = table.partition_point(|row| first(row) < letter);
    let behind = &table[from..];
    &behind[..behind.partition_point(|row| first(row) == letter)]
}

/// The first letter of the next word: nearly all phrases fail there, and all of them where none stands.
fn first_letter(input: &Input<'_, '_>) -> Result<u8> {
    let next = peeked(input).ok_or(Misfit)?;
    next.word.as_bytes().first().copied().ok_or(Misfit)
}

/// Takes all of some phrases that stand next, in whatever order and however often.
pub(crate) fn skip(input: &mut Input<'_, '_>, phrases: &[&str]) {
    while phrase(input, phrases).is_ok() {}
}

/// Takes one of some marks.
pub(crate) fn mark(input: &mut Input<'_, '_>, marks: &[char]) -> Result<()> {
    let next = peeked(input).ok_or(Misfit)?;
    if !marks.iter().any(|&mark| next.is_mark(mark)) {
        return Err(Misfit);
    }
    take(input, 1);
    Ok(())
}

/// A rule that may as well fail, with the input as it was then.
pub(crate) fn perhaps<'t, 'a, T>(
    input: &mut Input<'t, 'a>,
    rule: impl FnOnce(&mut Input<'t, 'a>) -> Result<T>,
) -> Option<T> {
    let before = input.clone();
    let found = rule(input).ok();
    if found.is_none() {
        *input = before;
    }
    found
}
