//! What a conflict teaches: the first unique implication point (Marques-Silva & Sakallah 1999), for
//! bounds that are explained only when they are asked for.
//!
//! Needed facts of the same half are one, the greatest; so a mark for each half is enough. What is
//! asked of an entry is only the bound that was needed, which is often less than it reached: an arc
//! then asks less of what pushed it, and what is learnt holds more often.

use super::engine::{Engine, LESSON};
use super::trail::{Fact, Half, NONE, Reason};

/// How much of a yes or no's activity is left after a conflict, measured by what one adds.
const DECAY: f64 = 0.95;
/// How far back the reasons of reasons are looked at to leave a fact out.
const DEPTH: u32 = 12;
/// How many of them are looked at in all. Reasons that share reasons would be met along every way, of
/// which there can be exponentially many.
const VISITS: u32 = 200;

/// For every half the bound that is needed of it, and the entry that reached it.
#[derive(Debug, Default)]
pub(super) struct Marks {
    need: Vec<i32>,
    at: Vec<u32>,
    halves: Vec<Half>,
    /// How many of the entries belong to the level at hand.
    open: u32,
    level: u32,
}

impl Engine {
    /// Learns from the facts that clash, and goes back to where that changes something. Says no
    /// if they clash whatever is decided.
    pub(super) fn learn(&mut self) -> bool {
        self.work += LESSON;
        self.clauses.count_conflict();
        let clash = std::mem::take(&mut self.clash);
        let level_of = |fact: &Fact| {
            let is_given = self.trail.is_given(*fact);
            (!is_given).then(|| self.trail.entries[self.trail.entry_of(*fact) as usize].level)
        };
        let Some(level) = clash.iter().filter_map(level_of).max() else {
            return false;
        };
        if level == 0 {
            return false;
        }
        self.back_to(level);
        let size = self.trail.bounds.len();
        self.marks.need.resize(size, 0);
        self.marks.at.resize(size, NONE);
        self.marks.open = 0;
        self.marks.level = level;
        for &fact in &clash {
            self.require(fact);
        }
        self.clash = clash;
        let first = self.first_implication_point();
        let (facts, back, spread) = self.lesson(first);
        self.back_to(back);
        self.step /= DECAY;
        if self.step > 1e100 {
            self.activity.iter_mut().for_each(|known| *known *= 1e-100);
            self.step *= 1e-100;
        }
        let learnt = facts[0];
        let reason = match facts.len() {
            1 => Reason::Given,
            _ => Reason::Clause(self.clauses.add(facts, spread)),
        };
        self.assert(learnt, reason).is_ok()
    }

    fn require(&mut self, fact: Fact) {
        if self.trail.is_given(fact) {
            return;
        }
        let half = fact.half as usize;
        let known = self.marks.at[half];
        if known != NONE && self.marks.need[half] >= fact.bound {
            return;
        }
        let at = self.trail.entry_of(fact);
        let level = self.trail.entries[at as usize].level;
        let counted = known != NONE && self.trail.entries[known as usize].level == self.marks.level;
        self.marks.open += u32::from(level == self.marks.level && !counted);
        if known == NONE {
            self.marks.halves.push(fact.half);
            if fact.half >= self.choices {
                self.activity[half / 2] += self.step;
            }
        }
        self.marks.need[half] = fact.bound;
        self.marks.at[half] = at;
    }

    /// Replaces facts of the level by what they follow from until one is left.
    fn first_implication_point(&mut self) -> Fact {
        let mut reasons = Vec::new();
        let mut at = self.trail.entries.len();
        loop {
            at -= 1;
            let entry = self.trail.entries[at];
            let half = entry.half as usize;
            if self.marks.at[half] != at as u32 {
                continue;
            }
            let fact = Fact::at_least(entry.half, self.marks.need[half]);
            if self.marks.open == 1 {
                return fact;
            }
            self.marks.open -= 1;
            self.marks.at[half] = NONE;
            if let Reason::Clause(clause) = entry.reason {
                self.clauses.touch(clause);
            }
            reasons.clear();
            self.explain(fact, entry.reason, at, &mut reasons);
            for &reason in &reasons {
                self.require(reason);
            }
        }
    }

    /// The clause that says it, its level to go back to, and over how many levels it is spread.
    fn lesson(&mut self, first: Fact) -> (Vec<Fact>, u32, u32) {
        let mut halves = std::mem::take(&mut self.marks.halves);
        halves.sort_unstable();
        halves.dedup();
        halves.retain(|&half| self.marks.at[half as usize] != NONE);
        let needed = |half: &Half| Fact::at_least(*half, self.marks.need[*half as usize]);
        let mut rest: Vec<Fact> = halves.iter().map(needed).collect();
        rest.retain(|fact| {
            let before = self.trail.entry_of(*fact);
            *fact != first && !self.follows(*fact, before, DEPTH, &mut { VISITS })
        });
        let level_of = |fact: &Fact| {
            let at = self.trail.entry_of(*fact);
            self.trail.entries[at as usize].level
        };
        let mut levels: Vec<u32> = rest.iter().map(level_of).collect();
        let back = levels.iter().copied().max().unwrap_or(0);
        if let Some(last) = levels.iter().position(|&level| level == back) {
            rest.swap(0, last);
        }
        levels.sort_unstable();
        levels.dedup();
        for &half in &halves {
            self.marks.at[half as usize] = NONE;
        }
        halves.clear();
        self.marks.halves = halves;
        let facts = std::iter::once(first).chain(rest).map(Fact::not).collect();
        (facts, back, levels.len() as u32 + 1)
    }

    /// Whether a fact follows from others that are needed anyway. Only those count that became true
    /// before the fact that would be left out: so no two facts are left out for each other's sake.
    fn follows(&self, fact: Fact, before: u32, depth: u32, visits: &mut u32) -> bool {
        let at = self.trail.entry_of(fact);
        let reason = self.trail.entries[at as usize].reason;
        if reason == Reason::Decision || depth == 0 || *visits == 0 {
            return false;
        }
        *visits -= 1;
        let mut reasons = Vec::new();
        self.explain(fact, reason, at as usize, &mut reasons);
        reasons.iter().all(|&reason| {
            let half = reason.half as usize;
            self.trail.is_given(reason)
                || self.marks.at[half] < before && self.marks.need[half] >= reason.bound
                || self.follows(reason, before, depth - 1, visits)
        })
    }
}
