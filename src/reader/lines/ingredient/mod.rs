//! A line with one ingredient or several: "375 g strong white flour, plus a little", "Salt: 10 g", "1 egg + 1 yolk".
//!
//! An amount stands in front of its name or behind it, or nowhere. What is left is the name up to a comma or bracket
//! behind which something else is said, and that is the note. Left out: alternatives ("butter or margarine"), of which
//! the first is taken with the other in its name.

mod cuts;
mod inside;
mod name;

use crate::foods::Known;
use crate::grammar::amount::{Amount, amount};
use crate::grammar::number::digits;
use crate::grammar::tokens::{Kind, Token};
use crate::grammar::words::{AND, OF, OR};
use crate::grammar::{Input, Misfit, Result, input, mark, peeked, perhaps, phrase, rest};
use crate::language::Language;
use crate::lines::table::GAP;
use cuts::cuts;
pub(crate) use inside::inside;
use name::{joined, named_by};

/// An ingredient as its line has it, not yet weighed.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Written {
    /// The ways in which its amount is said, the least vague one first.
    pub(crate) amounts: Vec<Amount>,
    /// The amount as it is written.
    pub(crate) amount: String,
    pub(crate) percent: Option<f64>,
    pub(crate) name: String,
    pub(crate) note: String,
    pub(crate) known: Option<Known>,
    /// Whether the amount stands in front, as in most lists.
    pub(crate) is_amount_first: bool,
}

impl Written {
    /// Whether an amount with a unit stands with it.
    pub(crate) fn is_measured(&self) -> bool {
        self.percent.is_some() || self.amounts.iter().any(Amount::has_unit)
    }

    /// Whether it is a food with an amount, be it a number of them only.
    pub(crate) fn is_counted_food(&self) -> bool {
        self.known.is_some() && (self.percent.is_some() || !self.amounts.is_empty())
    }
}

/// The ways in which the amount of one ingredient is said.
#[derive(Debug, Default)]
struct Said {
    amounts: Vec<Amount>,
    percent: Option<f64>,
}

impl Said {
    fn is_empty(&self) -> bool {
        self.amounts.is_empty() && self.percent.is_none()
    }

    /// Puts it to its name, the least vague way first.
    fn of(mut self, written: Written, amount: &str) -> Written {
        self.amounts.sort_by_key(Amount::vagueness);
        Written {
            amounts: self.amounts,
            percent: self.percent,
            amount: amount.trim().to_owned(),
            ..written
        }
    }
}

/// The ingredients of a line; none where it holds no words.
pub(crate) fn ingredients(text: &str, tokens: &[Token<'_>], language: Language) -> Vec<Written> {
    let tokens = without_bullet(tokens);
    let mut found = Vec::new();
    let mut from = 0;
    for cut in cuts(tokens, language) {
        found.extend(one(text, &tokens[from..cut.at], language));
        from = cut.past;
    }
    found.extend(one(text, &tokens[from..], language));
    found
}

/// The line without what only marks it as an item of a list.
pub(crate) fn without_bullet<'t, 'a>(tokens: &'t [Token<'a>]) -> &'t [Token<'a>] {
    // Any sign in front is one, but for what an amount or a name begins with.
    let is_bullet = |token: &Token<'_>| matches!(token.kind, Kind::Mark(mark) if !"(<\"'“„«~≈±¿¡#".contains(mark));
    let mut left = tokens;
    loop {
        let bullets = left.iter().take_while(|token| is_bullet(token)).count();
        // "[x] flour" is a ticked box.
        left = match &left[bullets..] {
            [x, close, rest @ ..] if bullets > 0 && x.word == "x" && close.is_mark(']') => rest,
            rest => rest,
        };
        left = match left {
            // A number in a box.
            [_, variant, keycap, _, ..]
                if variant.is_mark('\u{fe0f}') && keycap.is_mark('\u{20e3}') =>
            {
                &left[3..]
            }
            [number, dot, next, ..]
                if matches!(number.kind, Kind::Number { value, .. } if value.fract() == 0.0)
                    && (dot.is_mark('.') || dot.is_mark(')'))
                    && dot.space == 0
                    && next.space > 0 =>
            {
                &left[2..]
            }
            _ => return left,
        };
    }
}

