//! From bytes to lines: a text as it is, the recipe in a page or in JSON.
//!
//! Characters that pages write by name or number are decoded, and lines that were broken are joined; nothing else of a
//! text changes. Left out: encodings other than UTF-8, and files of word processors.

mod entities;
mod html;
mod schema;
mod unwrap;

use crate::found::Makes;
use crate::grammar::tokens::tokens;
use crate::language::Language;
use crate::lines::makes::makes;
use crate::lines::table;
use crate::refusal::Refusal;
use crate::rows::Hint;
use crate::{MOST_BYTES, MOST_LINES};

/// Lines of a source, with what it says of them.
#[derive(Debug, Default)]
pub(crate) struct Source {
    /// What it is called, where the source says so.
    pub(crate) name: String,
    /// How many it makes, as it is written.
    makes: String,
    lines: Vec<(String, Hint)>,
    /// The names of further recipes beside the one that is read.
    pub(crate) others: Vec<String>,
}

impl Source {
    /// Finds out what the bytes are, and takes the lines of it.
    pub(crate) fn of(bytes: &[u8]) -> Result<Self, Refusal> {
        if bytes.len() > MOST_BYTES {
            return Err(Refusal::TooLarge { bytes: bytes.len() });
        }
        let text = std::str::from_utf8(bytes).map_err(|_| Refusal::NotText)?;
        let text = text.trim_start_matches('\u{feff}');
        let strange = |letter: char| letter.is_control() && !letter.is_whitespace();
        if text.chars().any(strange) {
            return Err(Refusal::NotText);
        }
        let inner = text.trim();
        if inner.is_empty() {
            return Err(Refusal::Empty);
        }
        if looks_like_json(inner) {
            return schema::from_json(inner)?
                .ok_or(Refusal::NoRecipe)?
                .within_bounds();
        }
        if html::is_page(inner) {
            return match html::recipe(inner)? {
                Some(recipe) => recipe.within_bounds(),
                None => Self::text(&html::text(inner)),
            };
        }
        Self::text(text)
    }

    fn text(text: &str) -> Result<Self, Refusal> {
        let full = text.lines().filter(|line| !line.trim().is_empty());
        if full.count() > MOST_LINES {
            return Err(Refusal::TooMuch);
        }
        let mut columns: Option<Vec<table::Column>> = None;
        let mut lines = Vec::new();
        for line in unwrap::lines(text) {
            if let Some(head) = table::head(&line) {
                columns = Some(head);
                // "POOLISH   %   kg" names a part, too; a head that names nothing is an aside by itself.
                lines.push((table::named_by(&line).unwrap_or(line), Hint::None));
                continue;
            }
            if line.trim().is_empty() {
                columns = None;
            }
            let columns = columns.as_ref();
            let with_units = columns.and_then(|columns| table::with_units(&line, columns));
            lines.push((with_units.unwrap_or(line), Hint::None));
        }
        Ok(Self {
            lines,
            ..Self::default()
        })
    }

    fn within_bounds(self) -> Result<Self, Refusal> {
        if self.lines.len() > MOST_LINES {
            return Err(Refusal::TooMuch);
        }
        Ok(self)
    }

    pub(crate) fn lines(&self) -> impl Iterator<Item = (&str, Hint)> {
        self.lines.iter().map(|(line, hint)| (line.as_str(), *hint))
    }

    /// How many pieces it makes, where the source has a field for that.
    pub(crate) fn makes(&self, language: Language) -> Option<Makes> {
        let said = format!("makes {}", self.makes);
        makes(&said, &tokens(&said), language)
    }
}

/// JSON begins as nothing does that people write: with a brace, or with a bracket and a brace or quotes.
fn looks_like_json(text: &str) -> bool {
    match text.strip_prefix('[') {
        // "[] 500 g flour" is a box to tick.
        Some(rest) => rest.trim_start().starts_with(['{', '"']) || rest.trim() == "]",
        None => text
            .strip_prefix('{')
            .is_some_and(|rest| rest.trim_start().starts_with(['"', '}'])),
    }
}

#[cfg(test)]
mod tests;
