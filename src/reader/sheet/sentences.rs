//! Formulas without a list: the ingredients stand in the sentences that say what to do with them.

use super::{Sheet, ingredient};
use crate::found::Ingredient;
use crate::lines::ingredient::inside;

/// A formula in sentences has no more rows.
const SENTENCES: usize = 60;

impl Sheet<'_, '_> {
    /// Where nothing is listed, the ingredients stand in the sentences that say what to do with them.
    pub(super) fn read_sentences(&mut self) {
        let written = self
            .rows
            .iter()
            .take(SENTENCES)
            .flat_map(|row| inside(row.text, &row.tokens, self.language));
        let ingredients: Vec<Ingredient> = written.map(|one| ingredient(&one)).collect();
        if ingredients.is_empty() {
            return;
        }
        self.part(String::new(), None);
        if let Some(part) = self.found.parts.last_mut() {
            part.ingredients = ingredients;
        }
        if self.found.steps.is_empty() {
            for row in self.rows.iter().take(SENTENCES) {
                if !row.is_aside && (row.has_verb() || row.has_time_or_heat) {
                    self.step(row, None);
                }
            }
        }
    }
}
