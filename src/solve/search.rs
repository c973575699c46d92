//! Which order to try next.
//!
//! Everything starts as early as what is decided allows. Only orders of tasks that then meet are
//! decided; where none meet that can't, that is a schedule. So most orders are never decided at all.

use super::engine::{Clash, Engine};
use super::model::{Block, Model, start_of};
use super::several::Several;
use super::side::{Holder, Side};
use super::trail::Fact;

/// How many conflicts the shortest attempt lasts (Luby, Sinclair & Zuckerman 1993).
const ATTEMPT: u32 = 60;
/// What came of looking for a schedule that ends in time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Found {
    /// It stands in the bounds, until anything is taken back.
    Schedule,
    /// None ends in time.
    TooLate,
    /// There is none at all.
    Never,
    /// The patience came to an end before.
    Unknown,
}

pub(super) enum Next {
    Decide(Fact),
    /// Something new follows.
    Follow,
    /// No tasks meet that can't.
    Done,
}

impl Model<'_> {
    /// Looks for a schedule that ends by `by`, for so many conflicts at most. What is learnt stays for the next time.
    pub(super) fn look(&mut self, by: i32, most: u32, go_on: &mut dyn FnMut() -> bool) -> Found {
        let in_time = Fact::at_least(self.end ^ 1, -by.min(self.latest_end()));
        let (mut attempt, mut left, mut patience) = (1, attempt_of(1), most);
        self.engine.asked = 1;
        loop {
            match self.step(in_time) {
                Ok(Some(found)) => return found,
                Ok(None) => {}
                Err(Clash) if !self.engine.learn() => return Found::Never,
                Err(Clash) => (left, patience) = (left - 1, patience - 1),
            }
            if patience == 0 || !self.engine.goes_on(go_on) {
                self.engine.back_to(0);
                return Found::Unknown;
            }
            if left == 0 {
                attempt += 1;
                left = attempt_of(attempt);
                self.engine.back_to(0);
            }
        }
    }

    fn step(&mut self, in_time: Fact) -> Result<Option<Found>, Clash> {
        self.follow()?;
        if self.engine.trail.level() > 0 {
            let starts = self.starts();
            match self.next(&starts)? {
                Next::Decide(order) => self.engine.trail.decide(order),
                Next::Follow => {}
                Next::Done => return Ok(Some(Found::Schedule)),
            }
        } else if self.engine.trail.is_false(in_time) {
            return Ok(Some(Found::TooLate));
        } else {
            self.engine.trail.decide(in_time);
        }
        Ok(None)
    }

    /// Lets everything follow that does, and throws away what was learnt where it has become much.
    pub(super) fn follow(&mut self) -> Result<(), Clash> {
        self.engine.follow_all()?;
        if self.engine.trail.level() == 0 && self.engine.clauses.spare() > self.memory {
            self.engine.tidy_clauses()?;
            self.engine.follow_all()?;
        }
        Ok(())
    }

    /// The earliest starts that what is decided allows.
    pub(super) fn starts(&self) -> Vec<i32> {
        let tasks = 0..self.problem.tasks().len();
        tasks
            .map(|task| self.engine.trail.bound(start_of(task)))
            .collect()
    }

    /// What to do about a schedule that keeps to all that is decided.
    pub(super) fn next(&mut self, starts: &[i32]) -> Result<Next, Clash> {
        let order = self.next_of_pairs(starts);
        if let Some(order) = order.or_else(|| self.next_of_blocks(starts)) {
            return Ok(Next::Decide(order));
        }
        for nth in 0..self.engine.several.len() {
            match self.engine.next_of_several(nth, starts)? {
                Next::Done => {}
                next => return Ok(next),
            }
        }
        Ok(Next::Done)
    }

    /// Of two tasks that meet, the order: of those that took part in late conflicts most, the first.
    fn next_of_pairs(&mut self, starts: &[i32]) -> Option<Fact> {
        self.engine.work += self.pairs.len() as u32;
        let Engine {
            trail,
            activity,
            leaning,
            ..
        } = &self.engine;
        let mut best: Option<(f64, i32, Fact)> = None;
        for pair in &self.pairs {
            let (first, second) = (pair.first, pair.second);
            if !meet(starts, first, second) {
                continue;
            }
            let at = first.from.at(starts).max(second.from.at(starts));
            let choice = pair.order.half as usize / 2;
            let is_better = |(known, earlier, _): (f64, i32, Fact)| {
                activity[choice] > known || activity[choice] == known && at < earlier
            };
            if best.is_none_or(is_better) {
                let middle = |one: Holder| {
                    let (half, minutes) = (one.from.half, one.from.minutes);
                    trail.bound(half) + trail.most(half) + 2 * minutes
                };
                let forwards = leaning[choice].unwrap_or(middle(first) <= middle(second));
                let order = if forwards {
                    pair.order
                } else {
                    pair.order.not()
                };
                best = Some((activity[choice], at, order));
            }
        }
        best.map(|(_, _, order)| order)
    }

    /// Of two blocks that lie within each other though none of their tasks meet, the order.
    fn next_of_blocks(&self, starts: &[i32]) -> Option<Fact> {
        let span = |block: Block| {
            let tasks = self.problem.tasks().iter().zip(starts);
            let of = tasks.filter(|(task, _)| task.block == Some(block) && task.minutes > 0);
            of.fold((i32::MAX, i32::MIN), |(first, last), (task, &start)| {
                (first.min(start), last.max(start + task.minutes))
            })
        };
        self.blocks.iter().find_map(|&(one, other, order)| {
            let ((from, to), (other_from, other_to)) = (span(one), span(other));
            let forwards = self.engine.leaning[order.half as usize / 2];
            let order = if forwards.unwrap_or(from <= other_from) {
                order
            } else {
                order.not()
            };
            (from < other_to && other_from < to).then_some(order)
        })
    }
}

