//! A clock that jumps while a bake runs, as when it is set by hand.
//!
//! What is due follows from the phone's clock, so a clock that is put forward
//! makes everything ring too early. Only the baker knows whether that time
//! really passed (a computer that slept looks just the same), so the app asks.
//!
//! A clock that was set back while the page was closed shows in the log, whose newest
//! entry lies ahead then. By how much it was set nobody knows, only that it was more
//! than that; no time counts as having passed since that entry. A clock that was put
//! forward meanwhile looks like time that passed, and nobody is asked.

use domain::bake::{self, Bake, Event, SAME_JUMP};
use domain::units::{Minutes, Moment};

use super::{Answer, Oventide};

/// A jump of the phone's clock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct ClockJump {
    /// By how much, forward being positive.
    pub(crate) by: Minutes,
    /// Whether the baker said that it was set; then it stands here until that is stored.
    pub(crate) was_set: bool,
    /// Whether nobody looked on, so that it may have been more.
    pub(crate) unseen: bool,
    // By the new clock, the moment when it had not jumped yet.
    since: Moment,
}

impl Oventide {
    /// Asks what it means when the clock has jumped since the last look.
    pub(super) fn watch_clock(self) {
        let asked = self.clock_jump.get_untracked();
        let stored = || !self.inner().working.get();
        if asked.is_some_and(|jump| (jump.was_set && stored()) || self.knows_of(jump)) {
            self.clock_jump.set(None);
        }
        let Some(by) = self.inner().drift.borrow_mut().clock_jump() else {
            return;
        };
        let jump = ClockJump {
            by,
            was_set: false,
            unseen: false,
            since: self.now.get_untracked() + by,
        };
        if self.views.read_untracked().is_empty() || self.knows_of(jump) {
            return;
        }
        // A clock that is set and set right again has jumped by both.
        let by = asked.map_or(by, |before| before.by + by);
        let counts = by.get().abs() >= SAME_JUMP.get();
        self.clock_jump
            .set(counts.then_some(ClockJump { by, ..jump }));
    }

    /// Asks the same where the log of a running bake is ahead of the clock: it was set back while no page was open.
    pub(super) fn ask_of_unseen_jump(self) {
        let since = self.now.get_untracked();
        let views = self.views.read_untracked();
        let newest = views.iter().map(|view| view.bake.state().newest).max();
        let by = newest.map(|newest| since - newest);
        if let Some(by) = by.filter(|by| by.get() <= -SAME_JUMP.get()) {
            self.clock_jump.set(Some(ClockJump {
                by,
                was_set: false,
                unseen: true,
                since,
            }));
        }
    }

    /// Whether another tab was asked about the same jump, and the baker answered there.
    fn knows_of(self, jump: ClockJump) -> bool {
        let views = self.views.read_untracked();
        let mut entries = views.iter().flat_map(|view| view.bake.log());
        entries.any(|entry| match entry.event {
            Event::ClockSet { by } => {
                entry.at >= jump.since && (by - jump.by).get().abs() < SAME_JUMP.get()
            }
            _ => false,
        })
    }

    /// "The clock was set, and no time passed": every running bake keeps the time it has left.
    pub(crate) fn clock_was_set(self) {
        let jump = self.clock_jump.get_untracked();
        let Some(jump) = jump.filter(|jump| !jump.was_set) else {
            return;
        };
        let was_set = ClockJump {
            was_set: true,
            ..jump
        };
        self.clock_jump.set(Some(was_set));
        let bakes = self.running();
        self.in_turn(Box::pin(async move {
            self.tells_change.set(false);
            let mut said = None;
            let set = |bake: &Bake, now| bake::clock_was_set(bake, jump.by, now);
            for id in &bakes {
                if let Err(refusal) = self.enter(id, &set).await {
                    said = Some(Answer::Refused(refusal));
                }
            }
            self.answer.set(said);
        }));
    }

    /// "That time passed", or no answer: every alarm stays at its time of day.
    pub(crate) fn clock_was_right(self) {
        let jump = self.clock_jump.get_untracked();
        if jump.is_some_and(|jump| !jump.was_set) {
            self.clock_jump.set(None);
        }
    }
}
