//! What is decided before anything is searched: by links, windows, and an end that is asked for.
//!
//! Where one of two tasks that can't meet can't come first any more, the other does, which moves their windows and
//! may decide more. The nearer the end lies that is asked for, the more is decided; what is decided needs no yes
//! or no, and is no matter of any search.

use super::gaps::Gaps;
use super::model::{Block, blocks, holders, horizon};
use super::problem::Problem;
use super::shift::{Between, push};
use super::side::Holder;

#[derive(Debug)]
pub(super) struct Settled {
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
    pub(super) fn new(problem: &Problem, by: Option<i32>) -> Option<Self> {
        let tasks = problem.tasks();
        let horizon = horizon(problem);
        let end = by.map_or(horizon, |by| by.min(horizon));
        let latest = tasks.iter().map(|task| {
            let latest = if task.counts { end } else { horizon } - task.minutes;
            task.latest.map_or(latest, |told| told.min(latest))
        });
        let arcs = problem.arcs();
        let mut settled = Self {
            end,
            gaps: Gaps::new(tasks.len(), &arcs)?,
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

    /// The least that a start lies after another's.
    pub(super) fn between(&self, from: usize, to: usize) -> i32 {
        let by_windows = self.earliest[to] - self.latest[from];
        self.gaps.between(from, to).max(by_windows)
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
            holders.sort_by_key(|holder| (self.earliest[holder.task], self.latest[holder.task]));
            for apart in 1..holders.len() {
                let both = holders.iter().zip(&holders[apart..]);
                pairs.extend(both.map(|(&one, &other)| (one, other)));
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
            let goes = |first: Holder, second: Holder| {
                self.between(second.task, first.task) <= -first.minutes
            };
            let (first, second) = match (goes(one, other), goes(other, one)) {
                (true, true) => {
                    open.push((one, other));
                    continue;
                }
                (true, false) => (one, other),
                (false, true) => (other, one),
                (false, false) => return None,
            };
            match blocks(problem, first.task, second.task) {
                None => more |= self.put((first.task, first.minutes), second.task)?,
                // Of two blocks, all of the one come before all of the other.
                Some((before, after)) => {
                    for first in of(problem, before) {
                        for (second, _) in of(problem, after) {
                            more |= self.put(first, second)?;
                        }
                    }
                }
            }
        }
        Some(more)
    }

    /// Puts one that takes so long before another, and says whether that is news. `None` where it can't be.
    fn put(&mut self, (first, minutes): (usize, i32), second: usize) -> Option<bool> {
        if self.between(first, second) >= minutes {
            return Some(false);
        }
        let arc = (first, second, minutes);
        self.arcs.push(arc);
        self.gaps.widen(arc.0, arc.1, arc.2).then_some(true)
    }
}

/// The tasks of a block, and how long they take.
fn of(problem: &Problem, block: Block) -> impl Iterator<Item = (usize, i32)> {
    let tasks = problem.tasks().iter().enumerate();
    let of = tasks.filter(move |(_, task)| task.block == Some(block) && task.minutes > 0);
    of.map(|(place, task)| (place, task.minutes))
}
