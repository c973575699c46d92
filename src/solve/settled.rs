//! What is decided before anything is searched: by links, windows, and an end that is asked for.
//!
//! Where one of two tasks that can't meet can't come first any more, the other does, which moves their windows and
//! may decide more. The nearer the end lies that is asked for, the more is decided; what is decided needs no yes
//! or no, and is no matter of any search.

use super::gaps::Gaps;
use super::model::{Block, blocks, horizon};
use super::problem::Problem;
use super::room::{holders, may_meet};
use super::shift::{Between, push};
use super::side::{Holder, Place};

#[derive(Debug)]
pub(super) struct Settled {
    /// Before when no schedule ends.
    pub(super) least: i32,
    /// By when everything that counts has ended.
    pub(super) end: i32,
    /// The links and the orders that are decided, where these don't follow from others.
    pub(super) arcs: Vec<Between>,
    /// The windows that this leaves, by task.
    pub(super) earliest: Vec<i32>,
    pub(super) latest: Vec<i32>,
    gaps: Gaps,
}

impl Settled {
    /// For schedules that end by a minute, or for all. `None` where they contradict themselves already.
    ///
    /// `orders` are kept beside the links, and no schedule ends before `least`: what is known of the problem, or is asked
    /// for without making the end any later.
    pub(super) fn new(
        problem: &Problem,
        by: Option<i32>,
        least: i32,
        orders: &[Between],
    ) -> Option<Self> {
        let tasks = problem.tasks();
        let horizon = horizon(problem);
        let end = by.map_or(horizon, |by| by.min(horizon));
        let latest = tasks.iter().map(|task| {
            let latest = if task.counts { end } else { horizon } - task.minutes;
            task.latest.map_or(latest, |told| told.min(latest))
        });
        let mut arcs = problem.arcs();
        arcs.extend_from_slice(orders);
        let mut gaps = problem.gaps()?;
        for &(from, to, minutes) in orders {
            gaps.widen(from, to, minutes).then_some(())?;
        }
        let mut settled = Self {
            least: least.min(end),
            end,
            gaps,
            arcs,
            earliest: tasks.iter().map(|task| task.earliest).collect(),
            latest: latest.collect(),
        };
        settled.narrow()?;
        let mut open = settled.pairs(problem);
        while settled.decide(problem, &mut open)? {
            settled.narrow()?;
        }
        Some(settled)
    }

    /// The least that a moment lies after another.
    pub(super) fn between(&self, from: Place, to: Place) -> i32 {
        // Nothing moves minute one.
        let earliest = to.task().map_or(1, |to| self.earliest[to]);
        let latest = from.task().map_or(1, |from| self.latest[from]);
        let links = match (from.task(), to.task()) {
            (Some(from), Some(to)) => self.gaps.between(from, to),
            _ => i32::MIN / 4,
        };
        links.max(earliest - latest) + to.minutes - from.minutes
    }

    /// Every two tasks that can't meet, as they stand in time; neighbours first, of the others the order mostly follows.
    fn pairs(&self, problem: &Problem) -> Vec<(Holder, Holder)> {
        let mut pairs = Vec::new();
        for (resource, _) in problem
            .capacities()
            .iter()
            .enumerate()
            .filter(|(_, one)| **one == 1)
        {
            let mut holders = holders(problem, resource);
            holders.sort_by_key(|holder| {
                let task = holder.from.task();
                task.map_or((0, 0), |task| (self.earliest[task], self.latest[task]))
            });
            for apart in 1..holders.len() {
                let both = holders.iter().zip(&holders[apart..]);
                let both = both.map(|(&one, &other)| (one, other));
                pairs.extend(both.filter(|&(one, other)| !may_meet(problem, resource, one, other)));
            }
        }
        pairs
    }

    /// Narrows windows until they keep every arc.
    fn narrow(&mut self) -> Option<()> {
        while push(&mut self.earliest, &self.arcs) {}
        let mut more = true;
        while more {
            more = false;
            for &(from, to, minutes) in self.arcs.iter().rev() {
                if self.latest[from] > self.latest[to] - minutes {
                    self.latest[from] = self.latest[to] - minutes;
                    more = true;
                }
            }
        }
        let mut windows = self.earliest.iter().zip(&self.latest);
        windows.all(|(from, to)| from <= to).then_some(())
    }

    /// Decides those of the open orders of which the other way round isn't possible, and says whether that is news. `None`
    /// where two tasks fit in neither order.
    fn decide(&mut self, problem: &Problem, open: &mut Vec<(Holder, Holder)>) -> Option<bool> {
        let (all, mut more) = (std::mem::take(open), false);
        for (one, other) in all {
            let goes = |first: Holder, second: Holder| self.between(second.from, first.to) <= 0;
            let (first, second) = match (goes(one, other), goes(other, one)) {
                (true, true) => {
                    open.push((one, other));
                    continue;
                }
                (true, false) => (one, other),
                (false, true) => (other, one),
                (false, false) => return None,
            };
            match blocks(problem, first.id, second.id) {
                None => more |= self.put(first, second)?,
                // Of two blocks, all of the one come before all of the other.
                Some((before, after)) => {
                    for first in of(problem, before) {
                        for second in of(problem, after) {
                            more |= self.put(first, second)?;
                        }
                    }
                }
            }
        }
        Some(more)
    }

    /// Puts one before another, and says whether that is news. `None` where it can't be.
    fn put(&mut self, first: Holder, second: Holder) -> Option<bool> {
        if self.between(first.to, second.from) >= 0 {
            return Some(false);
        }
        let minutes = first.to.minutes - second.from.minutes;
        // What has no end comes before nothing.
        let one = first.to.task()?;
        let Some(other) = second.from.task() else {
            // Before what has begun before the first minute lies only what has ended by then. Nothing moves minute one.
            let latest = &mut self.latest[one];
            *latest = (1 - minutes).min(*latest);
            return Some(true);
        };
        self.arcs.push((one, other, minutes));
        self.gaps.widen(one, other, minutes).then_some(true)
    }
}

/// Those who hold a resource for a block.
fn of(problem: &Problem, block: Block) -> impl Iterator<Item = Holder> {
    let tasks = problem.tasks().iter().enumerate();
    let of = tasks.filter(move |(_, task)| task.block == Some(block) && task.minutes > 0);
    of.map(|(place, task)| Holder::of(place, task.minutes))
}
