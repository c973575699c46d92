//! What is stored: read at the start, and written before it is shown.

use domain::bake::{Bake, rejoin};
use domain::formula::Formula;
use leptos::task::spawn_local;
use platform::persist;
use platform::store::{Contents, Store};

use super::manuscripts::put_manuscript;
use super::notes::put_note;
use super::unsaved::{Edit, Sight, Unsaved};
use super::{Keeping, Loading, Oventide};

impl Oventide {
    pub(super) fn open_storage(self) {
        self.in_turn(Box::pin(async move {
            if !self.reload().await {
                // What comes with the app is there without any storage.
                self.formulas.set(self.inner().starters().to_vec());
            }
            self.loading.set(Loading::Ready);
            // Only now, so that it takes nothing away from what the page that was opened needs.
            leptos::task::tick().await;
            self.fetch_late();
        }));
        spawn_local(async move {
            // The browser has been asked to open the storage then, and these are read meanwhile.
            leptos::task::tick().await;
            self.inner().starters();
            let persistence = persist::persisted().await;
            self.persistence.set(Some(persistence));
        });
    }

    /// The storage. When it was closed, or opens after all, it is read again: what
    /// is shown then may not be what is stored.
    pub(super) fn store(self) -> Store {
        let inner = self.inner();
        let changed = move || {
            let sight = &self.inner().sight;
            if sight.get() == Sight::Clear {
                sight.set(Sight::Lost);
            }
            self.save_what_is_unsaved();
        };
        inner.store.get_or_init(|| Store::new(changed)).clone()
    }

    fn show(self, mut contents: Contents) {
        let inner = self.inner();
        let sight = inner.sight.replace(Sight::Clear);
        let was_lost = sight != Sight::Clear;
        {
            let mut unsaved = inner.unsaved.borrow_mut();
            let before = self.bakes.read_untracked();
            for bake in before.iter() {
                if was_lost || unsaved.first_of(&bake.id).is_some() {
                    join_bake(&mut contents.bakes, bake, &mut unsaved);
                }
            }
            if was_lost {
                self.miss_what_is_gone(&contents, &mut unsaved);
            }
            contents.formulas.extend(unsaved.formulas.iter().cloned());
            for (key, text) in &unsaved.manuscripts {
                put_manuscript(&mut contents.manuscripts, key, text.clone());
            }
            for note in &unsaved.notes {
                put_note(&mut contents.notes, note.clone());
            }
        }
        let promises = contents.promises.take();
        inner.keeping.borrow_mut().read(promises);
        contents.bakes.sort_by_key(|bake| bake.state().started);
        self.formulas
            .set(with_starters(inner.starters(), contents.formulas));
        self.manuscripts.set(contents.manuscripts);
        self.notes.set(contents.notes);
        self.set_aside.set(contents.set_aside);
        *inner.settings.borrow_mut() = contents.settings;
        self.show_settings();
        self.bakes.set(contents.bakes);
        self.renew();
        if sight == Sight::Never {
            self.ask_of_unseen_jump();
        }
        self.heal();
    }

    /// A storage that was lost from sight can come back empty. What is gone from it is known only here.
    fn miss_what_is_gone(self, contents: &Contents, unsaved: &mut Unsaved) {
        for formula in self.own_formulas() {
            let mut known = contents.formulas.iter().chain(&unsaved.formulas);
            if !known.any(|known| known.id == formula.id) {
                unsaved.formulas.push(formula);
            }
        }
        for note in self.notes.read_untracked().iter() {
            let mut known = contents.notes.iter().chain(&unsaved.notes);
            if !known.any(|known| known.bake == note.bake) {
                unsaved.notes.push(note.clone());
            }
        }
        if contents.settings.is_none()
            && let Some(before) = self.inner().settings.take()
        {
            let back = Box::new(move |to: &mut _| *to = before.clone());
            unsaved.edits.insert(0, back);
        }
    }

    /// Whether a formula is the baker's own.
    pub(crate) fn is_own(self, formula: &Formula) -> bool {
        let inner = self.inner();
        !inner
            .starters()
            .iter()
            .any(|starter| starter.id == formula.id)
    }

    /// The formulas that didn't come with the app.
    pub(super) fn own_formulas(self) -> Vec<Formula> {
        let inner = self.inner();
        let mut formulas = self.formulas.get_untracked();
        formulas.retain(|formula| !inner.starters().contains(formula));
        formulas
    }

    /// Stores a formula of the baker's own in the place of the one before, then shows it.
    pub(crate) fn keep_formula(self, formula: Formula) {
        {
            let inner = self.inner();
            let mut unsaved = inner.unsaved.borrow_mut();
            unsaved.formulas.retain(|known| known.id != formula.id);
            unsaved.formulas.push(formula.clone());
        }
        self.in_turn(Box::pin(async move {
            if !self.is_silent() {
                self.save_formulas().await;
            }
            self.formulas.update(|all| {
                all.retain(|known| known.id != formula.id);
                all.push(formula);
            });
        }));
    }

