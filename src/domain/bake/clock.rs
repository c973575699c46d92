//! A phone's clock that was set in the middle of a bake.
//!
//! Entries carry the phone's own moments, which mean nothing by a clock that was
//! set since. What passes between them is real, so all that happened before moves
//! along with the clock, and the log is folded by the moments that come of it.
//!
//! Where two tabs wrote, an entry from after the jump can stand before the one that
//! tells of it. By its moment it is known: what happened before the clock was set by
//! `by` lies no later than the moment at which that was said, less `by`.

use super::event::{Entry, Event};
use crate::sorted::Set;
use crate::units::{Minutes, Moment, minutes};

/// Two tabs see the same jump by slightly different clocks, so jumps that differ by less than this are one.
/// ASSUMPTION: judgement; nobody sets a clock by so little in the middle of a bake.
pub const SAME_JUMP: Minutes = minutes(1.0);

/// Somebody said, at `at` by the new clock, that the clock was set by so much.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Jump {
    pub(super) at: Moment,
    pub(super) by: Minutes,
}

impl Jump {
    /// A moment by the clock after the jump.
    pub(super) fn moved(self, moment: Moment) -> Moment {
        if moment <= self.at - self.by {
            moment + self.by
        } else {
            moment
        }
    }
}

/// Every jump that counts, with the place of the entry that tells of it: none that was taken back, nor what came after
/// the end.
pub(super) fn jumps(log: &[Entry], undone: &Set<u32>) -> Vec<(u32, Jump)> {
    let mut jumps = Vec::new();
    for (place, entry) in (0_u32..).zip(log) {
        if undone.contains(&place) {
            continue;
        }
        match entry.event {
            Event::ClockSet { by } => jumps.push((place, Jump { at: entry.at, by })),
            Event::Finished | Event::Abandoned => break,
            _ => {}
        }
    }
    jumps
}

/// The moment of every entry by the newest clock.
pub(super) fn moments(log: &[Entry], undone: &Set<u32>) -> Vec<Moment> {
    let jumps = jumps(log, undone);
    let moment = |(place, entry): (u32, &Entry)| {
        let later = jumps.iter().filter(|&&(jump, _)| jump > place);
        later.fold(entry.at, |at, (_, jump)| jump.moved(at))
    };
    (0_u32..).zip(log).map(moment).collect()
}