/// One ingredient; nothing where no word names it.
fn one(text: &str, tokens: &[Token<'_>], language: Language) -> Option<Written> {
    let tokens = without_opening(trimmed(tokens), language);
    amount_first(text, tokens, language)
        .or_else(|| name_first(text, tokens, language))
        .or_else(|| bare(text, tokens, language))
}

/// Small words in front, beside "and".
const OPENING: &[&str] = &[
    "plus",
    "also",
    "some",
    "to taste",
    "a little",
    "a bit of",
    "etwas",
    "dazu",
    "sowie",
    "un peu de",
    "un poco de",
    "litt",
];

/// Without small words in front: "and one egg", "some flour", "to taste | salt".
fn without_opening<'t, 'a>(tokens: &'t [Token<'a>], language: Language) -> &'t [Token<'a>] {
    let mut input = input(tokens, language);
    while mark(&mut input, &['|']).is_ok()
        || phrase(&mut input, AND).is_ok()
        || phrase(&mut input, OPENING).is_ok()
    {}
    let left = rest(&input);
    if left.iter().any(Token::is_word) {
        left
    } else {
        tokens
    }
}

/// Without marks at the ends that part cells or items.
fn trimmed<'t, 'a>(tokens: &'t [Token<'a>]) -> &'t [Token<'a>] {
    let parts =
        |token: &Token<'_>| matches!(token.kind, Kind::Mark(mark) if "|,;:.–—-*_=".contains(mark));
    let front = tokens.iter().take_while(|token| parts(token)).count();
    let tokens = &tokens[front..];
    let back = tokens.iter().rev().take_while(|token| parts(token)).count();
    &tokens[..tokens.len() - back]
}

