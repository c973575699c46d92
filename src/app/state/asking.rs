//! Asking something of a bake, as only the late pages do: so all that can be asked, and every answer, is late.

use domain::bake::{Bake, BakeId, Event, Intent, Refusal, State, decide, found_hot};
use domain::kitchen::Kitchen;
use domain::units::{Celsius, Minutes, Moment, minutes};
use platform::clock;

use super::Oventide;
use super::answers::{self, Answer};
use super::entering::Entered;
use super::plan::running_states;
use super::unsaved::Edit;
use crate::route::Route;
use crate::words;

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
        self.in_turn(Box::pin(async move {
            self.answer_all(&bake, intents, None).await
        }));
    }

    /// Ends a bake, and turns to what there is to write about it once that is stored, unless the baker has gone elsewhere
    /// meanwhile: before, its note would stand there as if something still baked.
    pub(crate) fn end_bake(self, bake: &BakeId, how: Intent) {
        let bake = bake.clone();
        let bench = self.route.get_untracked();
        self.in_turn(Box::pin(async move {
            self.answer_all(&bake, vec![how], None).await;
            let is_there = *self.route.read_untracked() == bench;
            if is_there && !self.running().contains(&bake) {
                // At once, or the Bench would say for a moment that nothing bakes.
                let note = Route::Note(bake);
                note.go();
                self.route.set(note);
            }
        }));
    }

    /// Asks something of each of some bakes by one press: what is wished so is taken back together.
    pub(crate) fn ask_together(self, asks: Vec<(BakeId, Intent)>) {
        self.in_turn(Box::pin(async move {
            let at = Some(self.moment_of_press());
            for (bake, intent) in asks {
                self.answer_all(&bake, vec![intent], at).await;
            }
        }));
    }

    async fn answer_all(self, bake: &BakeId, intents: Vec<Intent>, at: Option<Moment>) {
        // What is asked of another bake must not take the place of what the baker reads of this one.
        let elsewhere = {
            let inner = self.inner();
            let on_bench = inner.on_bench.borrow();
            on_bench.as_ref().is_some_and(|shown| shown != bake)
        };
        self.tells_change.set(false);
        let mut said = None;
        for intent in intents {
            match self.answer_one(bake, intent, at).await {
                Ok(answer) => said = said.or(answer),
                Err(refusal) => {
                    said = Some(Answer::Refused(refusal));
                    break;
                }
            }
        }
        if !elsewhere {
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
        let at = Some(self.moment_of_press());
        for bake in &bakes {
            let answer = match self.answer_one(bake, intent.clone(), at).await {
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
    fn take_kitchen_back(
        self,
        at: &BakeId,
        press: Option<Moment>,
        changed: Kitchen,
        back: Kitchen,
    ) {
        for bake in self.running() {
            if bake != *at {
                let (changed, back) = (Box::new(changed), Box::new(back));
                let back = Intent::KitchenUndone { changed, back };
                self.in_turn(Box::pin(async move {
                    self.answer_all(&bake, vec![back], press).await;
                }));
            }
        }
        self.change_settings(Box::new(move |to| to.kitchen = back));
    }

    /// What was wished was taken back at one bake: at the others goes what was wished with it.
    fn take_wishes_back(
        self,
        at: &BakeId,
        press: Option<Moment>,
        before: &Bake,
        away: Vec<(Moment, Moment)>,
    ) {
        let Some(wished_at) = before.newest_wish() else {
            return;
        };
        let at = at.clone();
        self.in_turn(Box::pin(async move {
            for bake in self.running() {
                if bake != at {
                    let away = away.clone();
                    let back = Intent::WishUndone { wished_at, away };
                    self.ask_of_plan(&bake, back, press).await;
                }
            }
        }));
    }

    /// What was taken back by one press at several bakes was put back at one of them: the others follow.
    fn put_back_elsewhere(self, at: &BakeId, press: Option<Moment>, before: &Bake) {
        let taken_at = |bake: &Bake| Some(bake.log().get(bake.to_put_back()? as usize)?.at);
        let (at, taken) = (at.clone(), taken_at(before));
        self.in_turn(Box::pin(async move {
            for bake in self.running() {
                let known = self.bake(&bake).filter(|_| bake != at);
                if known.is_some_and(|known| taken_at(&known) == taken) {
                    self.ask_of_plan(&bake, Intent::PutBack, press).await;
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
            let answer = self.said(&view.bake, &after, &intent, now);
            answers::join(&mut said, answer);
        }
        said
    }

    pub(super) async fn answer_one(
        self,
        id: &BakeId,
        intent: Intent,
        said_at: Option<Moment>,
    ) -> Result<Option<Answer>, Refusal> {
        // What is taken back at several bakes is put back at them by that.
        let said_at = said_at.or_else(|| (intent == Intent::Undo).then(|| self.moment_of_press()));
        let decide = |bake: &Bake, now| {
            let now = said_at.unwrap_or(now);
            let views = self.views.read_untracked();
            let others = views.iter().filter(|other| other.bake.id != *id);
            let others: Vec<&State> = others.map(|other| other.bake.state()).collect();
            let intent = found_hot(intent.clone(), bake.state(), &others, now);
            decide(bake, intent, now)
        };
        let Some(Entered { before, after, at }) = self.enter(id, &decide).await? else {
            return Ok(None);
        };
        let (changed, back) = (before.state().kitchen, after.state().kitchen);
        // What follows from it at other bakes is the same press.
        let press = after.log().last().map(|entry| entry.at);
        if intent == Intent::PutBack {
            self.put_back_elsewhere(id, press, &before);
        }
        if matches!(intent, Intent::Undo | Intent::PutBack) && changed != back {
            self.take_kitchen_back(id, press, changed, back);
        }
        if intent == Intent::Undo && before.state().wishes != after.state().wishes {
            self.take_wishes_back(id, press, &before, after.state().wishes.away.clone());
        }
        // On its own page the kitchen is set by many presses, and what they come to is one change.
        let before = match *self.route.read_untracked() {
            Route::Kitchen => before_presses(before, at),
            _ => before,
        };
        Ok(self.said(&before, &after, &intent, at))
    }

    /// What an intent led to, with whose it is.
    fn said(self, before: &Bake, after: &Bake, intent: &Intent, at: Moment) -> Option<Answer> {
        let mut answer = answers::answer(before, after, intent, at);
        if let Some(Answer::Kitchen { effects, .. }) = &mut answer {
            let bakes = self.bakes.read_untracked();
            let whose = words::short_whose(after.state(), &running_states(&bakes));
            for effect in effects {
                effect.whose.clone_from(&whose);
            }
        }
        answer
    }
}
