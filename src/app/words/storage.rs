//! How storing, waking and sounding stand, in honest words.

use platform::files::{FileError, SaveOutcome};
use platform::persist::Persistence;
use platform::sound::SoundState;
use platform::store::{RestoreError, StoreError};
use platform::wake_lock::WakeState;

use crate::state::{ArchiveOutcome, Health};

/// Why nothing is stored now, what that means for the bake, and what to do; nothing when all is well.
pub(crate) fn health(health: &Health) -> Option<String> {
    let (error, not, hidden) = match health {
        Health::Sound => return None,
        Health::Unsaved(error) => (error, "Not saved", ""),
        Health::Unread(error) => (
            error,
            "Not read and not saved",
            " Anything kept here before isn't shown now, and stays as it is.",
        ),
    };
    let (why, then) = match error {
        StoreError::Unavailable(_) => (
            "This browser gives no storage (a private window, perhaps).",
            "Open Oventide in an ordinary window to keep your bakes.",
        ),
        StoreError::Blocked => (
            "Another tab of Oventide holds the storage.",
            "Close the other tabs; everything unsaved is saved then.",
        ),
        StoreError::NoAnswer => (
            "The phone's storage doesn't answer.",
            "It is used as soon as it does. If it never does, write an archive, then load this page again.",
        ),
        StoreError::QuotaExceeded => (
            "The phone is full.",
            "Free some space; everything unsaved is saved with your next tap.",
        ),
        StoreError::Closed => (
            "The storage was closed by the browser.",
            "It is opened again with your next tap. If that doesn't help, write an archive, then load this page again.",
        ),
        StoreError::Conflict => (
            "Another tab wrote at the same time.",
            "Use one tab for one bake.",
        ),
        StoreError::NewerDatabase => (
            "A newer Oventide has been here.",
            "Write an archive, then load this page again to get the newer one.",
        ),
        StoreError::Failed(_) => (
            "The phone's storage failed.",
            "Everything unsaved is tried again with your next tap.",
        ),
    };
    Some(format!(
        "{not}: {why}{hidden} The bake goes on, but a closed page would lose what isn't saved. {then}"
    ))
}

/// Whether the browser promised to keep the data.
pub(crate) fn persistence(state: Persistence) -> &'static str {
    match state {
        Persistence::Granted => "This browser has promised to keep your data.",
        Persistence::Refused => {
            "This browser may clear your data when space runs short. Write an archive now and then."
        }
        Persistence::Unsupported => {
            "This browser doesn't say whether it keeps data. Write an archive now and then."
        }
    }
}

/// Whether the alarm can be heard.
pub(crate) fn sound(state: SoundState) -> &'static str {
    match state {
        SoundState::Ready => "The alarm can sound.",
        SoundState::NeedsTap => "Tap anywhere once, so that the browser lets the alarm sound.",
        SoundState::Unavailable => "This browser has no sound for the alarm: watch the screen.",
    }
}

/// Whether the screen stays on.
pub(crate) fn wake(state: &WakeState) -> &'static str {
    match state {
        WakeState::Held => "The screen stays on while something runs.",
        WakeState::Released => "The screen may switch off: nothing runs now.",
        WakeState::Unsupported => {
            "This browser can't keep the screen on. Set the phone's own screen lock to never while you bake."
        }
        WakeState::Refused(_) => {
            "The phone refused to keep the screen on, perhaps to save its battery. Plug it in, or set its screen lock to never."
        }
    }
}

/// What became of an archive.
pub(crate) fn archive_outcome(outcome: &ArchiveOutcome) -> String {
    match outcome {
        ArchiveOutcome::Written(saved) => written(saved).to_owned(),
        ArchiveOutcome::WrittenAsKnown(saved @ (SaveOutcome::Shared | SaveOutcome::Downloaded)) => {
            format!(
                "{} It holds what this page knows: the phone's storage could not be read.",
                written(saved)
            )
        }
        ArchiveOutcome::WrittenAsKnown(saved) => written(saved).to_owned(),
        ArchiveOutcome::Restored => "Everything in the archive is here now.".to_owned(),
        ArchiveOutcome::RestoredUnread => {
            "The archive is stored, but can't be read back just now: load the app again.".to_owned()
        }
        ArchiveOutcome::Refused(RestoreError::Archive(error)) => {
            format!("Nothing was changed: {error}. Choose another file.")
        }
        ArchiveOutcome::Refused(RestoreError::Store(StoreError::QuotaExceeded)) => {
            "Nothing was changed: the phone is full. Free some space and try again.".to_owned()
        }
        ArchiveOutcome::Refused(RestoreError::Store(StoreError::NoAnswer)) => {
            "Nothing was changed: the phone's storage doesn't answer. Try again once it does, or load this page again."
                .to_owned()
        }
        ArchiveOutcome::Refused(RestoreError::Store(_)) => {
            "Nothing was changed: the phone's storage can't be written now. Load this page again, then try again."
                .to_owned()
        }
        ArchiveOutcome::Unreadable(FileError::TooLarge) => {
            "Nothing was changed: the file is too large to be an archive.".to_owned()
        }
        ArchiveOutcome::Unreadable(_) => {
            "Nothing was changed: the file can't be read as text. Choose another file.".to_owned()
        }
        ArchiveOutcome::Erased => "Everything on this phone is erased.".to_owned(),
        ArchiveOutcome::NotErased => {
            "Nothing was erased: the phone's storage can't be reached. Load this page again, or clear this page's data in the browser's own settings."
                .to_owned()
        }
    }
}

fn written(saved: &SaveOutcome) -> &'static str {
    match saved {
        SaveOutcome::Shared => "The archive was handed over.",
        SaveOutcome::Downloaded => "The archive is in your downloads. Keep a copy somewhere else.",
        SaveOutcome::Cancelled => "No archive was written.",
        SaveOutcome::Failed(_) => {
            "The archive could not be written; try again, or use another browser."
        }
    }
}
