//! A resource's tasks seen in one direction of time.
//!
//! What holds for earliest starts holds, with time mirrored, for latest ends. So every rule is written
//! once, forwards, and asked of both sides.

use super::trail::{Fact, Half, Trail};

/// A moment: so many minutes after a half.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Place {
    pub(super) half: Half,
    pub(super) minutes: i32,
}

impl Place {
    pub(super) const fn of(half: Half, minutes: i32) -> Self {
        Self { half, minutes }
    }

    /// The task whose start counts; none of a minute that nothing moves.
    pub(super) fn task(self) -> Option<usize> {
        (self.half > 1).then(|| self.half as usize / 2 - 1)
    }

    /// When that is, in a schedule; from starts to be judged nothing may overflow.
    pub(super) fn at(self, starts: &[i32]) -> i32 {
        let counted = self.task().map_or(1, |task| starts[task]);
        counted.saturating_add(self.minutes)
    }

    /// The same with time mirrored.
    fn mirrored(self) -> Self {
        Self::of(self.half ^ 1, -self.minutes)
    }
}

/// Who holds a unit of a resource: a task, or a stay from one to another.
#[derive(Debug, Clone, Copy)]
pub(super) struct Holder {
    /// The place of a task in the problem; behind these, that of a stay.
    pub(super) id: usize,
    /// When it begins.
    pub(super) from: Place,
    /// When it ends.
    pub(super) to: Place,
    /// How long it holds it, at least.
    pub(super) minutes: i32,
}

/// A direction of time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    Forwards,
    Backwards,
}

impl Side {
    pub(super) const BOTH: [Self; 2] = [Self::Forwards, Self::Backwards];

    fn begins(self, holder: Holder) -> Place {
        match self {
            Self::Forwards => holder.from,
            Self::Backwards => holder.to.mirrored(),
        }
    }

    fn ends(self, holder: Holder) -> Place {
        match self {
            Self::Forwards => holder.to,
            Self::Backwards => holder.from.mirrored(),
        }
    }

    /// When it can start at the earliest.
    pub(super) fn earliest(self, trail: &Trail, holder: Holder) -> i32 {
        let begins = self.begins(holder);
        trail.bound(begins.half) + begins.minutes
    }

    /// When it must have ended.
    pub(super) fn deadline(self, trail: &Trail, holder: Holder) -> i32 {
        let ends = self.ends(holder);
        trail.most(ends.half) + ends.minutes
    }

    /// From when to when it holds the resource for certain, if the one is before the other.
    pub(super) fn certain(self, trail: &Trail, holder: Holder) -> (i32, i32) {
        let (begins, ends) = (self.begins(holder), self.ends(holder));
        (
            trail.most(begins.half) + begins.minutes,
            trail.bound(ends.half) + ends.minutes,
        )
    }

    /// That it starts at a minute or later.
    pub(super) fn from(self, holder: Holder, minute: i32) -> Fact {
        let begins = self.begins(holder);
        Fact::at_least(begins.half, minute - begins.minutes)
    }

    /// That it has ended by a minute.
    pub(super) fn by(self, holder: Holder, minute: i32) -> Fact {
        let ends = self.ends(holder);
        Fact::at_least(ends.half ^ 1, ends.minutes - minute)
    }

    /// That it starts at a minute or sooner.
    pub(super) fn begun_by(self, holder: Holder, minute: i32) -> Fact {
        self.from(holder, minute + 1).not()
    }

    /// That it still holds the resource at a minute, or hasn't begun.
    pub(super) fn beyond(self, holder: Holder, minute: i32) -> Fact {
        self.by(holder, minute).not()
    }
}

/// Which of a resource's holders comes before which: for every two a yes or no, or what is known.
#[derive(Debug, Clone, Default)]
pub(super) struct Orders {
    count: usize,
    /// By the second, then the first; as seen from either side.
    halves: [Vec<Half>; 2],
}

impl Orders {
    pub(super) fn new(count: usize) -> Self {
        let none = || vec![Fact::NEVER.half; count * count];
        Self {
            count,
            halves: [none(), none()],
        }
    }

    /// Says what it means that one has ended when the other starts.
    pub(super) fn set(&mut self, first: usize, second: usize, fact: Fact) {
        self.halves[0][second * self.count + first] = fact.half;
        self.halves[1][first * self.count + second] = fact.half;
    }

    /// That one has ended when the other starts, seen from a side.
    pub(super) fn before(&self, side: Side, first: usize, second: usize) -> Fact {
        Fact::choice(self.all_before(side, second)[first])
    }

    /// The halves of what [`Self::before`] says of everyone and one other.
    pub(super) fn all_before(&self, side: Side, second: usize) -> &[Half] {
        &self.halves[side as usize][second * self.count..][..self.count]
    }
}
