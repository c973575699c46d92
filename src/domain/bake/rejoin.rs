//! Two ends of one log, made one log again.
//!
//! A bake can be open in two tabs. While one of them can't store, the other may
//! add to the log, and then both have entries behind the same place. What is
//! stored stays where it is, for it can't move; what only one side knows
//! follows, each entry with the moment at which it happened, by the newest clock.
//! Nothing is left out: an entry that makes no sense any more changes nothing,
//! since the fold is total.

use super::clock::{Jump, SAME_JUMP, jumps};
use super::event::{AlarmId, Entry, Event, TimerId};
use super::undo::undone;
use crate::units::{Moment, minutes};

/// What stands in `ours` and not in `stored`, as it has to be written behind all of `stored`.
///
/// Both are whole logs of one bake, and what they begin with alike counts as stored.
/// Four things are adapted, so that every entry still means what it meant:
/// - a moment from before a jump of the clock that only the other side tells of moves along with it. A jump that both
///   tell of moves nothing twice: ours says then that the clock was set by nothing. (The other way round, a jump that
///   only ours tells of, is the fold's: it moves what is stored before it, by its moments.)
/// - places in [`Event::Undone`] and [`Event::Since`] point at the same entries as before;
/// - a timer whose number the other side took as well gets the next free one;
/// - an intent at the very millisecond of another's moves to the next free one,
///   so that each can be taken back alone.
#[must_use]
pub fn rejoin(stored: &[Entry], ours: &[Entry]) -> Vec<Entry> {
    let both = stored.iter().zip(ours);
    let common = both.take_while(|(one, other)| is_same(one, other)).count();
    let theirs = &stored[common..];
    let clocks = Clocks::of(stored, ours, common);
    let mut moments = Moments::beside(stored);
    let mut timers = Timers::beside(stored, theirs);
    let moved = |&place: &u32| {
        if (place as usize) < common {
            return place;
        }
        place.saturating_add(u32::try_from(theirs.len()).unwrap_or(u32::MAX))
    };
    let mut rest = Vec::with_capacity(ours.len() - common);
    for (place, entry) in (0_u32..).zip(ours).skip(common) {
        let event = match &entry.event {
            Event::Undone { entries } => {
                let entries = entries.iter().map(moved).collect();
                Event::Undone { entries }
            }
            Event::Since { entry, by } => Event::Since {
                entry: moved(entry),
                by: *by,
            },
            Event::ClockSet { .. } if clocks.both_tell(place) => {
                Event::ClockSet { by: minutes(0.0) }
            }
            event => timers.renumbered(event.clone()),
        };
        let at = moments.free_for(entry.at, clocks.moved(place, entry.at));
        rest.push(Entry { at, event });
    }
    rest
}

/// A bake has one start, however its numbers were rounded on the way through the storage.
fn is_same(one: &Entry, other: &Entry) -> bool {
    let starts = |entry: &Entry| matches!(entry.event, Event::Started(_));
    one.at == other.at && (one.event == other.event || (starts(one) && starts(other)))
}

/// The jumps of the clock that the other side tells of, each with the place of ours that tells of the same.
struct Clocks(Vec<(Jump, Option<u32>)>);

impl Clocks {
    fn of(stored: &[Entry], ours: &[Entry], common: usize) -> Self {
        let behind = |log: &[Entry]| {
            let mut jumps = jumps(log, &undone(log));
            jumps.retain(|&(place, _)| place as usize >= common);
            jumps
        };
        let (stored, mut ours) = (behind(stored), behind(ours));
        let mut told = Vec::with_capacity(stored.len());
        for (_, jump) in stored {
            let apart = |other: &Jump| (jump.by - other.by).get().abs();
            let mut left = ours.iter();
            let same = left.position(|(_, other)| apart(other) < SAME_JUMP.get());
            // The clock has one history, so what both tell of comes in the same order.
            let same = same.and_then(|same| ours.drain(..=same).next_back());
            told.push((jump, same.map(|(place, _)| place)));
        }
        Self(told)
    }

    fn both_tell(&self, place: u32) -> bool {
        self.0.iter().any(|&(_, ours)| ours == Some(place))
    }

    /// The moment of one of our entries by the other side's clock. Of a jump that ours tells of too, the log itself
    /// says what was before it, and what came after it came after every jump before it as well.
    ///
    /// Left out: a jump forward that only the other side tells of, and then a greater one back that only ours does.
    fn moved(&self, place: u32, at: Moment) -> Moment {
        let behind = |&(_, ours): &(Jump, Option<u32>)| ours.is_some_and(|told| told <= place);
        let passed = self.0.iter().rposition(behind).unwrap_or(0);
        self.0[passed..]
            .iter()
            .fold(at, |at, &(jump, ours)| match ours {
                Some(told) if place < told => at + jump.by,
                Some(_) => at,
                None => jump.moved(at),
            })
    }
}

/// Which moments are taken, and where ours went.
struct Moments {
    taken: Vec<Moment>,
    moved: Vec<(Moment, Moment)>,
}

impl Moments {
    fn beside(stored: &[Entry]) -> Self {
        Self {
            taken: stored.iter().map(|entry| entry.at).collect(),
            moved: Vec::new(),
        }
    }

    /// What shared a moment, one intent, still shares one afterwards.
    fn free_for(&mut self, before: Moment, wanted: Moment) -> Moment {
        if let Some(&(_, moved)) = self.moved.iter().find(|&&(from, _)| from == before) {
            return moved;
        }
        let mut at = wanted;
        while self.taken.contains(&at) {
            at = Moment::from_epoch_ms(at.epoch_ms().saturating_add(1));
        }
        self.taken.push(at);
        self.moved.push((before, at));
        at
    }
}

/// The next free number of a timer, where the other side set timers too, and which of ours got which.
struct Timers {
    next: Option<u32>,
    moved: Vec<(TimerId, TimerId)>,
}

impl Timers {
    fn beside(stored: &[Entry], theirs: &[Entry]) -> Self {
        let set = |log: &[Entry]| {
            let timers = log.iter().filter_map(|entry| match entry.event {
                Event::TimerSet { timer, .. } => Some(timer.0),
                _ => None,
            });
            timers.max()
        };
        Self {
            next: set(theirs)
                .and(set(stored))
                .map(|newest| newest.saturating_add(1)),
            moved: Vec::new(),
        }
    }

    fn renumbered(&mut self, mut event: Event) -> Event {
        match &mut event {
            Event::TimerSet { timer, .. } => {
                if let Some(next) = &mut self.next {
                    self.moved.push((*timer, TimerId(*next)));
                    *timer = TimerId(*next);
                    *next = next.saturating_add(1);
                }
            }
            Event::TimerStopped { timer }
            | Event::Acknowledged {
                alarm: AlarmId::Timer(timer),
            } => {
                // A number is free again once its timer was taken back, so the newest counts.
                let mut newest_first = self.moved.iter().rev();
                if let Some(&(_, moved)) = newest_first.find(|&&(from, _)| from == *timer) {
                    *timer = moved;
                }
            }
            _ => {}
        }
        event
    }
}
