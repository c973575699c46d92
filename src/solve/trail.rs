//! Bounds of whole numbers, and how each of them came about.
//!
//! A variable `x` has two *halves*, `x` and `-x`, each with a greatest known lower bound; so there
//! is one kind of fact, [`Fact`]: "this half is at least so much". Its negation is a fact about the
//! other half. A yes or no is a variable from 0 to 1.
//!
//! Invariants:
//!
//! - Bounds only rise along the trail, and every rise is one entry with its reason; an entry's reason
//!   names only facts that were true before it.
//! - Facts that are true without any decision have no entry once [`Trail::settle`] was called, and
//!   never stand in an explanation.
//! - A fact was first true at the earliest entry of its half whose bound reaches it.

use super::arcs::ArcId;
use super::clauses::ClauseId;

pub(super) const NONE: u32 = u32::MAX;

/// One of the two directions of a variable.
pub(super) type Half = u32;

/// That a half is at least so much.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Fact {
    pub(super) half: Half,
    pub(super) bound: i32,
}

impl Fact {
    /// What is true of everything; the first variable of every trail is a yes.
    pub(super) const ALWAYS: Self = Self { half: 0, bound: 1 };
    /// What is true of nothing.
    pub(super) const NEVER: Self = Self::ALWAYS.not();

    pub(super) const fn at_least(half: Half, bound: i32) -> Self {
        Self { half, bound }
    }

    /// A half of a yes or no as a fact: that it is yes, or that it is no.
    pub(super) const fn choice(half: Half) -> Self {
        Self::at_least(half, 1 - (half & 1) as i32)
    }

    /// What is true when this isn't.
    pub(super) const fn not(self) -> Self {
        Self {
            half: self.half ^ 1,
            bound: 1 - self.bound,
        }
    }
}

/// Why a bound rose.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Reason {
    /// Tried, to see what comes of it.
    Decision,
    /// True whatever is tried.
    Given,
    /// All other facts of a clause were false; the first one is this.
    Clause(ClauseId),
    /// Pushed along an arc.
    Arc(ArcId),
    /// An arc that would have pushed something beyond its other bound can't hold.
    Closed(ArcId),
    /// Facts that a resource wrote down, from a place in [`Trail::told`], and how many.
    Told(u32, u32),
}

#[derive(Debug, Clone, Copy)]
pub(super) struct Entry {
    pub(super) half: Half,
    pub(super) bound: i32,
    /// The bound before.
    pub(super) before: i32,
    /// The entry before of the same half.
    pub(super) previous: u32,
    pub(super) level: u32,
    pub(super) reason: Reason,
}

#[derive(Debug, Default)]
pub(super) struct Trail {
    pub(super) bounds: Vec<i32>,
    /// The bounds that hold without any decision.
    pub(super) root: Vec<i32>,
    last: Vec<u32>,
    pub(super) entries: Vec<Entry>,
    /// Where each level begins: in the entries, and in what was told.
    levels: Vec<(usize, usize)>,
    pub(super) told: Vec<Fact>,
}

impl Trail {
    /// A variable between two bounds; the half that counts upwards.
    pub(super) fn variable(&mut self, low: i32, high: i32) -> Half {
        let half = self.bounds.len() as Half;
        self.bounds.extend([low, -high]);
        self.root.extend([low, -high]);
        self.last.extend([NONE, NONE]);
        half
    }

    pub(super) fn level(&self) -> u32 {
        self.levels.len() as u32
    }

    pub(super) fn bound(&self, half: Half) -> i32 {
        self.bounds[half as usize]
    }

    /// The least that the half can still become is its bound; this is the most.
    pub(super) fn most(&self, half: Half) -> i32 {
        -self.bounds[half as usize ^ 1]
    }

    pub(super) fn is_true(&self, fact: Fact) -> bool {
        self.bounds[fact.half as usize] >= fact.bound
    }

    pub(super) fn is_false(&self, fact: Fact) -> bool {
        fact.bound > -self.bounds[fact.half as usize ^ 1]
    }

    /// Whether it holds without any decision.
    pub(super) fn is_given(&self, fact: Fact) -> bool {
        self.root[fact.half as usize] >= fact.bound
    }

    /// The entry that last moved a half.
    pub(super) fn last(&self, half: Half) -> u32 {
        self.last[half as usize]
    }

    /// The entry at which a true fact that isn't given became true.
    pub(super) fn entry_of(&self, fact: Fact) -> u32 {
        let mut at = self.last(fact.half);
        loop {
            let entry = &self.entries[at as usize];
            if entry.before < fact.bound {
                return at;
            }
            at = entry.previous;
        }
    }

    /// A half's bound just before an entry was made.
    pub(super) fn bound_before(&self, half: Half, entry: u32) -> i32 {
        let mut at = self.last(half);
        while at != NONE && at >= entry {
            at = self.entries[at as usize].previous;
        }
        match self.entries.get(at as usize) {
            Some(entry) => entry.bound,
            None => self.root[half as usize],
        }
    }

    pub(super) fn push(&mut self, fact: Fact, reason: Reason) {
        let half = fact.half as usize;
        self.entries.push(Entry {
            half: fact.half,
            bound: fact.bound,
            before: self.bounds[half],
            previous: self.last[half],
            level: self.level(),
            reason,
        });
        self.last[half] = self.entries.len() as u32 - 1;
        self.bounds[half] = fact.bound;
    }

    pub(super) fn decide(&mut self, fact: Fact) {
        self.levels.push((self.entries.len(), self.told.len()));
        self.push(fact, Reason::Decision);
    }

    /// Takes back every level above one.
    pub(super) fn back_to(&mut self, level: u32) {
        let Some(&(entries, told)) = self.levels.get(level as usize) else {
            return;
        };
        for entry in self.entries.drain(entries..).rev() {
            self.bounds[entry.half as usize] = entry.before;
            self.last[entry.half as usize] = entry.previous;
        }
        self.told.truncate(told);
        self.levels.truncate(level as usize);
    }

    /// Makes everything that is true now, with nothing decided, part of the givens.
    pub(super) fn settle(&mut self) {
        for entry in self.entries.drain(..) {
            self.root[entry.half as usize] = self.bounds[entry.half as usize];
            self.last[entry.half as usize] = NONE;
        }
        self.told.clear();
    }
}
