//! The half of the app that comes once the app can be used.

use leptos::task::spawn_local;

use super::Oventide;

/// Where the late half of the app is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Late {
    /// On its way.
    Coming,
    /// Here: every page can be drawn.
    Here,
    /// It could not be had, and is asked for again and again.
    Missing,
}

impl Oventide {
    /// Fetches the late half, unless it is here or on its way.
    pub(super) fn fetch_late(self) {
        spawn_local(async move {
            let here = platform::late::join().await;
            self.late.set(if here { Late::Here } else { Late::Missing });
        });
    }

    /// Tries again where it could not be had.
    pub(super) fn seek_late(self) {
        if self.late.get_untracked() == Late::Missing {
            self.fetch_late();
        }
    }
}
