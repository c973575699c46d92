//! Asking something of a bake: decided, stored, and only then shown.

use domain::bake::{Bake, BakeId, Entry, Event, Intent, Refusal, decide};
use domain::kitchen::Kitchen;
use domain::units::{Celsius, Minutes, Moment, minutes};
use platform::clock;
use platform::store::StoreError;

use super::Oventide;
use super::answers::{self, Answer};
use super::unsaved::Edit;
use crate::route::Route;

/// Presses that follow each other within this time make one change. ASSUMPTION: judgement.
const ONE_CHANGE: Minutes = minutes(1.0);

/// A bake as it was before the last presses changed the kitchen.
fn before_presses(bake: Bake, now: Moment) -> Bake {
    let log = bake.log();
    let presses = log.iter().rev().take_while(|entry| {
        let kitchen = matches!(
            entry.event,
            Event::KitchenMeasured { .. } | Event::KitchenChanged(_)
        );
        kitchen && now - entry.at < ONE_CHANGE
    });
    let before = log[..log.len() - presses.count()].to_vec();
    Bake::from_log(bake.id.clone(), before).unwrap_or(bake)
}

/// A bake as it would be if the kitchen had that temperature. Nothing happens.
pub(crate) fn in_kitchen(bake: &Bake, air: Celsius, now: Moment) -> Option<Bake> {
    let entries = decide(bake, Intent::KitchenIs(air), now).ok()?;
    let mut after = bake.clone();
    after.append(entries);
    Some(after)
}

impl Oventide {
    /// Asks something of a bake. Asked things are worked off one after the other.
    pub(crate) fn ask(self, bake: &BakeId, intent: Intent) {
        self.ask_in_turn(bake, vec![intent]);
    }

    /// Asks several things that are one to the baker: a refusal ends them, and the first answer stands.
    pub(crate) fn ask_in_turn(self, bake: &BakeId, intents: Vec<Intent>) {
        let bake = bake.clone();
        self.in_turn(Box::pin(
            async move { self.answer_all(&bake, intents).await },
        ));
    }

    async fn answer_all(self, bake: &BakeId, intents: Vec<Intent>) {
        // Stopping an alarm answers nothing and leaves what the baker is reading.
        let speaks = !intents
            .iter()
            .all(|intent| matches!(intent, Intent::Hear(_)));
        // What is asked of another bake must not take the place of what the baker reads of this one.
        let elsewhere = {
            let inner = self.inner();
            let on_bench = inner.on_bench.borrow();
            on_bench.as_ref().is_some_and(|shown| shown != bake)
        };
        if speaks {
            self.tells_change.set(false);
        }
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
        if speaks && !elsewhere {
            self.answer.set(said);
        }
    }

    /// The kitchen was measured: every running bake and the settings learn of it.
    pub(crate) fn kitchen_is(self, air: Celsius) {
        self.in_turn(Box::pin(self.tell_bakes(Intent::KitchenIs(air))));
        self.change_settings(Box::new(move |to| to.kitchen.air = air));
    }

    /// Changes the settings. What they say of the kitchen goes to every running bake.
    pub(crate) fn change_kitchen(self, edit: Edit) {
        let before = self.settings.get_untracked();
        let mut after = before.clone();
        edit(&mut after);
        self.change_settings(edit);
        if after.kitchen == before.kitchen {
            return;
        }
        // When its turn has come, and with it that of every change before it.
        self.in_turn(Box::pin(async move {
            let kitchen = self.settings.read_untracked().kitchen;
            self.tell_bakes(Intent::KitchenChanged(Box::new(kitchen)))
                .await;
        }));
    }

    /// Tells every running bake of the kitchen, and says what that does to them all.
    async fn tell_bakes(self, intent: Intent) {
        let mut said = None;
        let bakes = self.running();
        for bake in &bakes {
            let answer = match self.answer_one(bake, intent.clone()).await {
                Ok(answer) => answer,
                Err(refusal) => Some(Answer::Refused(refusal)),
            };
            answers::join(&mut said, answer);
        }
        if !bakes.is_empty() {
            self.answer.set(said);
        }
    }

    pub(super) fn running(self) -> Vec<BakeId> {
        let views = self.views.read_untracked();
        views.iter().map(|view| view.bake.id.clone()).collect()
    }

    /// A change of the kitchen was taken back at one bake: the others and the settings follow.
    fn take_kitchen_back(self, at: &BakeId, changed: Kitchen, back: Kitchen) {
        for bake in self.running() {
            if bake != *at {
                let (changed, back) = (Box::new(changed), Box::new(back));
                self.ask(&bake, Intent::KitchenUndone { changed, back });
            }
        }
        self.change_settings(Box::new(move |to| to.kitchen = back));
    }