    /// Stores the formulas that aren't in the storage: new ones, and those that are gone from it.
    pub(super) async fn save_formulas(self) {
        let inner = self.inner();
        loop {
            let next = inner.unsaved.borrow().formulas.first().cloned();
            let Some(formula) = next else {
                return;
            };
            if let Err(error) = self.store().put_formula(&formula).await {
                return self.lose_storage(error);
            }
            let mut unsaved = inner.unsaved.borrow_mut();
            unsaved.formulas.retain(|known| known.id != formula.id);
            drop(unsaved);
            self.stored();
        }
    }

    /// The settings as they are stored, with every change that isn't.
    fn show_settings(self) {
        let inner = self.inner();
        let mut settings = inner.settings.borrow().clone().unwrap_or_default();
        for edit in &inner.unsaved.borrow().edits {
            edit(&mut settings);
        }
        // Every temperature on the page is written anew with them.
        if *self.settings.read_untracked() != settings {
            self.settings.set(settings);
        }
    }

    /// Reads everything again: another tab wrote.
    pub(crate) fn read_again(self) {
        if self.is_silent() {
            return self.save_what_is_unsaved();
        }
        self.in_turn(Box::pin(async move {
            self.reload().await;
        }));
    }

    /// Whether everything could be read. To be called in turn.
    pub(super) async fn reload(self) -> bool {
        match self.store().load().await {
            Ok(contents) => {
                self.show(contents);
                true
            }
            Err(error) => {
                self.lose_storage(error);
                false
            }
        }
    }

    /// Tells the other tabs once of all that was stored in turn: each time they read everything.
    pub(super) fn tell_other_tabs(self) {
        let inner = self.inner();
        if let Some(tabs) = inner
            .tabs
            .borrow()
            .as_ref()
            .filter(|_| inner.has_news.take())
        {
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

    /// Changes the kitchen and the preferences: stored, and then shown.
    pub(crate) fn change_settings(self, edit: Edit) {
        self.inner().unsaved.borrow_mut().edits.push(edit);
        self.in_turn(Box::pin(async move {
            if !self.is_silent() {
                self.save_settings().await;
            }
            self.show_settings();
        }));
    }

    /// Stores the settings, unless nothing changed. What was never read isn't
    /// written either: it would put the app's own settings in the place of the baker's.
    pub(super) async fn save_settings(self) {
        let inner = self.inner();
        let changes = inner.unsaved.borrow().edits.len();
        if changes == 0 || (inner.sight.get() != Sight::Clear && !self.reload().await) {
            return;
        }
        let mut settings = inner.settings.borrow().clone().unwrap_or_default();
        for edit in &inner.unsaved.borrow().edits[..changes] {
            edit(&mut settings);
        }
        match self.store().put_settings(&settings).await {
            Ok(()) => {
                let rest = inner.unsaved.borrow_mut().edits.split_off(changes);
                inner.unsaved.borrow_mut().edits = rest;
                *inner.settings.borrow_mut() = Some(settings);
                self.show_settings();
                self.stored();
            }
            Err(error) => self.lose_storage(error),
        }
    }

    /// Everything was replaced: nothing from before is shown or saved any more.
    pub(super) fn forget(self) {
        let inner = self.inner();
        *inner.unsaved.borrow_mut() = Unsaved::default();
        *inner.settings.borrow_mut() = None;
        *inner.keeping.borrow_mut() = Keeping::default();
        self.formulas.set(inner.starters().to_vec());
        self.manuscripts.set(Vec::new());
        self.bakes.set(Vec::new());
        self.notes.set(Vec::new());
    }
}

/// Shows what is known of a bake here and not stored behind what is stored.
fn join_bake(stored: &mut Vec<Bake>, ours: &Bake, unsaved: &mut Unsaved) {
    let Some(bake) = stored.iter_mut().find(|bake| bake.id == ours.id) else {
        unsaved.set_first(&ours.id, Some(0));
        stored.push(ours.clone());
        return;
    };
    let rest = rejoin(bake.log(), ours.log());
    let first = (!rest.is_empty()).then(|| bake.next_place());
    unsaved.set_first(&ours.id, first);
    bake.append(rest);
}

fn with_starters(starters: &[Formula], own: Vec<Formula>) -> Vec<Formula> {
    let mut formulas = starters.to_vec();
    for own in own {
        match formulas.iter_mut().find(|known| known.id == own.id) {
            Some(known) => *known = own,
            None => formulas.push(own),
        }
    }
    formulas
}
