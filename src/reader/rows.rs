//! A text in rows, each looked at by itself: what it would be as ingredients, as a heading, as a step.
//!
//! What it is in the end hangs on the rows around it, and is decided in [`crate::sheet`].

use crate::grammar::tokens::{Token, tokens};
use crate::language::Language;
use crate::lines::aside::{has_price, is_aside};
use crate::lines::heading::{Heading, heading, might_be};
use crate::lines::ingredient::{Written, ingredients, without_bullet};
use crate::lines::table::heads_steps;
use crate::refusal::Refusal;
use crate::steps::{has_time_or_heat, verb};

/// What a source already says of a row.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) enum Hint {
    /// Nothing: it is a line of a text.
    #[default]
    None,
    /// It is one of the ingredients.
    Ingredient,
    /// It is a step, and may take so many minutes.
    Step(Option<f64>),
    /// It is the name of a section of the steps.
    Section,
}

/// How much a row looks like ingredients.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Likeness {
    /// Not at all.
    None,
    /// A food without an amount, in a few words.
    BareFood,
    /// An amount of something that no table knows.
    Measured,
    /// An amount of a food.
    Food,
}

/// One row of a text.
#[derive(Debug)]
pub(crate) struct Row<'a> {
    pub(crate) text: &'a str,
    pub(crate) tokens: Vec<Token<'a>>,
    pub(crate) hint: Hint,
    /// Whether an empty line stands before it.
    pub(crate) is_after_gap: bool,
    pub(crate) heading: Option<Heading>,
    pub(crate) likeness: Likeness,
    pub(crate) written: Vec<Written>,
    pub(crate) is_aside: bool,
    pub(crate) has_price: bool,
    /// Whether a time or a temperature stands in it.
    pub(crate) has_time_or_heat: bool,
    /// The heading that stands in front in the same line.
    pub(crate) front: Option<Heading>,
}

impl<'a> Row<'a> {
    pub(crate) fn of(text: &'a str, hint: Hint, is_after_gap: bool) -> Self {
        Self {
            text,
            tokens: tokens(text),
            hint,
            is_after_gap,
            heading: None,
            likeness: Likeness::None,
            written: Vec::new(),
            is_aside: false,
            has_price: false,
            has_time_or_heat: false,
            front: None,
        }
    }

    /// Looks at it by itself.
    pub(crate) fn look(&mut self, language: Language) {
        if self.tokens.len() > LONG {
            return;
        }
        self.has_price = has_price(&self.tokens);
        self.is_aside = self.hint == Hint::None && (self.is_quoted() || is_aside(&self.tokens));
        self.heading = heading(self.text, &self.tokens);
        if heads_steps(&self.tokens) {
            self.heading = Some(Heading::Method);
            self.is_aside = false;
        }
        if self.is_aside {
            return;
        }
        self.part_off_heading();
        self.has_time_or_heat = has_time_or_heat(&self.tokens, language);
        self.written = ingredients(self.text, self.body(), language);
        let is_measured_food = |one: &Written| one.is_measured() && one.known.is_some();
        let has_list = self.written.iter().any(is_measured_food);
        if self.front.is_some() && (self.has_time_or_heat || !has_list) {
            // "Dough: everything in, 12 minutes" is a step with its part in front, and "Flour: white" a food.
            self.front = None;
            self.written = ingredients(self.text, &self.tokens, language);
        }
        self.likeness = self.like();
    }

    /// "You need: 500 g flour, 10 g salt": a heading with what it begins in one line.
    fn part_off_heading(&mut self) {
        let colon = self
            .tokens
            .iter()
            .take(FRONT)
            .position(|token| token.is_mark(':'));
        let Some(colon) = colon.filter(|&colon| colon + 2 < self.tokens.len()) else {
            return;
        };
        let front = heading(self.text, &self.tokens[..=colon]);
        if matches!(
            front,
            Some(Heading::Ingredients | Heading::Method | Heading::Part { .. })
        ) {
            self.front = front;
            self.heading = None;
        }
    }

    /// Its tokens without a heading in front.
    pub(crate) fn body(&self) -> &[Token<'a>] {
        let colon = self.tokens.iter().position(|token| token.is_mark(':'));
        match (&self.front, colon) {
            (Some(_), Some(colon)) => &self.tokens[colon + 1..],
            _ => &self.tokens,
        }
    }

