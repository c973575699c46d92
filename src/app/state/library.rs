//! What is stored: read at the start, and written before it is shown.

use domain::notebook::Note;
use leptos::task::spawn_local;
use platform::persist;
use platform::store::{Contents, Settings, Store, StoreError, starters};

use super::{Health, Loading, Oventide};

impl Oventide {
    pub(super) fn open_storage(self) {
        spawn_local(async move {
            let opened = Store::open(move || self.lose_storage(StoreError::Closed)).await;
            let read = match opened {
                Ok(store) => {
                    *self.inner().store.borrow_mut() = Some(store.clone());
                    store.load().await
                }
                Err(error) => Err(error),
            };
            match read {
                Ok(contents) => self.show(contents),
                Err(error) => self.lose_storage(error),
            }
            self.loading.set(Loading::Ready);
            let persistence = persist::persisted().await;
            self.persistence.set(Some(persistence));
        });
    }

    /// Goes on in memory, and says why: the first reason is the one that counts.
    pub(super) fn lose_storage(self, error: StoreError) {
        if self.health.get_untracked() == Health::Sound {
            self.health.set(Health::Unsaved(error));
        }
    }

    pub(super) fn store(self) -> Option<Store> {
        self.inner().store.borrow().clone()
    }

    fn show(self, contents: Contents) {
        let mut formulas = starters();
        for own in contents.formulas {
            match formulas.iter_mut().find(|known| known.id == own.id) {
                Some(known) => *known = own,
                None => formulas.push(own),
            }
        }
        self.formulas.set(formulas);
        self.notes.set(contents.notes);
        if let Some(settings) = contents.settings {
            self.settings.set(settings);
        }
        self.set_aside.set(contents.set_aside);
        let mut bakes = contents.bakes;
        // What couldn't be stored here is known only here, so it stays shown.
        let unsaved = self.inner().unsaved.borrow().clone();
        for bake in self.bakes.get_untracked() {
            if unsaved.contains_key(&bake.id) {
                bakes.retain(|stored| stored.id != bake.id);
                bakes.push(bake);
            }
        }
        bakes.sort_by_key(|bake| bake.state().started);
        self.bakes.set(bakes);
        self.renew();
    }

    /// Reads everything again: another tab wrote, or an archive was restored.
    pub(crate) fn read_again(self) {
        spawn_local(self.reload());
    }

    pub(super) async fn reload(self) {
        if let Some(store) = self.store()
            && let Ok(contents) = store.load().await
        {
            self.show(contents);
        }
    }

    pub(super) fn tell_other_tabs(self) {
        if let Some(tabs) = self.inner().tabs.borrow().as_ref() {
            tabs.tell_others();
        }
    }

    /// Asks the browser to keep the data, once, after the first thing worth keeping.
    pub(super) fn ask_to_persist(self) {
        if self.inner().asked_to_persist.replace(true) {
            return;
        }
        spawn_local(async move {
            let answer = persist::ask().await;
            self.persistence.set(Some(answer));
        });
    }

    /// Stores the kitchen and the preferences, then shows them.
    pub(crate) fn keep_settings(self, settings: Settings) {
        spawn_local(async move {
            let stored = match self.store() {
                Some(store) => store.put_settings(&settings).await,
                None => Err(StoreError::Closed),
            };
            self.stored(stored);
            self.settings.set(settings);
        });
    }

    /// Stores what the baker wrote about a bake, then shows it.
    pub(crate) fn keep_note(self, note: Note) {
        spawn_local(async move {
            let stored = match self.store() {
                Some(store) => store.put_note(&note).await,
                None => Err(StoreError::Closed),
            };
            self.stored(stored);
            self.notes.update(|notes| {
                notes.retain(|known| known.bake != note.bake);
                notes.push(note);
            });
        });
    }

    fn stored(self, outcome: Result<(), StoreError>) {
        match outcome {
            Ok(()) => self.tell_other_tabs(),
            Err(error) => self.lose_storage(error),
        }
    }
}
