//! What plans promised outlives the page: it is kept with every plan, and read before the first one.
//!
//! So a page that is opened again goes on with the plan that it had, and tells what has moved meanwhile
//! as if it had stayed open. What is kept follows from logs and from when somebody looked; where it is
//! missing or can't be read, the plan is made anew, and the page says so.

use domain::bake::Bake;
use domain::schedule::plan::{Item, Promise, Promises};
use domain::units::{Minutes, minutes};
use platform::clock::{self, Once};
use platform::page::on_hide;
use platform::store::{StoreError, read_promises, write_promises};

use super::changes::{Change, MOST_CHANGES, keep_change};
use super::{Planned, Promised, Seen, calling, compare};
use crate::state::Oventide;

/// What is kept of plans.
#[derive(Default)]
pub(in crate::state) struct Keeping {
    /// Its text, as it was read or was last written down.
    text: Option<String>,
    /// What is to be kept in its place, not written down yet.
    newest: Option<Kept>,
    /// Whether it was ever read.
    was_read: bool,
    /// Whether it was read, and nobody has looked at it since.
    is_unseen: bool,
    /// When it is to be stored.
    due: Option<Once>,
}

/// What of a plan is to be written down: it, the bakes as they are, and what was told.
struct Kept {
    planned: Planned,
    running: Vec<Bake>,
    told: Vec<Promised>,
}

/// How long a plan is shown before it is stored. Nobody waits for that, and a press is answered sooner without it;
/// whoever closes the page within it finds the plan before, and is told what has moved since. ASSUMPTION: judgement.
const SHOWN_FIRST: Minutes = minutes(0.005);
/// How long after the logs could not be stored it is tried again: what else isn't stored is tried again as often.
const TRIED_AGAIN: Minutes = minutes(0.25);

impl Keeping {
    /// What was read is looked at before the next plan, unless it is what was written here.
    pub(in crate::state) fn read(&mut self, text: Option<String>) {
        if !self.was_read || self.text != text {
            // What another page wrote is newer than what is still to be written down here.
            *self = Self {
                text,
                was_read: true,
                is_unseen: true,
                ..Self::default()
            };
        }
    }

    /// The text of what is to be kept, if there is anything that isn't written down.
    fn write_down(&mut self) -> Option<String> {
        let newest = self.newest.take()?;
        self.text = Some(write_promises(&newest.promises()));
        self.text.clone()
    }
}

impl Kept {
    fn promises(&self) -> Promises {
        let promise = |planned: &Planned, bakes: &[Bake]| {
            Promise::of(&planned.timetable, bakes, &planned.calls, planned.at)
        };
        let told = self.told.iter();
        Promises {
            shown: promise(&self.planned, &self.running),
            told: told
                .map(|told| promise(&told.planned, &told.bakes))
                .collect(),
        }
    }
}

/// What was planned when the page was closed, or by another one.
struct Recalled {
    shown: Promised,
    told: Vec<Promised>,
    changes: Vec<Change>,
}

impl Planned {
    /// Whether it has something at another time than one from before.
    pub(super) fn promises_other_than(&self, before: Option<&Self>) -> bool {
        let Some(before) = before else { return true };
        let [was, is] = [before, self].map(|planned| &planned.timetable.plan.items);
        let mut both = was.iter().zip(is);
        let is_same = |(was, is): (&Item, &Item)| {
            (was.what, was.start, was.end) == (is.what, is.start, is.end)
        };
        was.len() != is.len() || !both.all(is_same)
    }
}