    fn like(&self) -> Likeness {
        let written = &self.written;
        let is_measured = written.iter().any(Written::is_measured);
        let words = self.words();
        if self.begins_with_a_verb() && !written.first().is_some_and(|one| one.is_amount_first) {
            return Likeness::None;
        }
        // "2 hours later the dough has doubled" begins with a number, too.
        if self.has_time_or_heat && !is_measured {
            return Likeness::None;
        }
        let is_few = words <= MOST_WORDS;
        if written.iter().any(Written::is_counted_food) && (is_few || written.len() > 2) {
            return Likeness::Food;
        }
        if is_few && is_measured {
            return Likeness::Measured;
        }
        let is_short = words <= SHORT && !self.ends_a_sentence();
        if is_short && written.iter().any(|one| one.known.is_some()) {
            return Likeness::BareFood;
        }
        Likeness::None
    }

    pub(crate) fn words(&self) -> usize {
        self.tokens.iter().filter(|token| token.is_word()).count()
    }

    pub(crate) fn begins_with_a_verb(&self) -> bool {
        self.first_word().is_some_and(|word| verb(word).is_some())
    }

    pub(crate) fn has_verb(&self) -> bool {
        let mut words = self
            .tokens
            .iter()
            .filter(|token| token.is_word())
            .take(LONG);
        words.any(|token| verb(&token.word).is_some())
    }

    fn first_word(&self) -> Option<&str> {
        let tokens = without_bullet(&self.tokens);
        tokens
            .first()
            .filter(|token| token.is_word())
            .map(|token| token.word.as_str())
    }

    /// Whether all that is measured stands in brackets at the end, as the mass of a whole part does: "Cream (300 g)".
    pub(crate) fn has_bracketed_amount(&self) -> bool {
        let first = self.tokens.iter().position(Token::is_number);
        let before = first.map(|first| &self.tokens[..first]);
        let ends = self
            .tokens
            .last()
            .is_some_and(|token| token.is_mark(')') || token.is_mark(':'));
        ends && before.is_some_and(|before| before.iter().any(|token| token.is_mark('(')))
    }

    /// Whether it stands as an item of a numbered list.
    pub(crate) fn is_numbered(&self) -> bool {
        matches!(self.tokens.as_slice(), [number, dot, _, ..]
            if number.is_number() && (dot.is_mark('.') || dot.is_mark(')') || dot.is_mark(':')) && dot.space == 0)
    }

    /// Whether it stands as an item of a list with bullets.
    pub(crate) fn is_bulleted(&self) -> bool {
        let without = without_bullet(&self.tokens);
        !self.is_numbered() && without.len() < self.tokens.len()
    }

    pub(crate) fn ends_a_sentence(&self) -> bool {
        self.tokens
            .last()
            .is_some_and(|token| token.is_mark('.') || token.is_mark('!') || token.is_mark('?'))
    }

    pub(crate) fn might_be_heading(&self) -> bool {
        might_be(&self.tokens)
    }

    /// Whether it quotes what somebody else wrote.
    pub(crate) fn is_quoted(&self) -> bool {
        self.tokens.first().is_some_and(|token| token.is_mark('>'))
    }
}

/// Ingredients have no more words in a row, nor a step of few.
const MOST_WORDS: usize = 24;
/// A heading in front of its own ingredients has no more tokens.
const FRONT: usize = 8;
/// A food without an amount has no more words around it.
const SHORT: usize = 7;
/// More tokens than this make no ingredients, headings or asides.
const LONG: usize = 160;

/// The rows of a text, and the language that it is in.
///
/// # Errors
/// [`Refusal::TooMuch`] for more than anything with one formula in it has.
pub(crate) fn rows<'a>(
    lines: impl Iterator<Item = (&'a str, Hint)>,
) -> Result<(Vec<Row<'a>>, Language), Refusal> {
    let mut rows = Vec::new();
    let mut gap = true;
    let mut tokens = 0;
    for (line, hint) in lines {
        let row = Row::of(line, hint, gap);
        gap = row.tokens.is_empty();
        tokens += row.tokens.len();
        if tokens > MOST_TOKENS {
            return Err(Refusal::TooMuch);
        }
        if !gap {
            rows.push(row);
        }
    }
    let language = Language::of(rows.iter().flat_map(|row: &Row<'_>| &row.tokens));
    for row in &mut rows {
        row.look(language);
    }
    Ok((rows, language))
}

/// A long page has a tenth of it; what reading costs grows with the tokens.
const MOST_TOKENS: usize = 40_000;
