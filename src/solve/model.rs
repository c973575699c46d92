//! A problem told to the engine: a start for every task, the end of the last one, and a yes or no for
//! every two tasks whose order is open and matters.

use super::engine::{Clash, Engine};
use super::one::One;
use super::problem::Problem;
use super::room::{holders, is_shared, may_meet};
use super::settled::Settled;
use super::several::Several;
use super::side::{Holder, Orders, Place};
use super::trail::{Fact, Half};

/// Two holders of which one has to come first.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pair {
    pub(super) first: Holder,
    pub(super) second: Holder,
    /// That the first one does; its negation, that the second one does.
    pub(super) order: Fact,
}

#[derive(Debug)]
pub(super) struct Model<'a> {
    pub(super) problem: &'a Problem,
    pub(super) engine: Engine,
    /// The half of the last end that counts upwards.
    pub(super) end: Half,
    pub(super) pairs: Vec<Pair>,
    /// That one block comes before another.
    pub(super) blocks: Vec<(Block, Block, Fact)>,
    /// How many clauses that can be thrown away are borne before half of them are.
    pub(super) memory: usize,
}

/// How many clauses that can be thrown away are borne unless something else is asked for.
pub(super) const MEMORY: usize = 2_000;

pub(super) fn start_of(task: usize) -> Half {
    // The first variable is the constant yes.
    task as Half * 2 + 2
}

impl<'a> Model<'a> {
    /// Says no where what follows at once contradicts itself.
    pub(super) fn new(problem: &'a Problem, settled: &Settled) -> Result<Self, Clash> {
        let mut engine = Engine::new();
        for (&earliest, &latest) in settled.earliest.iter().zip(&settled.latest) {
            engine.trail.variable(earliest, latest);
        }
        let end = engine.trail.variable(settled.least, settled.end);
        engine.choices = end + 2;
        for &(from, to, minutes) in &settled.arcs {
            let (from, to) = (start_of(from), start_of(to));
            engine.arcs.add(from, to, minutes, Fact::ALWAYS);
        }
        for (place, task) in problem.tasks().iter().enumerate() {
            if task.counts {
                engine
                    .arcs
                    .add(start_of(place), end, task.minutes, Fact::ALWAYS);
            }
        }
        let mut model = Self {
            problem,
            engine,
            end,
            pairs: Vec::new(),
            blocks: Vec::new(),
            memory: MEMORY,
        };
        model.hold_resources(settled);
        model.engine.ready();
        model.engine.follow_every_arc()?;
        Ok(model)
    }

    /// Tries the orders of other starts first.
    pub(super) fn lean_to(&mut self, starts: &[i32]) {
        for pair in &self.pairs {
            let forwards = pair.first.from.at(starts) <= pair.second.from.at(starts);
            self.engine.leaning[pair.order.half as usize / 2] = Some(forwards);
        }
    }

    fn hold_resources(&mut self, settled: &Settled) {
        let count = self.count();
        // What is known of the order of two holders; by their places.
        let mut known: Vec<Option<Fact>> = vec![None; count * count];
        let mut by_capacity: Vec<usize> = (0..self.problem.capacities().len()).collect();
        by_capacity.sort_by_key(|&resource| self.problem.capacities()[resource]);
        for resource in by_capacity {
            let mut holders = holders(self.problem, resource);
            let capacity = self.problem.capacities()[resource] as usize;
            if holders.len() <= capacity {
                continue;
            }
            // A stay is as long as what is settled makes it.
            for holder in &mut holders {
                holder.minutes = settled.between(holder.from, holder.to).max(holder.minutes);
            }
            let mut orders = Orders::new(holders.len());
            let is_shared = capacity == 1 && is_shared(self.problem, resource, &holders);
            for (first, one) in holders.iter().enumerate() {
                for (second, other) in holders.iter().enumerate() {
                    if first == second {
                        continue;
                    }
                    if is_shared && may_meet(self.problem, resource, *one, *other) {
                        continue;
                    }
                    let fact = match known[one.id * count + other.id] {
                        Some(fact) => fact,
                        None => self.order(settled, &mut known, *one, *other, capacity == 1),
                    };
                    orders.set(first, second, fact);
                }
            }
            // Work that can be done at one time needn't have room after one another.
            if is_shared {
                continue;
            }
            if capacity == 1 {
                self.engine.ones.push(One::new(holders, orders));
            } else {
                self.engine.several.push(Several {
                    holders,
                    orders,
                    capacity,
                    ordered: Vec::new(),
                });
            }
        }
    }

    /// How many there are that can hold anything.
    fn count(&self) -> usize {
        self.problem.tasks().len() + self.problem.stays().len()
    }

    /// Whether one of two tasks comes first; the same for all of their blocks.
    fn choice(&mut self, one: usize, other: usize) -> Fact {
        let Some((one, other)) = blocks(self.problem, one, other) else {
            return self.engine.choice();
        };
        for &(first, second, fact) in &self.blocks {
            if (first, second) == (one, other) {
                return fact;
            }
            if (first, second) == (other, one) {
                return fact.not();
            }
        }
        let fact = self.engine.choice();
        self.blocks.push((one, other, fact));
        fact
    }

    /// That one task comes before another.
    fn order(
        &mut self,
        settled: &Settled,
        known: &mut [Option<Fact>],
        one: Holder,
        other: Holder,
        must: bool,
    ) -> Fact {
        let count = self.count();
        let fact = if settled.between(one.to, other.from) >= 0 {
            Fact::ALWAYS
        } else if settled.between(other.from, one.to) > 0 {
            Fact::NEVER
        } else {
            self.choice(one.id, other.id)
        };
        known[one.id * count + other.id] = Some(fact);
        if fact != Fact::ALWAYS && fact != Fact::NEVER {
            let mut after = |before: Place, after: Place, when: Fact| {
                let minutes = before.minutes - after.minutes;
                self.engine.arcs.add(before.half, after.half, minutes, when);
            };
            after(one.to, other.from, fact);
            if must {
                after(other.to, one.from, fact.not());
                known[other.id * count + one.id] = Some(fact.not());
                self.pairs.push(Pair {
                    first: one,
                    second: other,
                    order: fact,
                });
            }
        }
        fact
    }
}

/// A resource and the block of tasks that it is kept for.
pub(super) type Block = (usize, u16);

/// The blocks of two holders, where one resource is kept for one and for the other.
pub(super) fn blocks(problem: &Problem, one: usize, other: usize) -> Option<(Block, Block)> {
    let (one, other) = (problem.tasks().get(one)?, problem.tasks().get(other)?);
    // What needs it to be the same can share it.
    if one.state.is_some() && one.state == other.state {
        return None;
    }
    let (one, other) = (one.block?, other.block?);
    (one.0 == other.0 && one.1 != other.1).then_some((one, other))
}

/// By when everything can have ended, if it can be done at all.
///
/// Where everything starts as early as its order allows, the end is a way through the arcs that
/// meets no task twice, from a first minute; every task adds at most the longest arc that leaves it.
pub(super) fn horizon(problem: &Problem) -> i32 {
    let tasks = problem.tasks();
    let mut longest: Vec<i32> = tasks.iter().map(|task| task.minutes).collect();
    for link in problem.links() {
        let end = tasks[link.from].minutes;
        longest[link.from] = longest[link.from].max(end + link.least);
        if let Some(most) = link.most {
            longest[link.to] = longest[link.to].max(-end - most);
        }
    }
    let first = tasks.iter().map(|task| task.earliest).max();
    longest.iter().sum::<i32>() + first.unwrap_or(0)
}
