//! What could not be stored yet, and using the storage one after the other.

use std::future::Future;
use std::pin::Pin;

use domain::bake::BakeId;
use domain::formula::Formula;
use domain::notebook::Note;
use leptos::task::spawn_local;
use platform::store::{Contents, Settings, StoreError};

use super::{Health, Oventide};

/// A change of the settings. It is kept as what it changes, so that it can be made
/// again to whatever turns out to be stored.
pub(crate) type Edit = Box<dyn Fn(&mut Settings)>;

/// Something that uses the storage.
pub(super) type Task = Pin<Box<dyn Future<Output = ()>>>;

/// What is known only here, because it isn't stored yet.
#[derive(Default)]
pub(super) struct Unsaved {
    /// For each bake, the first entry of its log that isn't stored.
    pub(super) bakes: Vec<(BakeId, u32)>,
    /// The baker's own formulas that aren't in the storage.
    pub(super) formulas: Vec<Formula>,
    /// What was last written of formulas in the making; nothing where one was taken away.
    pub(super) manuscripts: Vec<(String, Option<String>)>,
    /// Notes, each the newest of its bake.
    pub(super) notes: Vec<Note>,
    /// Changes of the settings, oldest first.
    pub(super) edits: Vec<Edit>,
}

impl Unsaved {
    /// The first entry of a bake that isn't stored.
    pub(super) fn first_of(&self, bake: &BakeId) -> Option<u32> {
        let found = self.bakes.iter().find(|(known, _)| known == bake);
        found.map(|&(_, first)| first)
    }

    /// Says which entry of a bake is the first that isn't stored, or that all are.
    pub(super) fn set_first(&mut self, bake: &BakeId, first: Option<u32>) {
        self.bakes.retain(|(known, _)| known != bake);
        if let Some(first) = first {
            self.bakes.push((bake.clone(), first));
        }
    }

    fn is_empty(&self) -> bool {
        self.bakes.is_empty()
            && self.formulas.is_empty()
            && self.manuscripts.is_empty()
            && self.notes.is_empty()
            && self.edits.is_empty()
    }
}

/// How well what is shown is known to be what is stored.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Sight {
    /// The storage has never been read.
    Never,
    /// It was read, and then something went wrong: it may have been cleared.
    Lost,
    /// What is stored is known, but for what other tabs write.
    Clear,
}

impl Oventide {
    /// Works off what uses the storage one after the other, then tries again what could not be stored.
    ///
    /// So nothing is read while something is on its way to be written, and an
    /// entry is decided on when the one before it is stored. While the storage doesn't
    /// answer nobody waits for it: everything goes on in memory, and it is tried again beside that.
    pub(super) fn in_turn(self, task: Task) {
        let inner = self.inner();
        inner.waiting.borrow_mut().push_back(task);
        if inner.working.replace(true) {
            return;
        }
        // While the storage is silent, what fails is told by whoever tries it again.
        if !inner.silent.get() {
            inner.failed.set(false);
        }
        spawn_local(async move {
            let mut caught_up = false;
            loop {
                let next = inner.waiting.borrow_mut().pop_front();
                match next {
                    Some(task) => task.await,
                    None if caught_up || inner.failed.get() || inner.silent.get() => break,
                    None => {
                        caught_up = true;
                        self.catch_up().await;
                    }
                }
            }
            inner.working.set(false);
            self.tell_other_tabs();
            if inner.silent.get() {
                self.retry();
            }
        });
    }

    /// Reads what could not be read and stores what could not be stored, if there is any.
    pub(super) fn save_what_is_unsaved(self) {
        if self.inner().silent.get() {
            self.retry();
        } else if !self.is_sound() {
            self.in_turn(Box::pin(self.catch_up()));
        }
    }

    /// Whether the storage is known not to answer, so that nobody should wait for it.
    pub(super) fn is_silent(self) -> bool {
        self.inner().silent.get()
    }

