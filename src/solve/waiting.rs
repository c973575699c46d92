//! Of the schedules that end as soon as can be, one in which least is waited.
//!
//! The orders that are decided so far leave cheapest starts, which [`Flow`] finds; no schedule with
//! these orders waits less. Where two tasks meet in them that may not, their order is decided as in
//! [`search`](super::search). Where they wait no less than the best so far, the facts that this rests
//! on can't be true together, and a clause is learnt from them.
//!
//! Before any of that the bound is asked for that follows without any decision, and how little the order at hand can wait:
//! where the two are equal there is nothing to search.
//!
//! Such a clause, and whatever is learnt from it, says nothing of the problem alone: it says that what
//! it rules out waits no less than the best so far, or ends later than the schedule at hand. It stays
//! true, since the best only gets better, but the model it was learnt in is of no use for anything else
//! and is dropped with it.

use super::calm::{Calm, as_at_hand, waiting, waits, without_search};
use super::engine::Clash;
use super::flow::{Flow, Wait};
use super::model::{MEMORY, Model, start_of};
use super::problem::{MOST_LINKS, Problem};
use super::search::{Next, attempt_of};
use super::settled::Settled;
use super::shift::Between;
use super::trail::{Fact, Half};
use super::{Schedule, may_set_up};

// No more flows than all weights together.
const _: () = assert!(MOST_LINKS * (u16::MAX as usize) < i32::MAX as usize);

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
    let mut calm = as_at_hand(problem, at_hand, weights);
    if calm.is_proven || calm.waiting == i64::MAX || !may_set_up(problem, go_on) {
        return calm;
    }
    let waits = waits(problem, weights);
    // What is at hand fits, so it can be told to the engine.
    let Some(settled) = Settled::new(problem, Some(calm.schedule.end), 0, &[]) else {
        return calm;
    };
    calm.is_proven = without_search(problem, &settled, &mut calm, weights, &waits);
    if calm.is_proven {
        return calm;
    }
    let Ok(mut model) = Model::new(problem, &settled) else {
        return calm;
    };
    model.memory = memory;
    model.lean_to(&at_hand.starts);
    calm.is_proven = model.calm(&mut calm, weights, &waits, go_on);
    calm
}

impl Model<'_> {
    /// Whether everything was looked at.
    fn calm(
        &mut self,
        calm: &mut Calm,
        weights: &[u16],
        waits: &[Wait],
        go_on: &mut dyn FnMut() -> bool,
    ) -> bool {
        let (mut attempt, mut left) = (1, attempt_of(1));
        let mut near = calm.schedule.starts.clone();
        near.extend([calm.schedule.end, 0]);
        loop {
            match self.calm_step(calm, weights, waits, &mut near) {
                Ok(()) => {}
                Err(Clash) if !self.engine.learn() => return true,
                Err(Clash) => left -= 1,
            }
            if !self.engine.goes_on(go_on) {
                return false;
            }
            if left == 0 {
                attempt += 1;
                left = attempt_of(attempt);
                self.engine.back_to(0);
            }
        }
    }

    /// Keeps in mind in `near` the cheapest starts that were found last, from which the next ones are never far.
    fn calm_step(
        &mut self,
        calm: &mut Calm,
        weights: &[u16],
        waits: &[Wait],
        near: &mut Vec<i32>,
    ) -> Result<(), Clash> {
        self.follow()?;
        let differences = self.differences();
        let mut flow = Flow::new(self.zero() + 1);
        for &((from, to, minutes), when) in &differences {
            flow.add(from, to, minutes, when);
        }
        self.fit(near, &differences);
        flow.cheapen(near, waits);
        self.engine.work += flow.looked_at;
        let mut starts = near.clone();
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

    /// The differences that hold now, and because of what: arcs in force, and bounds.
    fn differences(&self) -> Vec<(Between, Fact)> {
        let zero = self.zero();
        let trail = &self.engine.trail;
        let first = start_of(0);
        let node = |half: Half| ((half - first) / 2) as usize;
        // Every arc has a mirrored one, which says the same.
        let arcs = self.engine.arcs.all.iter().filter(|arc| arc.from % 2 == 0);
        let arcs = arcs.filter(|arc| trail.is_true(arc.when));
        // The constant half is minute one, to which a stay without an end is tied.
        let node_of = |half: Half| match half {
            0 => (zero, 1),
            half => (node(half), 0),
        };
        let arcs = arcs.map(|arc| {
            let ((from, early), (to, late)) = (node_of(arc.from), node_of(arc.to));
            ((from, to, arc.weight + early - late), arc.when)
        });
        let bounds = (first..=self.end).step_by(2).flat_map(|half| {
            let (low, high) = (trail.bound(half), trail.most(half));
            [
                ((zero, node(half), low), Fact::at_least(half, low)),
                ((node(half), zero, -high), Fact::at_least(half ^ 1, -high)),
            ]
        });
        arcs.chain(bounds).collect()
    }

    /// Moves starts later until they keep every difference, or else to the earliest that do.
    fn fit(&self, starts: &mut Vec<i32>, differences: &[(Between, Fact)]) {
        let zero = self.zero();
        let (mut more, mut fits) = (true, true);
        while more && fits {
            more = false;
            for &((from, to, minutes), _) in differences {
                if starts[to] < starts[from] + minutes {
                    // Whatever pushes minute nothing is too late.
                    fits &= to != zero;
                    starts[to] = starts[from] + minutes;
                    more = true;
                }
            }
        }
        if !fits {
            *starts = self.starts();
            starts.extend([self.engine.trail.bound(self.end), 0]);
        }
    }
}
