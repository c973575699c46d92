//! Facts of which at least one must be true, and which two of each are watched.
//!
//! Invariants: a clause speaks of a half at most once. Of its first two facts neither is false,
//! unless the other is true or everything since the falsehood was taken back. A clause that is the
//! reason of a fact has that fact first for as long as it is.

use super::engine::{Clash, Engine};
use super::trail::{Entry, Fact, NONE, Reason};

pub(super) type ClauseId = u32;

/// Over how many levels a clause is spread at most that is kept for ever.
const NARROW: u32 = 2;

#[derive(Debug)]
pub(super) struct Clause {
    pub(super) facts: Vec<Fact>,
    /// Over how many levels it was spread when it was learnt; nothing for what was taken up and can be
    /// taken up again.
    spread: u32,
    /// When it last took part in a conflict.
    used: u32,
}

/// A clause to look at once a half reaches a bound, which makes a watched fact of it false.
#[derive(Debug, Clone, Copy)]
struct Watch {
    bound: i32,
    clause: ClauseId,
    /// Another fact of it: while this is true there is nothing to do.
    other: Fact,
}

#[derive(Debug, Default)]
pub(super) struct Clauses {
    pub(super) all: Vec<Clause>,
    watches: Vec<Vec<Watch>>,
    /// How many of them can be thrown away.
    spare: usize,
    conflicts: u32,
}

impl Clause {
    /// Whether it is narrow enough to be worth its place for ever.
    fn is_kept(&self) -> bool {
        (1..=NARROW).contains(&self.spread)
    }
}

impl Clauses {
    fn watch(&mut self, clause: ClauseId, nth: usize) {
        let facts = &self.all[clause as usize].facts;
        let falsified = facts[nth].not();
        let other = facts[1 - nth];
        let half = falsified.half as usize;
        if self.watches.len() <= half {
            self.watches.resize_with(half + 1, Vec::new);
        }
        self.watches[half].push(Watch {
            bound: falsified.bound,
            clause,
            other,
        });
    }

    /// Adds a clause of two facts or more, which are watched in the order in which they stand.
    pub(super) fn add(&mut self, facts: Vec<Fact>, spread: u32) -> ClauseId {
        let id = self.all.len() as ClauseId;
        let clause = Clause {
            facts,
            spread,
            used: self.conflicts,
        };
        self.spare += usize::from(!clause.is_kept());
        self.all.push(clause);
        self.watch(id, 0);
        self.watch(id, 1);
        id
    }

    pub(super) fn touch(&mut self, clause: ClauseId) {
        self.all[clause as usize].used = self.conflicts;
    }

    pub(super) fn count_conflict(&mut self) {
        self.conflicts += 1;
    }

    pub(super) fn conflicts(&self) -> u32 {
        self.conflicts
    }

    pub(super) fn spare(&self) -> usize {
        self.spare
    }
}

impl Engine {
    /// What follows from clauses once a half has risen.
    pub(super) fn follow_clauses(&mut self, entry: Entry) -> Result<(), Clash> {
        let half = entry.half as usize;
        if half >= self.clauses.watches.len() {
            return Ok(());
        }
        let mut list = std::mem::take(&mut self.clauses.watches[half]);
        let reached = self.trail.bound(entry.half);
        let (mut read, mut kept) = (0, 0);
        let mut outcome = Ok(());
        while read < list.len() {
            let watch = list[read];
            read += 1;
            list[kept] = watch;
            kept += 1;
            if watch.bound > reached || self.trail.is_true(watch.other) {
                continue;
            }
            let falsified = Fact::at_least(entry.half, watch.bound).not();
            let facts = &mut self.clauses.all[watch.clause as usize].facts;
            if facts[0] == falsified {
                facts.swap(0, 1);
            }
            let first = facts[0];
            list[kept - 1].other = first;
            if self.trail.is_true(first) {
                continue;
            }
            let rest = facts[2..].iter();
            if let Some(free) = rest.copied().position(|fact| !self.trail.is_false(fact)) {
                facts.swap(1, free + 2);
                self.clauses.watch(watch.clause, 1);
                kept -= 1;
                continue;
            }
            outcome = self.assert(first, Reason::Clause(watch.clause));
            if outcome.is_err() {
                break;
            }
        }
        list.copy_within(read.., kept);
        list.truncate(list.len() - (read - kept));
        self.clauses.watches[half] = list;
        outcome
    }

    /// Takes a clause up while something may be decided; what follows from it at once.
    pub(super) fn take_up(&mut self, mut facts: Vec<Fact>) -> Result<(), Clash> {
        // Where all but one are false whatever is decided, that one is true whatever is decided, and
        // a clause would only say so for as long as the present level lasts.
        facts.retain(|fact| !self.trail.is_given(fact.not()));
        // What isn't false first, then what became false last.
        let when = |fact: &Fact| {
            if self.trail.is_false(*fact) {
                self.trail.entry_of(fact.not())
            } else {
                NONE
            }
        };
        facts.sort_by_key(|fact| std::cmp::Reverse(when(fact)));
        let Some(&first) = facts.first() else {
            self.clash.clear();
            return Err(Clash);
        };
        let is_due = facts
            .get(1)
            .is_none_or(|&second| self.trail.is_false(second));
        let reason = match facts.len() {
            1 => {
                self.back_to(0);
                Reason::Given
            }
            _ => Reason::Clause(self.clauses.add(facts, 0)),
        };
        if is_due {
            self.assert(first, reason)
        } else {
            Ok(())
        }
    }

    /// Throws away half of what was learnt, what was taken up, and what was always true. Nothing may be
    /// decided, and everything that follows must have been drawn.
    pub(super) fn tidy_clauses(&mut self) -> Result<(), Clash> {
        let Clauses { all, conflicts, .. } = std::mem::take(&mut self.clauses);
        self.clauses.conflicts = conflicts;
        for several in &mut self.several {
            several.ordered.clear();
        }
        let rank = |clause: &Clause| (clause.spread, conflicts - clause.used);
        let learnt = all.iter().filter(|clause| clause.spread > NARROW);
        let mut ranks: Vec<(u32, u32)> = learnt.map(rank).collect();
        ranks.sort_unstable();
        let limit = ranks.get(ranks.len() / 2).copied();
        for mut clause in all {
            let is_good = clause.spread > NARROW && Some(rank(&clause)) < limit;
            let is_true = |&fact: &Fact| self.trail.is_true(fact);
            if !(clause.is_kept() || is_good) || clause.facts.iter().any(is_true) {
                continue;
            }
            clause.facts.retain(|&fact| !self.trail.is_false(fact));
            match clause.facts[..] {
                [] => return self.clash(&[]),
                [fact] => self.assert(fact, Reason::Given)?,
                _ => {
                    let id = self.clauses.add(clause.facts, clause.spread);
                    self.clauses.all[id as usize].used = clause.used;
                }
            }
        }
        Ok(())
    }
}
