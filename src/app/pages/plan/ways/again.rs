//! When the ways out are looked for, and when what was found takes the place of what is shown.

use domain::bake::Bake;
use domain::units::{Minutes, Moment, minutes};
use leptos::prelude::*;
use platform::clock;

use super::Found;
use super::search::search;
use crate::reactive::RwSignal;
use crate::state::Oventide;
use crate::state::plan::running_bakes;

/// By itself it is looked for no more often than this: it keeps a phone busy for some seconds.
const AGAIN: Minutes = minutes(3.0);
/// A plan whose end has moved by more than this isn't the one for which something was found. ASSUMPTION: judgement.
const MOVED: Minutes = minutes(5.0);
/// What was found "now" isn't so any more after this. ASSUMPTION: judgement.
const OLD: Minutes = minutes(15.0);
/// What was found less than this ago, in the same bakes, is as true as it was.
const FRESH: Minutes = minutes(1.0);
/// A finger that was lifted has pressed by then, and one on its way may press what it meant. ASSUMPTION: judgement.
const LIFTED: Minutes = minutes(1.0 / 60.0);

/// What something is looked for in.
#[derive(Clone)]
pub(super) struct Look {
    /// When.
    pub at: Moment,
    /// All running bakes.
    pub bakes: Vec<Bake>,
    /// When everything is ready by their plan.
    end: Option<Moment>,
}

impl Look {
    pub(super) fn of(app: Oventide) -> Self {
        let bakes = app.bakes.read_untracked();
        let plan = app.plan.read_untracked();
        Self {
            at: clock::now(),
            bakes: running_bakes(&bakes).cloned().collect(),
            end: plan.as_ref().map(|plan| plan.timetable.plan.end.likely()),
        }
    }

    /// Whether nothing to speak of has happened since something was found.
    pub(super) fn is_as(&self, found_at: Moment, bakes: &[Bake]) -> bool {
        (self.at - found_at).get().abs() < FRESH.get() && self.bakes == bakes
    }

    /// Whether these are the bakes that are told by their places in what was found.
    pub(super) fn is_of(&self, bakes: &[Bake]) -> bool {
        let same = |(is, was): (&Bake, &Bake)| is.id == was.id;
        self.bakes.len() == bakes.len() && self.bakes.iter().zip(bakes).all(same)
    }

    /// Whether something else is wished or baked now: what was found answers another question.
    fn asks_otherwise(&self, was: &Self) -> bool {
        let other = |(is, was): (&Bake, &Bake)| {
            let (is, was) = (is.state(), was.state());
            let wishes = (&is.wishes, &is.pins, &is.retards);
            wishes != (&was.wishes, &was.pins, &was.retards) || is.formula != was.formula
        };
        !self.is_of(&was.bakes) || self.bakes.iter().zip(&was.bakes).any(other)
    }

    /// Whether what was found may not be true any more.
    fn is_past(&self, was: &Self) -> bool {
        let by = self
            .end
            .zip(was.end)
            .map_or(minutes(0.0), |(is, was)| is - was);
        self.at - was.at >= OLD || by.get().abs() > MOVED.get() || self.bakes != was.bakes
    }
}

/// What is being looked for and what is shown of it.
#[derive(Clone, Copy)]
pub(super) struct Looks {
    pub app: Oventide,
    /// What is shown.
    pub found: RwSignal<Option<Found>>,
    /// What of it was pressed, and would do less by now than was said of it.
    pub gone: RwSignal<Option<String>>,
    /// Whether something is looked for beside what is shown.
    pub looks_again: RwSignal<bool>,
    // Each search is told by its number, and leaves off when another has begun or nobody looks any more.
    newest: StoredValue<u32>,
    // What the newest search looks in.
    last: StoredValue<Option<Look>>,
    // What it has found, until it can be shown.
    waiting: StoredValue<Option<Found>>,
    // Whether something of it was asked for, so that the rest is another question once that is done.
    is_taken: StoredValue<bool>,
    // Whether a finger is down here, and when that was last said; when something took the place of something else.
    is_down: StoredValue<(bool, Moment)>,
    changed: StoredValue<Moment>,
}

