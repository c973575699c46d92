//! What a row is, told by what it looks like, the rows beside it and what has begun.

use super::{Mode, Sheet};
use crate::lines::heading::Heading;
use crate::lines::ingredient::Written;
use crate::rows::{Hint, Likeness, Row};

/// So many rows behind a heading show what it heads.
const LOOKED_AHEAD: usize = 3;
/// An ingredient that no table knows has no more words.
const FEW: usize = 5;
/// More words than this make a sentence.
const SENTENCE: usize = 14;
/// A food without an amount that stands in front of a list has no more words.
const BARE: usize = 3;

impl Sheet<'_, '_> {
    /// Whether the next row that says something is an ingredient.
    pub(super) fn leads_a_list(&self, place: usize) -> bool {
        let behind = self.rows[place + 1..].iter().take(LOOKED_AHEAD);
        for row in behind {
            let is_passed = row.is_aside
                || matches!(row.heading, Some(Heading::Ingredients))
                // "The sponge" is among the ingredients of the dough.
                || (!row.is_after_gap && super::names_one_of(row, &self.found.parts));
            if is_passed {
                continue;
            }
            return row.likeness >= Likeness::Measured && !self.is_step(row)
                || row.likeness == Likeness::BareFood
                    && row.hint == Hint::None
                    && row.heading.is_none();
        }
        false
    }

    pub(super) fn is_ingredients(&self, place: usize, is_behind_heading: bool) -> bool {
        let row = &self.rows[place];
        if self.is_step(row)
            || (row.likeness == Likeness::BareFood && self.is_head_of_group(place))
            || (place == 0 && self.found.name.is_empty() && self.is_title(row))
        {
            return false;
        }
        match (self.mode, row.likeness) {
            (Mode::Aside, _) | (_, Likeness::None) => false,
            (Mode::Ingredients, _) => true,
            (Mode::Before, Likeness::Food) => {
                row.written.iter().any(Written::is_measured) || self.is_beside_food(place)
            }
            (Mode::Before, Likeness::Measured) => self.is_beside_food(place),
            (Mode::Before, Likeness::BareFood) => {
                self.is_beside_food(place) && row.words() <= BARE && !self.found.name.is_empty()
            }
            (Mode::Method, Likeness::Food) => {
                is_behind_heading || self.found.parts.is_empty() || self.is_beside_food(place)
            }
            (Mode::Method, Likeness::Measured | Likeness::BareFood) => is_behind_heading,
        }
    }

    /// Whether a row beside it is a food with its amount.
    fn is_beside_food(&self, place: usize) -> bool {
        let beside = [place.checked_sub(1), Some(place + 1)]
            .into_iter()
            .flatten();
        let mut beside = beside.filter_map(|place| self.rows.get(place));
        beside.any(|row| row.likeness == Likeness::Food && !self.is_step(row))
    }

    /// Whether the first row is the title, though a food stands in it: "Coarse rolls, about 16".
    fn is_title(&self, row: &Row<'_>) -> bool {
        let is_alone = self.rows.get(1).is_none_or(|next| next.is_after_gap);
        let is_list = row.written.iter().any(|one| one.is_amount_first) || row.written.len() > 1;
        let is_counted = row
            .written
            .iter()
            .flat_map(|one| &one.amounts)
            .all(|amount| !amount.has_unit() || amount.is_pieces());
        (is_alone || is_counted) && !is_list
    }

    /// Whether a food without an amount heads the group of rows behind it: "Butter block".
    fn is_head_of_group(&self, place: usize) -> bool {
        let row = &self.rows[place];
        let next = self.rows.get(place + 1);
        row.is_after_gap
            && next.is_some_and(|next| !next.is_after_gap && next.likeness >= Likeness::Measured)
            && self
                .found
                .parts
                .iter()
                .any(|part| !part.ingredients.is_empty())
    }

    /// A short row in the midst of ingredients that no table knows: "a little love".
    pub(super) fn is_unknown_ingredient(&self, place: usize) -> bool {
        let row = &self.rows[place];
        let next = self.rows.get(place + 1);
        row.words() <= FEW
            && !row.ends_a_sentence()
            && !row.is_after_gap
            && next.is_some_and(|next| next.likeness > Likeness::None && !next.is_after_gap)
    }

    /// Whether a row tells what to do.
    pub(super) fn is_step(&self, row: &Row<'_>) -> bool {
        if row.hint != Hint::None {
            return matches!(row.hint, Hint::Step(_));
        }
        let is_in_method = self.mode == Mode::Method;
        let is_food = row.likeness == Likeness::Food;
        let begins_with_amount = row.written.first().is_some_and(|one| one.is_amount_first);
        let looks_listed = row.likeness >= Likeness::Measured && begins_with_amount;
        if looks_listed && (!is_in_method || !row.has_verb()) && row.words() <= SENTENCE {
            return false;
        }
        if is_food && !is_in_method && !row.begins_with_a_verb() && !row.ends_a_sentence() {
            return false;
        }
        // Among steps a sentence is one of them, and so is an item of their list.
        let goes_on = (row.ends_a_sentence() && !row.is_after_gap) || row.is_bulleted();
        let is_among_steps = is_in_method && !is_food && row.words() > 1 && goes_on;
        let is_sentence = row.ends_a_sentence() || row.words() > SENTENCE || is_in_method;
        row.begins_with_a_verb()
            || is_among_steps
            || (row.has_time_or_heat && !is_food && self.mode != Mode::Before)
            || (row.is_numbered() && row.words() > 1 && !is_food)
            || (row.has_verb() && is_sentence)
    }
}
