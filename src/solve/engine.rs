//! Everything that follows from what was decided, until nothing does or something can't be.

use super::arcs::Arcs;
use super::clauses::Clauses;
use super::learn::Marks;
use super::one::One;
use super::several::Several;
use super::trail::{Fact, Half, Reason, Trail};

/// For how much work it is asked once whether to go on: a tenth of a millisecond or two on a fast machine.
const TURN: u32 = 10_000;
/// What a conflict is taken to be beside what follows from it.
pub(super) const LESSON: u32 = 1_000;
/// After how many conflicts a problem counts as hard.
const HARD: u32 = 100;

/// That facts were found that can't be true together; they stand in [`Engine::clash`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Clash;

#[derive(Debug, Default)]
pub(super) struct Engine {
    pub(super) trail: Trail,
    pub(super) clauses: Clauses,
    pub(super) arcs: Arcs,
    pub(super) ones: Vec<One>,
    pub(super) several: Vec<Several>,
    /// True facts that can't be true together.
    pub(super) clash: Vec<Fact>,
    pub(super) marks: Marks,
    /// The first half of a yes or no; below are minutes.
    pub(super) choices: Half,
    /// How the yes or no was decided last, by variable.
    pub(super) leaning: Vec<Option<bool>>,
    /// How often it took part in late conflicts, by variable.
    pub(super) activity: Vec<f64>,
    /// What taking part in the next one adds to it: the more, the later.
    pub(super) step: f64,
    /// The last level at which nothing but the end is decided.
    pub(super) asked: u32,
    /// Whether what holds without any decision was followed until nothing did, but for what is new on the trail.
    is_settled: bool,
    /// What was done since it was asked whether to go on, counted in arcs, pairs and the like that were looked at.
    pub(super) work: u32,
    /// How much of the trail was followed.
    followed: usize,
    /// Where the trail stood when it began to be followed.
    pub(super) since: u32,
}

impl Engine {
    pub(super) fn new() -> Self {
        let mut engine = Self::default();
        engine.trail.variable(1, 1);
        engine
    }

    /// Whether to go on, asked as often as there was work.
    pub(super) fn goes_on(&mut self, go_on: &mut dyn FnMut() -> bool) -> bool {
        while self.work >= TURN {
            self.work -= TURN;
            if !go_on() {
                return false;
            }
        }
        true
    }

    /// A yes or no.
    pub(super) fn choice(&mut self) -> Fact {
        Fact::choice(self.trail.variable(0, 1))
    }

    /// To be said once all variables are there.
    pub(super) fn ready(&mut self) {
        let variables = self.trail.bounds.len() / 2;
        self.leaning = vec![None; variables];
        self.activity = vec![0.0; variables];
        self.step = 1.0;
    }

    /// Makes a fact true for a reason.
    pub(super) fn assert(&mut self, fact: Fact, reason: Reason) -> Result<(), Clash> {
        if self.trail.is_true(fact) {
            return Ok(());
        }
        if self.trail.is_false(fact) {
            // What is just enough to contradict the other bound is easier to explain.
            let against = Fact::at_least(fact.half ^ 1, self.trail.bound(fact.half ^ 1));
            let mut clash = std::mem::take(&mut self.clash);
            clash.clear();
            self.explain(against.not(), reason, self.trail.entries.len(), &mut clash);
            clash.push(against);
            self.clash = clash;
            return Err(Clash);
        }
        self.trail.push(fact, reason);
        Ok(())
    }

    /// Facts that were true before an entry and from which this one follows.
    pub(super) fn explain(&self, fact: Fact, reason: Reason, entry: usize, into: &mut Vec<Fact>) {
        match reason {
            Reason::Decision | Reason::Given => {}
            Reason::Clause(clause) => {
                let facts = &self.clauses.all[clause as usize].facts;
                into.extend(facts[1..].iter().map(|fact| fact.not()));
            }
            Reason::Arc(arc) => {
                let arc = self.arcs.all[arc as usize];
                into.push(arc.when);
                into.push(Fact::at_least(arc.from, fact.bound - arc.weight));
            }
            Reason::Closed(arc) => {
                let arc = self.arcs.all[arc as usize];
                // Any minute between the two will do; at one of the ends less may have to be true.
                let entry = entry as u32;
                let low = 1 - arc.weight - self.trail.bound_before(arc.to ^ 1, entry);
                let high = self.trail.bound_before(arc.from, entry);
                let pair = |minute: i32| {
                    [
                        Fact::at_least(arc.from, minute),
                        Fact::at_least(arc.to ^ 1, 1 - arc.weight - minute),
                    ]
                };
                let age = |fact: Fact| match self.trail.is_given(fact) {
                    true => 0,
                    false => self.trail.entry_of(fact) + 1,
                };
                let (early, late) = (pair(low), pair(high));
                let chosen = if age(early[0]) <= age(late[1]) {
                    early
                } else {
                    late
                };
                into.extend(chosen);
            }
            Reason::Told(from, count) => {
                let told = &self.trail.told[from as usize..];
                into.extend_from_slice(&told[..count as usize]);
            }
        }
    }

    /// Writes facts down from which others will follow.
    pub(super) fn tell(&mut self, facts: &[Fact]) -> Reason {
        let from = self.trail.told.len() as u32;
        self.trail.told.extend_from_slice(facts);
        Reason::Told(from, facts.len() as u32)
    }

    /// Says that facts can't be true together.
    pub(super) fn clash(&mut self, facts: &[Fact]) -> Result<(), Clash> {
        self.clash.clear();
        self.clash.extend_from_slice(facts);
        Err(Clash)
    }

    /// Lets everything follow that does.
    ///
    /// The rules for a resource of which there is one take as long as all others together. Where
    /// nothing but the end is decided they are asked until they say no more; deeper down, where most
    /// conflicts are found without them, once, and only of a problem that has proved hard.
    pub(super) fn follow_all(&mut self) -> Result<(), Clash> {
        if self.trail.level() == 0 && self.is_settled && self.trail.entries.is_empty() {
            return Ok(());
        }
        self.since = self.followed as u32;
        let mut rounds = match self.trail.level() {
            level if level <= self.asked => u32::MAX,
            _ => u32::from(self.clauses.conflicts() > HARD),
        };
        loop {
            while let Some(&entry) = self.trail.entries.get(self.followed) {
                self.followed += 1;
                self.follow_clauses(entry)?;
                self.follow_arcs(entry)?;
            }
            let before = self.trail.entries.len();
            for nth in 0..self.several.len() {
                self.work += self.several[nth].holders.len().pow(2) as u32;
                self.follow_several(nth)?;
            }
            if self.trail.entries.len() > before {
                continue;
            }
            if rounds > 0 {
                rounds -= 1;
                for nth in 0..self.ones.len() {
                    self.work += self.ones[nth].looks();
                    self.follow_one(nth)?;
                }
            }
            if self.trail.entries.len() == before {
                break;
            }
        }
        if self.trail.level() == 0 {
            self.trail.settle();
            self.followed = 0;
            self.is_settled = true;
        }
        Ok(())
    }

    /// Takes back every level above one, and remembers how yes or no was decided there.
    pub(super) fn back_to(&mut self, level: u32) {
        if level >= self.trail.level() {
            return;
        }
        for entry in self.trail.entries.iter().rev() {
            if entry.level <= level {
                break;
            }
            if entry.half >= self.choices {
                self.leaning[entry.half as usize / 2] = Some(entry.half % 2 == 0);
            }
        }
        self.trail.back_to(level);
        self.followed = self.followed.min(self.trail.entries.len());
    }
}
