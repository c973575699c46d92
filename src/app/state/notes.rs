//! What the baker writes about a bake: stored, and then shown.

use domain::bake::BakeId;
use domain::notebook::Note;

use super::Oventide;

impl Oventide {
    /// What the baker wrote about a bake and isn't stored yet, if anything.
    pub(crate) fn unsaved_note(self, bake: &BakeId) -> Option<Note> {
        let inner = self.inner();
        let unsaved = inner.unsaved.borrow();
        let found = unsaved.notes.iter().find(|note| note.bake == *bake);
        found.cloned()
    }

    /// Stores what the baker wrote about a bake, then shows it.
    pub(crate) fn keep_note(self, note: Note) {
        let bake = note.bake.clone();
        put_note(&mut self.inner().unsaved.borrow_mut().notes, note);
        self.in_turn(Box::pin(async move {
            if !self.is_silent() {
                self.save_note(&bake).await;
            } else if let Some(note) = self.unsaved_note(&bake) {
                self.notes.update(|notes| put_note(notes, note));
            }
        }));
    }

    pub(super) async fn save_note(self, bake: &BakeId) {
        let Some(note) = self.unsaved_note(bake) else {
            return;
        };
        let stored = self.store().put_note(&note).await;
        self.notes.update(|notes| put_note(notes, note.clone()));
        match stored {
            Ok(()) => {
                // What was written meanwhile has its own turn.
                if self.unsaved_note(bake).as_ref() == Some(&note) {
                    let inner = self.inner();
                    let mut unsaved = inner.unsaved.borrow_mut();
                    unsaved.notes.retain(|known| known.bake != *bake);
                }
                self.stored();
            }
            Err(error) => self.lose_storage(error),
        }
    }
}

/// Puts a note in the place of the one before.
pub(super) fn put_note(notes: &mut Vec<Note>, note: Note) {
    notes.retain(|known| known.bake != note.bake);
    notes.push(note);
}
