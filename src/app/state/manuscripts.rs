//! Formulas in the making: every change is stored, and then shown.
//!
//! They are held as they are stored. What they mean is for the half of the app that comes late.

use domain::formula::{Formula, FormulaId};

use super::Oventide;
use crate::route::Route;

impl Oventide {
    /// Stores what was written of a formula in the making, or that it was taken away, then shows it.
    pub(crate) fn keep_manuscript(self, key: String, text: Option<String>) {
        {
            let inner = self.inner();
            let mut unsaved = inner.unsaved.borrow_mut();
            unsaved.manuscripts.retain(|(known, _)| *known != key);
            unsaved.manuscripts.push((key.clone(), text));
        }
        self.in_turn(Box::pin(async move {
            if !self.is_silent() {
                self.save_manuscript(&key).await;
            } else if let Some(text) = self.unsaved_manuscript(&key) {
                self.manuscripts
                    .update(|all| put_manuscript(all, &key, text));
            }
        }));
    }

    /// Stores a formula in the making and goes to its sheet, unless the baker has gone elsewhere meanwhile.
    pub(crate) fn open_manuscript(self, id: FormulaId, text: String) {
        let from = self.route.get_untracked();
        self.keep_manuscript(id.0.clone(), Some(text));
        self.in_turn(Box::pin(async move {
            if self.route.get_untracked() == from {
                Route::Manuscript(id).go();
            }
        }));
    }

    /// Stores a formula that was finished, takes its sheet away, and goes to it.
    pub(crate) fn take_manuscript(self, formula: Formula) {
        let from = self.route.get_untracked();
        let id = formula.id.clone();
        self.keep_formula(formula);
        // Only once the formula is kept: between the two both are there, and nothing is lost.
        self.keep_manuscript(id.0.clone(), None);
        self.in_turn(Box::pin(async move {
            if self.route.get_untracked() == from {
                Route::Formula(id).go();
            }
        }));
    }

    /// What was written and isn't stored yet, if anything.
    pub(crate) fn unsaved_manuscript(self, key: &str) -> Option<Option<String>> {
        let inner = self.inner();
        let unsaved = inner.unsaved.borrow();
        let found = unsaved.manuscripts.iter().find(|(known, _)| known == key);
        found.map(|(_, text)| text.clone())
    }

    pub(super) async fn save_manuscript(self, key: &str) {
        let Some(text) = self.unsaved_manuscript(key) else {
            return;
        };
        let stored = self.store().put_manuscript(key, text.clone()).await;
        self.manuscripts
            .update(|all| put_manuscript(all, key, text.clone()));
        match stored {
            Ok(()) => {
                // What was written meanwhile has its own turn.
                if self.unsaved_manuscript(key).as_ref() == Some(&text) {
                    let inner = self.inner();
                    let mut unsaved = inner.unsaved.borrow_mut();
                    unsaved.manuscripts.retain(|(known, _)| known != key);
                }
                self.stored();
            }
            Err(error) => self.lose_storage(error),
        }
    }
}

/// Puts a text in the place of the one before, or takes that away.
pub(super) fn put_manuscript(all: &mut Vec<(String, String)>, key: &str, text: Option<String>) {
    let place = all.iter().position(|(known, _)| known == key);
    match (place, text) {
        (Some(place), Some(text)) => all[place].1 = text,
        (Some(place), None) => drop(all.remove(place)),
        (None, Some(text)) => all.push((key.to_owned(), text)),
        (None, None) => {}
    }
}
