//! Headings among the rows: what they begin, and whether that is another formula.

use domain::formula::ComponentKind;

use super::{Mode, Sheet};
use crate::foods::Role;
use crate::found::Part;
use crate::lines::heading::{Heading, is_plain, part_kind, without_frame};
use crate::lines::ingredient::{Written, cut_out};
use crate::question::Question;
use crate::rows::{Likeness, Row};

/// So many rows show whether a second formula has flour of its own.
const SECOND: usize = 40;

impl Sheet<'_, '_> {
    /// What a heading begins, and whether to go on behind it; nothing where the row is something else after all.
    pub(super) fn heading(&mut self, place: usize, heading: Heading) -> Option<bool> {
        match heading {
            Heading::Ingredients => {
                if self.has_another_formula() && self.leads_a_list(place) {
                    self.another(&self.rows[place]);
                    return Some(false);
                }
                self.mode = Mode::Ingredients;
                self.is_behind_heading = true;
            }
            Heading::Method => {
                self.mode = Mode::Method;
                self.section = None;
            }
            Heading::Aside => self.mode = Mode::Aside,
            Heading::Part {
                name,
                kind,
                is_sure,
            } => return self.part_heading(place, name, kind, is_sure),
        }
        Some(true)
    }

    /// The heading of a part: of its ingredients, or of its steps.
    fn part_heading(
        &mut self,
        place: usize,
        name: String,
        kind: Option<ComponentKind>,
        is_sure: bool,
    ) -> Option<bool> {
        if self.leads_a_list(place) {
            let is_plain = is_sure || is_plain(&name);
            if self.baked && !is_plain && self.has_another_formula() {
                return Some(self.untold_heading(place));
            }
            self.part(name, kind);
            return Some(true);
        }
        kind?;
        let is_bare = self.rows[place].likeness == Likeness::None;
        let begins_steps = is_sure && is_bare && !self.found.parts.is_empty();
        if self.mode != Mode::Method && !begins_steps {
            return None;
        }
        self.mode = Mode::Method;
        self.section = self.section_of(&name);
        Some(true)
    }

    /// A heading that no list knows, with ingredients behind it.
    pub(super) fn untold_heading(&mut self, place: usize) -> bool {
        let row = &self.rows[place];
        let name = cut_out(row.text, without_frame(&row.tokens))
            .trim_end_matches(':')
            .to_owned();
        if self.mode == Mode::Before && self.found.name.is_empty() && self.found.parts.is_empty() {
            self.found.name = name;
            return true;
        }
        if self.baked && self.has_another_formula() {
            self.another(row);
            // What has no flour of its own may belong to the first: it is read, and asked about.
            let behind = self.rows[place + 1..].iter().take(SECOND);
            let mut behind = behind.flat_map(|row| &row.written);
            if behind.any(is_flour) {
                return false;
            }
        }
        let kind = part_kind(&name);
        self.part(name, kind);
        true
    }

    fn has_another_formula(&self) -> bool {
        let ingredients = self.found.parts.iter().map(|part| part.ingredients.len());
        ingredients.sum::<usize>() > 1 && !self.found.steps.is_empty()
    }

    fn another(&mut self, row: &Row<'_>) {
        let second = cut_out(row.text, without_frame(&row.tokens)).to_owned();
        let first = self.found.name.clone();
        self.found
            .questions
            .push(Question::TwoFormulas { first, second });
    }

    pub(super) fn part(&mut self, name: String, kind: Option<ComponentKind>) {
        self.mode = Mode::Ingredients;
        self.is_behind_heading = true;
        self.found.parts.push(Part {
            name,
            kind: kind.unwrap_or(ComponentKind::Filling),
            kind_is_read: kind.is_some(),
            ingredients: Vec::new(),
        });
    }

    /// The part that a section of the steps is about.
    pub(super) fn section_of(&self, name: &str) -> Option<usize> {
        let by_name = self
            .found
            .parts
            .iter()
            .position(|part| !part.name.is_empty() && part.name == name);
        by_name.or_else(|| {
            let kind = part_kind(name)?;
            self.found
                .parts
                .iter()
                .position(|part| part.kind == kind && part.kind_is_read)
        })
    }
}

fn is_flour(written: &Written) -> bool {
    written
        .known
        .as_ref()
        .is_some_and(|known| known.role == Role::Flour)
}
