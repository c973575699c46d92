//! Of the schedules that end as soon as can be, one in which least is waited.
//!
//! The orders that are decided so far leave cheapest starts, which [`Flow`] finds; no schedule with
//! these orders waits less. Where two tasks meet in them that may not, their order is decided as in
//! [`search`](super::search). Where they wait no less than the best so far, the facts that this rests
//! on can't be true together, and a clause is learnt from them.
//!
//! Such a clause, and whatever is learnt from it, says nothing of the problem alone: it says that what
//! it rules out waits no less than the best so far, or ends later than the schedule at hand. It stays
//! true, since the best only gets better, but the model it was learnt in is of no use for anything else
//! and is dropped with it.

use super::Schedule;
use super::engine::Clash;
use super::flow::Flow;
use super::model::{MEMORY, Model, start_of};
use super::problem::{MOST_LINKS, Problem};
use super::search::{Next, attempt_of};
use super::trail::{Fact, Half, Reason};

const _: () = assert!(MOST_LINKS * (u16::MAX as usize) < i32::MAX as usize);

/// What is known of how little can be waited.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Calm {
    /// The schedule that waits least, of those that were found.
    pub schedule: Schedule,
    /// The minutes that are waited in it, each as often as its link weighs; [`i64::MAX`] of what was
    /// no schedule of the problem.
    pub waiting: i64,
    /// Whether less was proven impossible.
    pub is_proven: bool,
}

/// The least weighted sum of lags, among the schedules that end no later than the one at hand.
///
/// There is a weight for every link; nothing for one whose lag doesn't matter, or that leads to a task
/// for which the end doesn't wait. A link behind the last weight weighs nothing. The schedule at hand
/// is kept where none is better, and comes back unproven where it is none of the problem's.
/// `go_on` is asked as in [`solve`](super::solve).
#[must_use]
pub fn least_waiting(
    problem: &Problem,
    at_hand: &Schedule,
    weights: &[u16],
    go_on: &mut dyn FnMut() -> bool,
) -> Calm {
    least_waiting_within(problem, at_hand, weights, MEMORY, go_on)
}

/// The same with a limit to how much is remembered, as [`solve_within`](super::solve_within).
#[must_use]
pub fn least_waiting_within(
    problem: &Problem,
    at_hand: &Schedule,
    weights: &[u16],
    memory: usize,
    go_on: &mut dyn FnMut() -> bool,
) -> Calm {
    let mut calm = Calm {
        schedule: at_hand.clone(),
        waiting: i64::MAX,
        is_proven: false,
    };
    if !problem.holds(&at_hand.starts) {
        return calm;
    }
    let end = problem.makespan(&at_hand.starts);
    calm.schedule.end = end;
    calm.waiting = waiting(problem, weights, &at_hand.starts);
    // What fits together was found, so it can be told to the engine again.
    let Ok(mut model) = Model::new(problem) else {
        return calm;
    };
    model.memory = memory;
    let in_time = Fact::at_least(model.end ^ 1, -end);
    model.lean_to(&at_hand.starts);
    if model.engine.assert(in_time, Reason::Given).is_ok() {
        calm.is_proven = model.calm(&mut calm, weights, go_on);
    }
    calm
}

fn waiting(problem: &Problem, weights: &[u16], starts: &[i32]) -> i64 {
    let links = problem.links().iter().zip(weights);
    links
        .map(|(link, &weight)| {
            let end = i64::from(starts[link.from]) + i64::from(problem.tasks()[link.from].minutes);
            (i64::from(starts[link.to]) - end) * i64::from(weight)
        })
        .sum()
}

impl Model<'_> {
    /// Whether everything was looked at.
    fn calm(&mut self, calm: &mut Calm, weights: &[u16], go_on: &mut dyn FnMut() -> bool) -> bool {
        let costs = self.costs(weights);
        let (mut attempt, mut left) = (1, attempt_of(1));
        loop {
            match self.calm_step(calm, weights, &costs) {
                Ok(()) => continue,
                Err(Clash) if !self.engine.learn() => return true,
                Err(Clash) => left -= 1,
            }
            if !go_on() {
                return false;
            }
            if left == 0 {
                attempt += 1;
                left = attempt_of(attempt);
                self.engine.back_to(0);
            }
        }
    }

    fn calm_step(&mut self, calm: &mut Calm, weights: &[u16], costs: &[i32]) -> Result<(), Clash> {
        self.follow()?;
        let mut flow = self.flow();
        let mut starts = self.starts();
        starts.extend([self.engine.trail.bound(self.end), 0]);
        flow.cheapen(&mut starts, costs);
        starts.truncate(self.problem.tasks().len());
        let waits = waiting(self.problem, weights, &starts);
        if waits >= calm.waiting {
            return self.engine.clash(&flow.facts());
        }
        match self.next(&starts)? {
            Next::Decide(order) => self.engine.trail.decide(order),
            Next::Follow => {}
            Next::Done => {
                let end = self.problem.makespan(&starts);
                calm.schedule = Schedule { starts, end };
                calm.waiting = waits;
                return self.engine.clash(&flow.facts());
            }
        }
        Ok(())
    }

    /// The node of minute nothing, behind the tasks and the end.
    fn zero(&self) -> usize {
        self.problem.tasks().len() + 1
    }

    /// What a later start of each node costs; no more than all weights together, which are within 32
    /// bits since there are no more links than [`MOST_LINKS`].
    fn costs(&self, weights: &[u16]) -> Vec<i32> {
        let mut costs = vec![0; self.zero() + 1];
        for (link, &weight) in self.problem.links().iter().zip(weights) {
            costs[link.to] += i32::from(weight);
            costs[link.from] -= i32::from(weight);
        }
        costs
    }

    /// The differences that hold now: arcs in force, and bounds.
    fn flow(&self) -> Flow {
        let zero = self.zero();
        let mut flow = Flow::new(zero + 1);
        let trail = &self.engine.trail;
        let first = start_of(0);
        let node = |half: Half| ((half - first) / 2) as usize;
        for arc in &self.engine.arcs.all {
            // Every arc has a mirrored one, which says the same.
            if arc.from % 2 == 0 && trail.is_true(arc.when) {
                flow.add(node(arc.from), node(arc.to), arc.weight, arc.when);
            }
        }
        for half in (first..=self.end).step_by(2) {
            let (low, high) = (trail.bound(half), trail.most(half));
            flow.add(zero, node(half), low, Fact::at_least(half, low));
            flow.add(node(half), zero, -high, Fact::at_least(half ^ 1, -high));
        }
        flow
    }
}