impl Oventide {
    /// Goes on from what was kept, if something was read that is newer than what is shown: gives what was planned.
    pub(super) fn recall(
        self,
        bakes: &[Bake],
        running: &[Bake],
        shown: Option<&Planned>,
        seen: &mut Seen,
    ) -> Option<Planned> {
        let inner = self.inner();
        let mut keeping = inner.keeping.borrow_mut();
        if !std::mem::take(&mut keeping.is_unseen) || running.is_empty() {
            return None;
        }
        let kept = keeping.text.as_ref();
        let recalled = kept.and_then(|text| read_back(text, bakes, running));
        let Some(recalled) = recalled else {
            if shown.is_none() {
                self.planned_anew.set(true);
            }
            return None;
        };
        if shown.is_some_and(|shown| shown.at >= recalled.shown.planned.at) {
            return None;
        }
        seen.running = recalled.shown.bakes;
        seen.told = recalled.told;
        seen.is_passing = false;
        let newest = recalled.changes.first().map(|change| change.at);
        let mut logs = running.iter().flat_map(Bake::log);
        self.tells_change
            .set(newest.is_some_and(|newest| logs.all(|entry| entry.at <= newest)));
        self.changes.set(recalled.changes);
        Some(recalled.shown.planned)
    }

    /// Keeps what a plan promises that is shown now.
    pub(super) fn keep_promises(self, planned: &Planned, running: &[Bake], told: &[Promised]) {
        let inner = self.inner();
        inner.keeping.borrow_mut().newest = Some(Kept {
            planned: planned.clone(),
            running: running.to_vec(),
            told: told.to_vec(),
        });
        // Before the first of them nothing is still to be stored.
        let mut hiding = inner.hiding.borrow_mut();
        hiding.get_or_insert_with(|| on_hide(move || self.store_promises()));
        self.store_promises_in(SHOWN_FIRST);
    }

    fn store_promises_in(self, span: Minutes) {
        let store = clock::at(clock::now() + span, move || self.store_promises());
        self.inner().keeping.borrow_mut().due = Some(store);
    }

    /// Stores what is still to be stored of plans, now.
    fn store_promises(self) {
        let inner = self.inner();
        if inner.keeping.borrow_mut().due.take().is_none() {
            return;
        }
        self.in_turn(Box::pin(async move {
            // It tells of logs, which have to be stored; and a newer one may be on its way.
            if inner.keeping.borrow().due.is_some() {
                return;
            }
            if self.is_silent() || !self.is_sound() {
                return self.store_promises_in(TRIED_AGAIN);
            }
            let text = inner.keeping.borrow_mut().write_down();
            let Some(text) = text else {
                return;
            };
            let stored = self.store().put_promises(text).await;
            // Nothing of the baker's is lost, so only what concerns everything is a reason to warn.
            if let Err(
                error @ (StoreError::NoAnswer | StoreError::Closed | StoreError::Failed(_)),
            ) = stored
            {
                self.lose_storage(error);
            }
        }));
    }
}

fn read_back(text: &str, bakes: &[Bake], running: &[Bake]) -> Option<Recalled> {
    let promises = read_promises(text)?;
    let recalled = |promise: &Promise| {
        let (bakes, timetable) = promise.recalled(bakes)?;
        let of = promise.bakes.iter();
        let planned = Planned {
            ovens: calling::ovens(&bakes, &timetable, None),
            bakes: of.clone().map(|of| of.bake.clone()).collect(),
            timetable,
            at: promise.at,
            first_calls: of.clone().map(|of| of.called).collect(),
            calls: of.map(|of| of.called).collect(),
        };
        Some(Promised { planned, bakes })
    };
    let shown = recalled(&promises.shown)?;
    // What ran alone and is over promised nothing of what runs now.
    let mut ids = shown.planned.bakes.iter();
    if !ids.any(|id| running.iter().any(|bake| bake.id == *id)) {
        return None;
    }
    let told = promises.told.iter().rev().map_while(recalled);
    let mut told: Vec<Promised> = told.take(MOST_CHANGES + 1).collect();
    told.reverse();
    if told.is_empty() {
        told.push(shown.clone());
    }
    let mut changes = Vec::new();
    for pair in told.windows(2) {
        let at = pair[1].planned.at;
        if let Some(moved) = compare(&pair[0], &pair[1], at) {
            keep_change(&mut changes, Change::of(moved, &pair[1], at));
        }
    }
    changes.retain(|change| !change.is_over(running));
    Some(Recalled {
        shown,
        told,
        changes,
    })
}