impl Looks {
    pub(super) fn new(app: Oventide) -> Self {
        let never = Moment::from_epoch_ms(0);
        Self {
            app,
            found: RwSignal::new(None),
            gone: RwSignal::new(None),
            looks_again: RwSignal::new(false),
            is_taken: StoredValue::new(false),
            newest: StoredValue::new(0),
            last: StoredValue::new(None),
            waiting: StoredValue::new(None),
            is_down: StoredValue::new((false, never)),
            changed: StoredValue::new(never),
        }
    }

    /// Looks if that is wanted and what is known isn't true any more. Whoever asks is told when to ask again.
    pub(super) fn look(self, is_wanted: bool) {
        self.app.plan.read();
        self.app.beat.get();
        self.show_waiting();
        if !is_wanted {
            self.leave_off();
            self.last.set_value(None);
            self.found.set(None);
            return;
        }
        let is = Look::of(self.app);
        let last = self.last.get_value();
        let is_new = last.as_ref().is_none_or(|last| is.asks_otherwise(last));
        let is_due = |last: &Look| {
            let is_time = (is.at - last.at).get().abs() >= AGAIN.get() && is.is_past(last);
            // Whoever presses what isn't so any more waits for what is.
            is_time
                || self.gone.read().is_some()
                || (self.is_taken.get_value() && is.bakes != last.bakes)
        };
        let is_due = last.as_ref().is_some_and(is_due);
        if !is_new && (!is_due || self.is_looking()) {
            return;
        }
        let number = self.leave_off();
        if is_new {
            self.found.set(Some(Found::default()));
        } else {
            self.looks_again.set(true);
        }
        self.last.set_value(Some(is.clone()));
        search(self, is, number);
    }

    /// Whether the newest search goes on, or waits to be shown.
    fn is_looking(self) -> bool {
        let found = self.found.read_untracked();
        self.looks_again.get_untracked() || found.as_ref().is_some_and(|found| !found.is_done)
    }

    /// Ends whatever search goes on, and gives the number of the next.
    fn leave_off(self) -> u32 {
        let next = self.newest.get_value().wrapping_add(1);
        self.newest.set_value(next);
        self.waiting.set_value(None);
        self.is_taken.set_value(false);
        self.looks_again.set(false);
        next
    }

    /// Whether a search is still the newest.
    pub(super) fn goes_on(self, number: u32) -> bool {
        self.newest.try_get_value() == Some(number)
    }

    /// Whether nobody looks here any more.
    pub(super) fn is_left(self) -> bool {
        self.newest.try_get_value().is_none()
    }

    /// Takes in what a search has found so far. What is shown already stays until all of it is there.
    pub(super) fn take_in(self, found: Found) {
        if !self.looks_again.get_untracked() {
            self.found.set(Some(found));
        } else if found.is_done {
            self.waiting.set_value(Some(found));
            self.show_waiting();
        }
    }

    fn show_waiting(self) {
        let now = clock::now();
        let (is_down, since) = self.is_down.get_value();
        if is_down || (now - since).get().abs() < LIFTED.get() {
            return;
        }
        let Some(found) = self.waiting.get_value() else {
            return;
        };
        self.waiting.set_value(None);
        self.changed.set_value(now);
        self.looks_again.set(false);
        self.gone.set(None);
        self.found.set(Some(found));
    }

    /// Something of what is shown was asked for.
    pub(super) fn taken(self) {
        self.is_taken.set_value(true);
    }

    /// A finger is down here from now on, or no longer.
    pub(super) fn finger(self, is_down: bool) {
        self.is_down.set_value((is_down, clock::now()));
    }

    /// Whether what a finger was on its way to may have been something else.
    pub(super) fn has_just_changed(self) -> bool {
        (clock::now() - self.changed.get_value()).get().abs() < LIFTED.get()
    }
}