    /// What was wished was taken back at one bake: at the others goes what was wished with it.
    fn take_wishes_back(self, at: &BakeId, before: &Bake, away: Vec<(Moment, Moment)>) {
        let Some(wished_at) = before.newest_wish() else {
            return;
        };
        let at = at.clone();
        self.in_turn(Box::pin(async move {
            for bake in self.running() {
                if bake != at {
                    let away = away.clone();
                    let back = Intent::WishUndone { wished_at, away };
                    self.ask_of_plan(&bake, back).await;
                }
            }
        }));
    }

    /// What it would do to the running bakes if the kitchen had that temperature. Nothing happens.
    pub(crate) fn if_kitchen_were(self, air: Celsius) -> Option<Answer> {
        let now = clock::now();
        let intent = Intent::KitchenIs(air);
        let mut said = None;
        for view in self.views.read().iter() {
            let after = in_kitchen(&view.bake, air, now)?;
            let answer = answers::answer(&view.bake, &after, &intent, now);
            answers::join(&mut said, answer);
        }
        said
    }

    pub(super) async fn answer_one(
        self,
        id: &BakeId,
        intent: Intent,
    ) -> Result<Option<Answer>, Refusal> {
        // Another tab can write in between, but hardly ever twice.
        let mut tries = 5;
        loop {
            if !self.is_silent() {
                self.save_bake(id).await;
            }
            let Some(bake) = self.bake(id) else {
                return Ok(None);
            };
            let now = clock::now();
            let entries = decide(&bake, intent.clone(), now)?;
            if entries.is_empty() {
                // What it was about has changed since the last look.
                self.renew();
                return Ok(None);
            }
            let first = bake.next_place();
            if !self.keep(id, first, &entries).await {
                tries -= 1;
                if tries > 0 {
                    self.reload().await;
                    continue;
                }
                self.leave_unsaved(id, first, StoreError::Conflict);
            }
            let mut after = bake.clone();
            after.append(entries.iter().cloned());
            self.show_bake(after.clone());
            self.renew();
            let (changed, back) = (bake.state().kitchen, after.state().kitchen);
            if intent == Intent::Undo && changed != back {
                self.take_kitchen_back(id, changed, back);
            }
            if intent == Intent::Undo && bake.state().wishes != after.state().wishes {
                self.take_wishes_back(id, &bake, after.state().wishes.away.clone());
            }
            // On its own page the kitchen is set by many presses, and what they come to is one change.
            let bake = match *self.route.read_untracked() {
                Route::Kitchen => before_presses(bake, now),
                _ => bake,
            };
            return Ok(answers::answer(&bake, &after, &intent, now));
        }
    }

    pub(super) fn bake(self, id: &BakeId) -> Option<Bake> {
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

    /// Makes entries durable, or leaves them to be saved later; behind others that
    /// wait for that they wait too. False when another tab wrote in their place.
    pub(super) async fn keep(self, id: &BakeId, first: u32, entries: &[Entry]) -> bool {
        if self.unsaved_from(id).is_some() {
            return true;
        }
        if self.is_silent() {
            self.inner().unsaved.borrow_mut().set_first(id, Some(first));
            return true;
        }
        match self.store().append(id, first, entries).await {
            Ok(()) => {
                self.stored();
                self.ask_to_persist();
            }
            Err(StoreError::Conflict) => return false,
            Err(error) => self.leave_unsaved(id, first, error),
        }
        true
    }

    /// Stores what could not be stored of a bake, if there is any.
    ///
    /// Where another tab wrote in its place, reading again puts it behind that.
    pub(super) async fn save_bake(self, id: &BakeId) {
        let mut tries = 3;
        while tries > 0 {
            let (Some(first), Some(bake)) = (self.unsaved_from(id), self.bake(id)) else {
                return;
            };
            let rest = &bake.log()[first as usize..];
            match self.store().append(id, first, rest).await {
                Ok(()) => {
                    // What the baker did while this was on its way is next.
                    let stored = u32::try_from(rest.len()).unwrap_or(u32::MAX);
                    let next = first.saturating_add(stored);
                    let more = self.bake(id).is_some_and(|bake| bake.next_place() > next);
                    let first = more.then_some(next);
                    self.inner().unsaved.borrow_mut().set_first(id, first);
                    self.stored();
                    self.ask_to_persist();
                }
                Err(StoreError::Conflict) => {
                    tries -= 1;
                    if !self.reload().await {
                        return;
                    }
                }
                Err(error) => return self.lose_storage(error),
            }
        }
        self.lose_storage(StoreError::Conflict);
    }

    fn unsaved_from(self, id: &BakeId) -> Option<u32> {
        self.inner().unsaved.borrow().first_of(id)
    }

    fn leave_unsaved(self, id: &BakeId, first: u32, why: StoreError) {
        let inner = self.inner();
        inner.unsaved.borrow_mut().set_first(id, Some(first));
        self.lose_storage(why);
    }
}