/// Whether neither has ended when the other begins. What lasts no time at all meets who holds before it and after it.
fn meet(starts: &[i32], one: Holder, other: Holder) -> bool {
    one.from.at(starts) < other.to.at(starts) && other.from.at(starts) < one.to.at(starts)
}

impl Engine {
    /// Where more tasks meet at a resource than can, two of them must be in order.
    fn next_of_several(&mut self, nth: usize, starts: &[i32]) -> Result<Next, Clash> {
        let Several {
            holders,
            capacity,
            orders,
            ordered,
        } = &mut self.several[nth];
        let trail = &self.trail;
        for late in 0..holders.len() {
            // Those who hold it when this one begins; any two of them meet.
            let at = holders[late].from.at(starts);
            let all = (0..holders.len()).filter(|&nth| {
                let has_begun = holders[nth].from.at(starts) <= at;
                has_begun && meet(starts, holders[late], holders[nth]) || nth == late
            });
            let mut all: Vec<usize> = all.collect();
            if all.len() <= *capacity {
                continue;
            }
            // Those that can wait longest.
            all.sort_by_key(|&nth| -Side::Forwards.certain(trail, holders[nth]).0);
            all.truncate(*capacity + 1);
            all.sort_unstable();
            let mut facts: Vec<Fact> = Vec::new();
            for &first in &all {
                let order = |&second| orders.before(Side::Forwards, first, second);
                facts.extend(all.iter().map(order));
            }
            // Nobody comes before themselves, to begin with.
            facts.retain(|&fact| fact != Fact::NEVER);
            if !ordered.contains(&all) {
                ordered.push(all);
                self.take_up(facts)?;
                return Ok(Next::Follow);
            }
            facts.retain(|&order| !trail.is_false(order));
            let activity = |order: Fact| self.activity[order.half as usize / 2];
            let livelier = |best, order| {
                if activity(order) > activity(best) {
                    order
                } else {
                    best
                }
            };
            // Something is left to decide, since the clause that says so was followed.
            return Ok(facts
                .into_iter()
                .reduce(livelier)
                .map_or(Next::Done, Next::Decide));
        }
        Ok(Next::Done)
    }
}

/// How many conflicts an attempt lasts.
pub(super) fn attempt_of(nth: u32) -> u32 {
    ATTEMPT * luby(nth)
}

/// 1, 1, 2, 1, 1, 2, 4, …
fn luby(nth: u32) -> u32 {
    let mut size = 1;
    while size < nth + 1 {
        size *= 2;
    }
    if size == nth + 1 {
        size / 2
    } else {
        luby(nth + 1 - size / 2)
    }
}
