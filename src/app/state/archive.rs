//! The archive file, out and in.

use leptos::task::spawn_local;
use platform::store::RestoreError;
use platform::{clock, files};

use super::Oventide;
use crate::reactive::RwSignal;

/// What became of writing or reading an archive.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum ArchiveOutcome {
    /// The file went to the share sheet or the downloads.
    Written(files::SaveOutcome),
    /// Everything in the file is now here.
    Restored,
    /// The file can't be taken; nothing was changed.
    Refused(RestoreError),
    /// No text could be got from the file.
    Unreadable(files::FileError),
    /// The storage can't be read.
    NoStorage,
}

/// What the file picker offers.
const ACCEPT: &str = ".json,application/json";

impl Oventide {
    /// Writes everything into one file.
    pub(crate) fn write_archive(self, name: String, outcome: RwSignal<Option<ArchiveOutcome>>) {
        spawn_local(async move {
            let now = clock::now();
            let written = match self.store() {
                Some(store) => store.export(now).await.ok(),
                None => None,
            };
            outcome.set(Some(match written {
                Some(text) => {
                    let saved = files::save(&name, "application/json", &text).await;
                    ArchiveOutcome::Written(saved)
                }
                None => ArchiveOutcome::NoStorage,
            }));
        });
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
            let Some(store) = self.store() else {
                return outcome.set(Some(ArchiveOutcome::NoStorage));
            };
            match store.restore(&text).await {
                Ok(()) => {
                    self.inner().unsaved.borrow_mut().clear();
                    self.reload().await;
                    self.tell_other_tabs();
                    outcome.set(Some(ArchiveOutcome::Restored));
                }
                Err(error) => outcome.set(Some(ArchiveOutcome::Refused(error))),
            }
        });
    }

    /// Forgets everything on this phone.
    pub(crate) fn erase_everything(self) {
        spawn_local(async move {
            let Some(store) = self.store() else {
                return;
            };
            match store.erase().await {
                Ok(()) => {
                    self.inner().unsaved.borrow_mut().clear();
                    self.settings.set(platform::store::Settings::default());
                    self.reload().await;
                    self.tell_other_tabs();
                }
                Err(error) => self.lose_storage(error),
            }
        });
    }
}
