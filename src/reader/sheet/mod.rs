//! The rows of a text, put together: what belongs to which part, where the steps begin, where another formula does.
//!
//! Rows are taken in their order, once. What one is taken for hangs on what it looks like, on the rows beside it
//! ([`looks`]) and on what has begun. Left out: texts in which the steps come before the ingredients of the same part.

mod headings;
mod looks;
mod sentences;

use domain::formula::StepKind;

use crate::found::{Found, Ingredient, Part};
use crate::language::Language;
use crate::lines::heading::{Heading, without_frame};
use crate::lines::ingredient::{Written, cut_out};
use crate::lines::makes::makes;
use crate::rows::{Hint, Likeness, Row};
use crate::steps;
use crate::weigh;

/// What the rows are about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Mode {
    /// Nothing has begun: title and talk.
    Before,
    Ingredients,
    Method,
    /// Notes and the like.
    Aside,
}

/// A formula that is being put together.
struct Sheet<'r, 'a> {
    rows: &'r [Row<'a>],
    language: Language,
    mode: Mode,
    found: Found,
    /// Whether the heading of a part was the row before.
    is_behind_heading: bool,
    /// The part whose steps are being read.
    section: Option<usize>,
    /// Whether something was baked already: what comes behind may be another formula.
    baked: bool,
}

