//! What was promised, as it is kept while the app is closed.
//!
//! A plan is redone from the one before and keeps to what that promised, so a plan that is forgotten with
//! the page is one that moves. What is kept of it is what it said: when everything starts and ends. The rest
//! follows from the logs as they were then, and a promise knows how far each of them had got.

use super::{Known, Timetable, margins, waits_for_table};
use crate::bake::{Bake, BakeId, State};
use crate::estimate::{Basis, Estimate};
use crate::schedule::plan::read::chain;
use crate::schedule::plan::{Item, Plan, Proven};
use crate::units::{Minutes, Moment};

/// What a plan promised when it was made.
#[derive(Debug, Clone, PartialEq)]
pub struct Promise {
    /// When it was made.
    pub at: Moment,
    /// Of what, in the order in which its items tell them.
    pub bakes: Vec<Promised>,
    /// Everything planned, by start.
    pub items: Vec<Item>,
    /// By table: how much sooner what is for it should be ready.
    pub buffers: Vec<(Moment, Minutes)>,
}

/// A bake as it was planned.
#[derive(Debug, Clone, PartialEq)]
pub struct Promised {
    /// Which.
    pub bake: BakeId,
    /// How many entries its log had.
    pub entries: u32,
    /// The moment of the last of these.
    pub newest: Moment,
    /// When it was to begin, if it hadn't.
    pub begins: Option<Moment>,
    /// When the baker is called for that, or was.
    pub called: Option<Moment>,
}

/// All that is kept of plans.
#[derive(Debug, Clone, PartialEq)]
pub struct Promises {
    /// What is planned.
    pub shown: Promise,
    /// What was planned each time that something was told of it, oldest first: what moves is held against the last.
    pub told: Vec<Promise>,
}

impl Promise {
    /// What a plan of some bakes promises, with when the baker is called for each.
    #[must_use]
    pub fn of(made: &Timetable, bakes: &[Bake], calls: &[Option<Moment>], at: Moment) -> Self {
        let bakes = bakes.iter().enumerate().map(|(place, bake)| Promised {
            bake: bake.id.clone(),
            entries: bake.next_place(),
            newest: bake.log().last().map_or(at, |entry| entry.at),
            begins: made.begins.get(place).copied().flatten(),
            called: calls.get(place).copied().flatten(),
        });
        let margins = made.margins.iter();
        Self {
            at,
            bakes: bakes.collect(),
            items: made.plan.items.clone(),
            buffers: margins
                .map(|margin| (margin.table, margin.buffer))
                .collect(),
        }
    }

    /// The plan as it was, as far as others are made from it, and its bakes as they were; `None` where one of
    /// them isn't known here, or its log is another.
    #[must_use]
    pub fn recalled(&self, known: &[Bake]) -> Option<(Vec<Bake>, Timetable)> {
        let bakes = self.bakes.iter().map(|promised| promised.as_it_was(known));
        let bakes: Vec<Bake> = bakes.collect::<Option<_>>()?;
        let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
        let is_here = |item: &Item| item.what.of().is_none_or(|(bake, _)| bake < bakes.len());
        if !self.items.iter().all(is_here) || !self.chains_end() {
            return None;
        }
        let items = self.items.clone();
        let plan = Plan {
            end: chain::all_ready(&items)
                .unwrap_or_else(|| Estimate::exact(self.at, Basis::Measured)),
            items,
            // What was proven then is nothing that is proven now.
            proven: Proven::Short(Minutes::MAX),
            waits_least: false,
            as_heated: false,
        };
        let buffer = |table: Moment| {
            let known = self.buffers.iter().find(|(of, _)| *of == table);
            known.map(|&(_, buffer)| buffer)
        };
        let known = |state: &&State| waits_for_table(state).then(|| Known::of(state, self.at));
        let timetable = Timetable {
            margins: margins(&states, &plan, &buffer),
            begins: self.bakes.iter().map(|bake| bake.begins).collect(),
            ready: (0..bakes.len())
                .map(|bake| Some(plan.of(bake)?.table))
                .collect(),
            known: states.iter().map(known).collect(),
            plan,
        };
        Some((bakes, timetable))
    }
}

impl Promise {
    /// Whether what waits for what comes to an end: what was damaged can lead nowhere, or in a circle.
    fn chains_end(&self) -> bool {
        let ends = |item: &Item| {
            let mut next = item.waits_for;
            for _ in &self.items {
                let Some(place) = next else { break };
                let Some(item) = self.items.get(place) else {
                    return false;
                };
                next = item.waits_for;
            }
            next.is_none()
        };
        self.items.iter().all(ends)
    }
}

impl Promised {
    fn as_it_was(&self, known: &[Bake]) -> Option<Bake> {
        let bake = known.iter().find(|bake| bake.id == self.bake)?;
        let log = bake.log().get(..usize::try_from(self.entries).ok()?)?;
        if log.last()?.at != self.newest {
            return None;
        }
        if log.len() == bake.log().len() {
            return Some(bake.clone());
        }
        Bake::from_log(bake.id.clone(), log.to_vec())
    }
}
