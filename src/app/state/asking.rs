//! Asking something of a bake: decided, stored, and only then shown.

use domain::bake::{Bake, BakeId, Entry, Event, Intent, Refusal, Start, decide};
use domain::formula::Formula;
use domain::units::Celsius;
use leptos::task::spawn_local;
use platform::store::StoreError;
use platform::{clock, ids};

use super::answers::{self, Answer};
use super::{BakeView, Health, Oventide};
use crate::route::Route;

impl Oventide {
    /// Starts a bake and turns to the Bench.
    pub(crate) fn start_bake(self, formula: Formula) {
        let at = clock::now();
        let kitchen = self.settings.read_untracked().kitchen;
        let start = Box::new(Start { formula, kitchen });
        let entry = Entry {
            at,
            event: Event::Started(start),
        };
        let id = BakeId(ids::new_id());
        let Some(bake) = Bake::from_log(id.clone(), vec![entry.clone()]) else {
            return;
        };
        self.inner().sound.unlock();
        spawn_local(async move {
            self.keep(&id, 0, std::slice::from_ref(&entry)).await;
            self.bakes.update(|bakes| bakes.push(bake));
            self.renew();
            // To this bake: another that runs may need the baker more, but isn't what was asked for.
            Route::Bench(Some(id)).go();
        });
    }

    /// Asks something of a bake. Asked things are worked off one after the other.
    pub(crate) fn ask(self, bake: &BakeId, intent: Intent) {
        self.ask_in_turn(bake, vec![intent]);
    }

    /// Asks several things that are one to the baker: a refusal ends them, and the first answer stands.
    pub(crate) fn ask_in_turn(self, bake: &BakeId, intents: Vec<Intent>) {
        let inner = self.inner();
        inner.asked.borrow_mut().push_back((bake.clone(), intents));
        self.work_off();
    }

    /// Works off what was asked, then tries again what could not be stored, of whatever bake.
    fn work_off(self) {
        if self.inner().asking.replace(true) {
            return;
        }
        spawn_local(async move {
            loop {
                let next = self.inner().asked.borrow_mut().pop_front();
                let Some((bake, intents)) = next else {
                    break;
                };
                self.answer_all(&bake, intents).await;
            }
            let unsaved: Vec<BakeId> = self.inner().unsaved.borrow().keys().cloned().collect();
            for bake in unsaved {
                self.keep(&bake, 0, &[]).await;
            }
            self.inner().asking.replace(false);
            if !self.inner().asked.borrow().is_empty() {
                self.work_off();
            }
        });
    }

    /// Stores what could not be stored before, if there is any.
    pub(super) fn save_what_is_unsaved(self) {
        if !self.inner().unsaved.borrow().is_empty() {
            self.work_off();
        }
    }

    async fn answer_all(self, bake: &BakeId, intents: Vec<Intent>) {
        // Stopping an alarm answers nothing and leaves what the baker is reading.
        let speaks = !intents
            .iter()
            .all(|intent| matches!(intent, Intent::Hear(_)));
        let mut said = None;
        for intent in intents {
            match self.answer_one(bake, intent).await {
                Ok(answer) => said = said.or(answer),
                Err(refusal) => {
                    said = Some(Answer::Refused(refusal));
                    break;
                }
            }
        }
        if speaks {
            self.answer.set(said);
        }
    }

    /// The kitchen was measured: every running bake and the settings learn of it.
    pub(crate) fn kitchen_is(self, air: Celsius) {
        let running: Vec<BakeId> = self
            .views
            .read_untracked()
            .iter()
            .map(|view| view.bake.id.clone())
            .collect();
        for bake in running {
            self.ask(&bake, Intent::KitchenIs(air));
        }
        let mut settings = self.settings.get_untracked();
        settings.kitchen.air = air;
        self.keep_settings(settings);
    }

    /// What it would do to a bake if the kitchen had that temperature. Nothing happens.
    pub(crate) fn if_kitchen_were(self, view: &BakeView, air: Celsius) -> Option<Answer> {
        let now = clock::now();
        let intent = Intent::KitchenIs(air);
        let entries = decide(&view.bake, intent.clone(), now).ok()?;
        let mut after = view.bake.clone();
        after.append(entries);
        answers::answer(&view.bake, &after, &intent, now)
    }

    async fn answer_one(self, id: &BakeId, intent: Intent) -> Result<Option<Answer>, Refusal> {
        // Another tab can have written in between; if it keeps on, the baker is told below.
        for _ in 0..5 {
            let Some(bake) = self.bake(id) else {
                return Ok(None);
            };
            let now = clock::now();
            let entries = decide(&bake, intent.clone(), now)?;
            if entries.is_empty() {
                return Ok(None);
            }
            let first = u32::try_from(bake.log().len()).unwrap_or(u32::MAX);
            if self.keep(id, first, &entries).await == Kept::WrittenElsewhere {
                self.reload().await;
                continue;
            }
            let mut after = bake.clone();
            after.append(entries.iter().cloned());
            self.show_bake(after.clone());
            self.renew();
            return Ok(answers::answer(&bake, &after, &intent, now));
        }
        self.lose_storage(StoreError::Conflict);
        Ok(None)
    }

    fn bake(self, id: &BakeId) -> Option<Bake> {
        let bakes = self.bakes.read_untracked();
        bakes.iter().find(|bake| bake.id == *id).cloned()
    }

    fn show_bake(self, bake: Bake) {
        self.bakes.update(|bakes| {
            if let Some(shown) = bakes.iter_mut().find(|shown| shown.id == bake.id) {
                *shown = bake;
            }
        });
    }

    /// Makes entries durable, together with any of this bake that could not be before.
    async fn keep(self, id: &BakeId, first: u32, entries: &[Entry]) -> Kept {
        let unsaved_from = self.inner().unsaved.borrow().get(id).copied();
        let (from, all) = match (unsaved_from, self.bake(id)) {
            (Some(from), Some(bake)) => {
                let mut all = bake.log()[from as usize..].to_vec();
                all.extend_from_slice(entries);
                (from, all)
            }
            _ => (first, entries.to_vec()),
        };
        let stored = match self.store() {
            Some(store) => store.append(id, from, &all).await,
            None => Err(StoreError::Closed),
        };
        match stored {
            Ok(()) => {
                self.inner().unsaved.borrow_mut().remove(id);
                if self.inner().unsaved.borrow().is_empty() {
                    self.health.set(Health::Sound);
                }
                self.tell_other_tabs();
                self.ask_to_persist();
                Kept::Stored
            }
            Err(StoreError::Conflict) => Kept::WrittenElsewhere,
            Err(error) => {
                self.inner().unsaved.borrow_mut().insert(id.clone(), from);
                self.lose_storage(error);
                Kept::InMemory
            }
        }
    }
}

/// What became of entries.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kept {
    Stored,
    /// Only in memory: the standing warning says so.
    InMemory,
    /// Another tab wrote this place of the log first.
    WrittenElsewhere,
}
