//! A resource's tasks seen in one direction of time.
//!
//! What holds for earliest starts holds, with time mirrored, for latest ends. So every rule is written
//! once, forwards, and asked of both sides.

use super::trail::{Fact, Half, Trail};

/// A task that holds a unit of a resource.
#[derive(Debug, Clone, Copy)]
pub(super) struct Holder {
    /// Its place in the problem.
    pub(super) task: usize,
    /// The half of its start that counts upwards.
    pub(super) start: Half,
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

    fn half(self, holder: Holder) -> Half {
        holder.start ^ self as Half
    }

    fn offset(self, holder: Holder) -> i32 {
        match self {
            Self::Forwards => 0,
            Self::Backwards => holder.minutes,
        }
    }

    /// When it can start at the earliest.
    pub(super) fn earliest(self, trail: &Trail, holder: Holder) -> i32 {
        trail.bound(self.half(holder)) - self.offset(holder)
    }

    /// When it must have ended.
    pub(super) fn deadline(self, trail: &Trail, holder: Holder) -> i32 {
        trail.most(self.half(holder)) + holder.minutes - self.offset(holder)
    }

    /// That it starts at a minute or later.
    pub(super) fn from(self, holder: Holder, minute: i32) -> Fact {
        Fact::at_least(self.half(holder), minute + self.offset(holder))
    }

    /// That it has ended by a minute.
    pub(super) fn by(self, holder: Holder, minute: i32) -> Fact {
        let bound = holder.minutes - self.offset(holder) - minute;
        Fact::at_least(self.half(holder) ^ 1, bound)
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