    /// Tries the silent storage again while everything else goes on without it.
    fn retry(self) {
        let inner = self.inner();
        if inner.retrying.replace(true) {
            return;
        }
        spawn_local(async move {
            inner.failed.set(false);
            self.catch_up().await;
            if !inner.failed.get() {
                inner.silent.set(false);
                // What was done meanwhile.
                self.save_what_is_unsaved();
            }
            inner.retrying.set(false);
            self.tell_other_tabs();
        });
    }

    pub(super) fn is_sound(self) -> bool {
        let inner = self.inner();
        inner.sight.get() == Sight::Clear && inner.unsaved.borrow().is_empty()
    }

    /// Whether something is known only here; whoever reads is told of changes of the standing warning.
    pub(super) fn has_unsaved(self) -> bool {
        drop(self.health.read());
        !self.inner().unsaved.borrow().is_empty()
    }

    async fn catch_up(self) {
        let inner = self.inner();
        if inner.sight.get() != Sight::Clear && !self.reload().await {
            return;
        }
        let bakes = inner.unsaved.borrow().bakes.clone();
        for (bake, _) in bakes {
            self.save_bake(&bake).await;
        }
        self.save_formulas().await;
        let manuscripts = inner.unsaved.borrow().manuscripts.clone();
        for (key, _) in manuscripts {
            self.save_manuscript(&key).await;
        }
        let notes = inner.unsaved.borrow().notes.clone();
        for note in notes {
            self.save_note(&note.bake).await;
        }
        self.save_settings().await;
    }

    /// Goes on in memory, and says why.
    pub(super) fn lose_storage(self, error: StoreError) {
        let inner = self.inner();
        inner.failed.set(true);
        inner.silent.set(error == StoreError::NoAnswer);
        let closed = matches!(
            error,
            StoreError::Closed | StoreError::Failed(_) | StoreError::NoAnswer
        );
        if closed && inner.sight.get() == Sight::Clear {
            inner.sight.set(Sight::Lost);
        }
        let health = match inner.sight.get() {
            Sight::Never => Health::Unread(error),
            _ => Health::Unsaved(error),
        };
        self.be(health);
    }

    /// Something was stored: the other tabs learn of it, and the warning goes with its reason.
    pub(super) fn stored(self) {
        self.inner().has_news.set(true);
        self.heal();
    }

    /// Takes the warning away once there is no reason for it.
    pub(super) fn heal(self) {
        if self.is_sound() {
            self.be(Health::Sound);
        }
    }

    fn be(self, health: Health) {
        // Read out anew each time it is set.
        if *self.health.read_untracked() != health {
            self.health.set(health);
        }
    }

    /// What an archive needs beside what is stored.
    pub(super) fn unsaved_contents(self) -> Contents {
        let inner = self.inner();
        let unsaved = inner.unsaved.borrow();
        let mut bakes = self.bakes.get_untracked();
        bakes.retain(|bake| unsaved.first_of(&bake.id).is_some());
        let edited = !unsaved.edits.is_empty();
        Contents {
            bakes,
            formulas: unsaved.formulas.clone(),
            manuscripts: unsaved
                .manuscripts
                .iter()
                .filter_map(|(key, text)| Some((key.clone(), text.clone()?)))
                .collect(),
            notes: unsaved.notes.clone(),
            settings: edited.then(|| self.settings.get_untracked()),
            ..Contents::default()
        }
    }

    /// Everything that is known here, for an archive when nothing can be read.
    pub(super) fn known_contents(self) -> Contents {
        let inner = self.inner();
        let set = inner.settings.borrow().is_some() || !inner.unsaved.borrow().edits.is_empty();
        Contents {
            formulas: self.own_formulas(),
            bakes: self.bakes.get_untracked(),
            manuscripts: self.manuscripts.get_untracked(),
            notes: self.notes.get_untracked(),
            settings: set.then(|| self.settings.get_untracked()),
            ..Contents::default()
        }
    }
}