/// Puts rows together.
pub(crate) fn assemble(rows: &[Row<'_>], language: Language, name: String) -> Found {
    let mut sheet = Sheet {
        rows,
        language,
        mode: Mode::Before,
        found: Found {
            name,
            ..Found::default()
        },
        is_behind_heading: false,
        section: None,
        baked: false,
    };
    for place in 0..rows.len() {
        if !sheet.take(place) {
            break;
        }
    }
    sheet.found.drop_empty_parts();
    if sheet.found.parts.is_empty() {
        sheet.read_sentences();
    }
    sheet.found
}

impl Sheet<'_, '_> {
    /// Takes a row; whether to go on.
    fn take(&mut self, place: usize) -> bool {
        let row = &self.rows[place];
        match row.hint {
            Hint::Ingredient => self.listed(place),
            Hint::Step(minutes) => self.step(row, minutes),
            Hint::Section => self.section = self.section_of(row.text),
            Hint::None => return self.line(place),
        }
        true
    }

    fn line(&mut self, place: usize) -> bool {
        let row = &self.rows[place];
        if row.is_aside || self.takes_number_of_pieces(row) {
            return true;
        }
        if self.names_own_part(row) {
            return true;
        }
        if let Some(heading) = row.heading.clone()
            && (row.likeness < Likeness::Measured
                || row.has_bracketed_amount()
                || (row.is_after_gap && row.likeness == Likeness::Measured))
            && let Some(goes_on) = self.heading(place, heading)
        {
            return goes_on;
        }
        if let Some(front) = row.front.clone() {
            self.headed(row, front);
            return true;
        }
        let is_behind_heading = std::mem::take(&mut self.is_behind_heading);
        if self.is_ingredients(place, is_behind_heading) {
            self.mode = Mode::Ingredients;
            self.ingredients(row);
            return true;
        }
        let is_bracketed = row.tokens.first().is_some_and(|token| token.is_mark('('));
        if row.might_be_heading() && !is_bracketed && self.leads_a_list(place) && !self.is_step(row)
        {
            return self.untold_heading(place);
        }
        match self.mode {
            Mode::Before => self.before(row),
            Mode::Ingredients | Mode::Method if self.is_step(row) => {
                self.mode = Mode::Method;
                self.step(row, None);
            }
            Mode::Ingredients if self.is_unknown_ingredient(place) => self.ingredients(row),
            _ => {}
        }
        true
    }

    /// "All of the levain" among the ingredients of the dough is the part above, and neither a heading nor one more.
    fn names_own_part(&self, row: &Row<'_>) -> bool {
        let Some((_, before)) = self.found.parts.split_last() else {
            return false;
        };
        let is_in_list =
            self.mode == Mode::Ingredients && (self.is_behind_heading || !row.is_after_gap);
        is_in_list && names_one_of(row, before)
    }

    /// Takes the number of pieces, if a row tells it and none did before.
    fn takes_number_of_pieces(&mut self, row: &Row<'_>) -> bool {
        if self.found.makes.is_some() || row.likeness == Likeness::Food {
            return false;
        }
        self.found.makes = makes(row.text, &row.tokens, self.language);
        self.found.makes.is_some()
    }

    /// A heading with its ingredients in one line.
    fn headed(&mut self, row: &Row<'_>, front: Heading) {
        if let Heading::Part { name, kind, .. } = front {
            self.part(name, kind);
        }
        self.mode = Mode::Ingredients;
        self.is_behind_heading = false;
        self.ingredients(row);
    }

    fn before(&mut self, row: &Row<'_>) {
        let is_talk = row
            .tokens
            .iter()
            .any(|token| token.is_mark(':') || token.is_mark('@'));
        if self.found.name.is_empty() && row.might_be_heading() && !is_talk {
            self.found.name = cut_out(row.text, without_frame(&row.tokens)).to_owned();
        } else if row.is_numbered() && row.has_verb() {
            self.mode = Mode::Method;
            self.step(row, None);
        }
    }

    fn step(&mut self, row: &Row<'_>, minutes: Option<f64>) {
        let mut read = steps::steps(row.text, &row.tokens, self.language);
        if let Some(minutes) = minutes
            && read.iter().all(|step| step.minutes.is_none())
            && let Some(last) = read.last_mut()
        {
            last.minutes = Some((minutes, minutes));
        }
        for step in &mut read {
            step.part = self.section;
            self.baked |= step.kind == Some(StepKind::Bake)
                && (step.heat.is_some() || step.minutes.is_some());
        }
        self.found.steps.append(&mut read);
    }

    /// One of the ingredients of a list; a heading may stand among them.
    fn listed(&mut self, place: usize) {
        let row = &self.rows[place];
        let is_measured = row.written.iter().any(Written::is_measured);
        if let Some(Heading::Part {
            name,
            kind,
            is_sure,
        }) = row.heading.clone()
            && !is_measured
            && (is_sure || row.likeness == Likeness::None)
        {
            self.part(name, kind);
        } else {
            self.ingredients(row);
        }
    }

    fn ingredients(&mut self, row: &Row<'_>) {
        if self.found.parts.is_empty() {
            self.part(String::new(), None);
            self.is_behind_heading = false;
        }
        let Some(part) = self.found.parts.last_mut() else {
            return;
        };
        part.ingredients.extend(row.written.iter().map(ingredient));
    }
}

/// Whether a row says no more than which part is meant.
fn names_one_of(row: &Row<'_>, parts: &[Part]) -> bool {
    let is_own = |word: &str| {
        let mut words = parts.iter().filter_map(|part| telling_word(&part.name));
        words.any(|own| word.starts_with(&own) || own.starts_with(word))
    };
    let words = row.tokens.iter();
    let mut words = words.filter(|token| token.is_word() && token.word.len() >= TELLING);
    row.likeness < Likeness::Measured
        && row.words() <= OWN_PART
        && words.any(|token| is_own(&token.word))
}

/// Words that name a part have so many letters at least.
const TELLING: usize = 4;
/// A part is named again in no more words.
const OWN_PART: usize = 6;

/// The word by which a part is named again: the first of its heading that is long enough and no small word.
fn telling_word(name: &str) -> Option<String> {
    let small = ["from", "pour", "para", "fur", "with", "made", "ahead"];
    let name = domain::food::unaccented(name);
    let mut words = name.split(|letter: char| !letter.is_alphanumeric());
    let telling = words.find(|word| word.len() >= TELLING && !small.contains(word));
    telling.map(str::to_owned)
}

pub(crate) fn ingredient(written: &Written) -> Ingredient {
    Ingredient {
        amount: written.amount.clone(),
        name: written.name.clone(),
        note: written.note.clone(),
        known: written.known,
        mass: weigh::mass(written),
        percent: written.percent,
    }
}
