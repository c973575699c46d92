//! Instructions, read as steps with their times and temperatures.
//!
//! A step has one time and one temperature at most: "knead 10 minutes, then leave 1 hour" is two of them. A sentence that
//! has neither, and does nothing new, belongs to the step before it. Left out: what is done meanwhile, and repeated.

mod marks;
mod sentences;
mod verbs;

use crate::found::{Heat, Step};
use crate::grammar::tokens::{Kind, Token};
use crate::language::Language;
use crate::lines::ingredient::{cut_out, without_bullet};
use marks::{What, marks, speaks_of_an_oven};
use sentences::{parts, sentences};

pub(crate) use verbs::{kind, verb};

/// The steps of a paragraph or an item of a list.
pub(crate) fn steps(text: &str, tokens: &[Token<'_>], language: Language) -> Vec<Step> {
    let tokens = without_bullet(tokens);
    let mut steps: Vec<Step> = Vec::new();
    for sentence in sentences(tokens) {
        let of_oven = speaks_of_an_oven(sentence);
        for part in parts(sentence, language, of_oven) {
            let step = step(text, part, language, of_oven);
            if step.text.is_empty() {
                continue;
            }
            match steps.last_mut() {
                Some(last) if goes_on(last, &step) => {
                    last.text.push(' ');
                    last.text.push_str(&step.text);
                }
                _ => steps.push(step),
            }
        }
    }
    steps
}

/// Whether a step only says more about the one before it.
fn goes_on(last: &Step, next: &Step) -> bool {
    let bare = next.minutes.is_none() && next.heat.is_none();
    bare && (next.kind.is_none() || (next.kind == last.kind && last.text.len() < LONG))
}

/// A step longer than this, in bytes, takes up no more.
const LONG: usize = 300;

fn step(text: &str, tokens: &[Token<'_>], language: Language, of_oven: bool) -> Step {
    let tokens = trimmed(tokens);
    let marks = marks(tokens, language, of_oven);
    let minutes = marks.iter().find_map(|mark| match mark.what {
        What::Time(span) => Some((span.low_min, span.high_min)),
        What::Heat(_) => None,
    });
    let heat = marks.iter().find_map(|mark| match mark.what {
        What::Heat(heat) => Some(Heat {
            celsius: heat.celsius,
            fan: heat.fan,
            scale_is_inferred: heat.is_guessed(),
        }),
        What::Time(_) => None,
    });
    Step {
        text: cut_out(text, tokens).trim().to_owned(),
        kind: kind(tokens),
        part: None,
        minutes,
        heat,
    }
}

/// Without what parts it from the step before: ", then".
fn trimmed<'t, 'a>(tokens: &'t [Token<'a>]) -> &'t [Token<'a>] {
    let parts = |token: &Token<'_>| {
        matches!(
            token.kind,
            Kind::Mark(',' | ';' | '.' | '–' | '—' | '|' | ':')
        )
    };
    let front = tokens.iter().take_while(|token| parts(token)).count();
    &tokens[front..]
}

/// Whether a time or a temperature stands in a row.
pub(crate) fn has_time_or_heat(tokens: &[Token<'_>], language: Language) -> bool {
    !marks(tokens, language, speaks_of_an_oven(tokens)).is_empty()
}

#[cfg(test)]
mod tests;
