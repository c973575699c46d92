//! The archive file, out and in.

use leptos::task::spawn_local;
use platform::store::{RestoreError, StoreError};
use platform::{clock, files};

use super::Oventide;
use crate::reactive::RwSignal;

/// What became of writing or reading an archive.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum ArchiveOutcome {
    /// The file went to the share sheet or the downloads.
    Written(files::SaveOutcome),
    /// So did this one, but the storage could not be read: it holds what is known here.
    WrittenAsKnown(files::SaveOutcome),
    /// Everything in the file is now here.
    Restored,
    /// It is stored, but could not be read back yet.
    RestoredUnread,
    /// The file can't be taken; nothing was changed.
    Refused(RestoreError),
    /// No text could be got from the file.
    Unreadable(files::FileError),
    /// Everything was forgotten.
    Erased,
    /// The storage can't be reached, so nothing was forgotten.
    NotErased,
}

/// What the file picker offers.
const ACCEPT: &str = ".json,application/json";

impl Oventide {
    /// Writes everything into one file, stored or not.
    pub(crate) fn write_archive(self, name: String, outcome: RwSignal<Option<ArchiveOutcome>>) {
        self.in_turn(Box::pin(async move {
            let now = clock::now();
            let store = self.store();
            let silent = self.is_silent();
            if !silent && !self.is_sound() {
                // What isn't stored has to stand behind what other tabs wrote meanwhile.
                self.reload().await;
            }
            let written = if silent {
                Err(StoreError::NoAnswer)
            } else {
                store.export(now, &self.unsaved_contents()).await
            };
            let (text, told): (_, fn(_) -> _) = match written {
                Ok(text) => (text, ArchiveOutcome::Written),
                Err(_) => {
                    let text = store.export_known(now, &self.known_contents());
                    (text, ArchiveOutcome::WrittenAsKnown)
                }
            };
            // Nobody waits for how long the share sheet stays open.
            spawn_local(async move {
                let saved = files::save(&name, "application/json", &text).await;
                outcome.set(Some(told(saved)));
            });
        }));
    }

    /// Puts everything from a file in place of everything here, or changes nothing.
    pub(crate) fn read_archive(self, outcome: RwSignal<Option<ArchiveOutcome>>) {
        spawn_local(async move {
            let picked = files::pick_text(ACCEPT, platform::store::MOST_ARCHIVE_BYTES).await;
            let text = match picked {
                Ok(Some((_, text))) => text,
                Ok(None) => return,
                Err(error) => return outcome.set(Some(ArchiveOutcome::Unreadable(error))),
            };
            self.in_turn(Box::pin(async move {
                let restored = if self.is_silent() {
                    Err(RestoreError::Store(StoreError::NoAnswer))
                } else {
                    self.store().restore(&text).await
                };
                if let Err(RestoreError::Store(error @ StoreError::NoAnswer)) = &restored {
                    self.lose_storage(error.clone());
                }
                let told = match restored {
                    Ok(()) if self.read_anew().await => ArchiveOutcome::Restored,
                    Ok(()) => ArchiveOutcome::RestoredUnread,
                    Err(error) => ArchiveOutcome::Refused(error),
                };
                outcome.set(Some(told));
            }));
        });
    }

    /// Forgets everything on this phone, or says that it can't.
    pub(crate) fn erase_everything(self, outcome: RwSignal<Option<ArchiveOutcome>>) {
        self.in_turn(Box::pin(async move {
            let erased = if self.is_silent() {
                Err(StoreError::NoAnswer)
            } else {
                self.store().erase().await
            };
            let told = match erased {
                Ok(()) => {
                    // What is unreadable then is empty.
                    let _ = self.read_anew().await;
                    ArchiveOutcome::Erased
                }
                Err(error) => {
                    self.lose_storage(error);
                    ArchiveOutcome::NotErased
                }
            };
            outcome.set(Some(told));
        }));
    }

    /// Reads what stands in the place of everything; whether it could.
    async fn read_anew(self) -> bool {
        self.forget();
        let read = self.reload().await;
        self.inner().has_news.set(true);
        read
    }
}