/// "2 1/2 cups (340 g) flour, sifted".
fn amount_first(text: &str, tokens: &[Token<'_>], language: Language) -> Option<Written> {
    let mut input = input(tokens, language);
    let percent = perhaps(&mut input, percentage);
    let mut said = said(&mut input, percent);
    if said.is_empty() {
        return None;
    }
    let spent = tokens.len() - rest(&input).len();
    said.percent = said.percent.or_else(|| perhaps(&mut input, percentage));
    while mark(&mut input, &['|', ':']).is_ok()
        || phrase(&mut input, OF).is_ok()
        || phrase(&mut input, &["x"]).is_ok()
    {}
    let named = rest(&input);
    if !named.iter().any(Token::is_word) {
        return None;
    }
    let mut written = named_by(text, named, language, &mut said);
    written.is_amount_first = true;
    Some(said.of(written, cut_out(text, &tokens[..spent])))
}

/// An amount and the other ways to say it, behind a percentage that may stand first.
fn said(input: &mut Input<'_, '_>, percent: Option<f64>) -> Said {
    let mut said = Said {
        amounts: Vec::new(),
        percent,
    };
    if let Some(first) = perhaps(input, amount) {
        said.amounts.push(first);
        alternatives(input, &mut said.amounts);
    }
    said
}

/// The same amount said in another way: "(340 g)", "/ 12 oz", "or 1 stick".
fn alternatives(input: &mut Input<'_, '_>, amounts: &mut Vec<Amount>) {
    while let Some((next, is_each)) = perhaps(input, alternative) {
        let count = amounts.first().and_then(|amount| amount.terms.first());
        let count = count.map_or(1.0, |term| term.number.middle());
        amounts.push(if is_each { next.times(count) } else { next });
    }
}

/// One of them, and whether it is that of each piece.
fn alternative(input: &mut Input<'_, '_>) -> Result<(Amount, bool)> {
    let opened = mark(input, &['(', '[']).is_ok();
    let parted = opened
        || mark(input, &['/', '=', '|', ',', ';', '–', '-']).is_ok()
        || phrase(input, OR).is_ok();
    if !parted {
        return Err(Misfit);
    }
    let next = amount(input)?;
    let is_each = phrase(input, &["each", "je", "chacun", "cada uno", "hver"]).is_ok();
    if opened && mark(input, &[')', ']']).is_err() {
        // "(1/2 stick/57 g)": the rest of the bracket says it once more.
        peeked(input)
            .filter(|token| token.is_mark('/'))
            .ok_or(Misfit)?;
    } else if !opened {
        mark(input, &[')', ']']).ok();
    }
    if next.has_unit() {
        Ok((next, is_each))
    } else {
        Err(Misfit)
    }
}

/// "100 %", but not the fat of "36 % cream".
fn percentage(input: &mut Input<'_, '_>) -> Result<f64> {
    mark(input, &['(', '|']).ok();
    let number = digits(input)?;
    mark(input, &['%'])?;
    mark(input, &[')']).ok();
    mark(input, &['|']).ok();
    Ok(number.value)
}

/// "Flour: 500 g", "salt – 10 g (2 %)", "Butter (soft) 60 g", "Milk ..... 250 ml".
fn name_first(text: &str, tokens: &[Token<'_>], language: Language) -> Option<Written> {
    tokens
        .first()
        .filter(|token| token.is_word() || token.is_mark('('))?;
    let found = |place| Some((place, said_at(tokens, place, language)?));
    let (place, (said, spent, past)) = (1..tokens.len()).find_map(found)?;
    let named = trimmed(&tokens[..place]);
    let mut written = named_by(text, named, language, &mut Said::default());
    if written.name.is_empty() {
        return None;
    }
    let behind = cut_out(text, joined(&tokens[past..])).trim();
    if !written.note.is_empty() && !behind.is_empty() {
        written.note.push_str(", ");
    }
    written.note.push_str(behind);
    Some(said.of(written, cut_out(text, &tokens[place..spent])))
}

/// The amount that ends a name at some place, where it ends itself, and where a percentage behind it does.
fn said_at(tokens: &[Token<'_>], place: usize, language: Language) -> Option<(Said, usize, usize)> {
    let token = &tokens[place];
    let may_begin =
        token.is_number() || matches!(token.word.as_str(), "ca" | "about" | "etwa" | "a");
    if !may_begin {
        return None;
    }
    let mut input = input(&tokens[place..], language);
    let percent = perhaps(&mut input, percentage);
    let mut said = said(&mut input, percent);
    let spent = tokens.len() - rest(&input).len();
    said.percent = said.percent.or_else(|| perhaps(&mut input, percentage));
    let before = &tokens[place - 1];
    let is_parted = matches!(
        before.kind,
        Kind::Mark(':' | '|' | '=' | '–' | '—' | '-' | '.' | '…')
    ) || token.space >= GAP;
    let is_measured = said.percent.is_some() || said.amounts.first().is_some_and(Amount::has_unit);
    let is_counted = is_parted && !said.amounts.is_empty();
    let behind = rest(&input);
    let ends = behind.first().is_none_or(|token| {
        matches!(
            token.kind,
            Kind::Mark(',' | ';' | '(' | '|' | '.' | '–' | '-' | '/' | '*')
        )
    });
    ((is_measured || is_counted) && (ends || is_parted)).then_some((
        said,
        spent,
        tokens.len() - behind.len(),
    ))
}

/// A name without an amount: "salt", "currants".
fn bare(text: &str, tokens: &[Token<'_>], language: Language) -> Option<Written> {
    let is_named = tokens.iter().any(Token::is_word);
    is_named.then(|| named_by(text, tokens, language, &mut Said::default()))
}

/// The text from the first of some tokens to the last, letter for letter.
pub(crate) fn cut_out<'a>(text: &'a str, tokens: &[Token<'_>]) -> &'a str {
    match (tokens.first(), tokens.last()) {
        (Some(first), Some(last)) => text.get(first.start..last.end()).unwrap_or(""),
        _ => "",
    }
}

#[cfg(test)]
mod tests;
