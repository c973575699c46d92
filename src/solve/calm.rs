//! How little a schedule waits in its own order, without a search for another one.

use super::Schedule;
use super::flow::{Flow, Wait};
use super::model::horizon;
use super::problem::Problem;
use super::settled::Settled;
use super::shift::{Between, order_of};
use super::trail::Fact;

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

/// The least weighted sum of lags in the order of the schedule at hand, without a search for another order.
#[must_use]
pub fn least_waiting_in_order(problem: &Problem, at_hand: &Schedule, weights: &[u16]) -> Calm {
    let mut calm = as_at_hand(problem, at_hand, weights);
    if calm.is_proven || calm.waiting == i64::MAX {
        return calm;
    }
    let tasks = problem.tasks();
    let latest = tasks.iter().map(|task| {
        let end = if task.counts {
            calm.schedule.end
        } else {
            horizon(problem)
        };
        let latest = end - task.minutes;
        task.latest.map_or(latest, |told| told.min(latest))
    });
    let windows = Windows {
        arcs: &problem.arcs(),
        earliest: &tasks.iter().map(|task| task.earliest).collect::<Vec<_>>(),
        latest: &latest.collect::<Vec<_>>(),
    };
    let starts = &calm.schedule.starts;
    if windows.hold(starts) {
        let order = order_of(problem, starts);
        let starts = windows.cheapest(&order, starts, &waits(problem, weights));
        calm.take(problem, weights, starts);
    }
    calm
}

/// How little a schedule waits as it is.
pub(super) fn as_at_hand(problem: &Problem, at_hand: &Schedule, weights: &[u16]) -> Calm {
    let mut calm = Calm {
        schedule: at_hand.clone(),
        waiting: i64::MAX,
        is_proven: false,
    };
    if problem.holds(&at_hand.starts) {
        calm.schedule.end = problem.makespan(&at_hand.starts);
        calm.waiting = waiting(problem, weights, &at_hand.starts);
        // Where nothing that matters waits longer than its own link asks for, nothing can wait less.
        let links = problem.links().iter().zip(weights);
        let least = links.map(|(link, &weight)| i64::from(link.least) * i64::from(weight));
        calm.is_proven = calm.waiting <= least.sum();
    }
    calm
}

/// What a minute costs between tasks.
pub(super) fn waits(problem: &Problem, weights: &[u16]) -> Vec<Wait> {
    let links = problem.links().iter().zip(weights);
    let links = links.filter(|(link, weight)| link.from != link.to && **weight > 0);
    links
        .map(|(link, &weight)| (link.from, link.to, i32::from(weight)))
        .collect()
}

/// Makes a schedule wait as little as its own order allows, and says whether what is settled, without any other order,
/// asks for as much. Mostly it does, so that nothing has to be searched.
pub(super) fn without_search(
    problem: &Problem,
    settled: &Settled,
    calm: &mut Calm,
    weights: &[u16],
    waits: &[Wait],
) -> bool {
    let windows = Windows {
        arcs: &settled.arcs,
        earliest: &settled.earliest,
        latest: &settled.latest,
    };
    let at_hand = calm.schedule.starts.clone();
    if !windows.hold(&at_hand) {
        return false;
    }
    let bound = waiting(problem, weights, &windows.cheapest(&[], &at_hand, waits));
    if bound < calm.waiting {
        let starts = windows.cheapest(&order_of(problem, &at_hand), &at_hand, waits);
        calm.take(problem, weights, starts);
    }
    bound >= calm.waiting
}

/// Between when every task starts, and how far apart.
struct Windows<'a> {
    arcs: &'a [Between],
    earliest: &'a [i32],
    latest: &'a [i32],
}

impl Windows<'_> {
    /// Whether starts lie within. What doesn't count can be later than anything that is looked at.
    fn hold(&self, starts: &[i32]) -> bool {
        let mut starts = starts.iter().zip(self.latest);
        starts.all(|(start, latest)| start <= latest)
    }

    /// The starts that wait least in an order.
    fn cheapest(&self, order: &[Between], at_hand: &[i32], waits: &[Wait]) -> Vec<i32> {
        let zero = at_hand.len();
        let mut flow = Flow::new(zero + 1);
        for &(from, to, minutes) in self.arcs.iter().chain(order) {
            flow.add(from, to, minutes, Fact::ALWAYS);
        }
        for (place, (&earliest, &latest)) in self.earliest.iter().zip(self.latest).enumerate() {
            flow.add(zero, place, earliest, Fact::ALWAYS);
            flow.add(place, zero, -latest, Fact::ALWAYS);
        }
        let mut starts = at_hand.to_vec();
        starts.push(0);
        flow.cheapen(&mut starts, waits);
        starts.truncate(zero);
        starts
    }
}

impl Calm {
    /// Takes starts that wait less. An order says nothing of what has begun before the first minute.
    fn take(&mut self, problem: &Problem, weights: &[u16], starts: Vec<i32>) {
        let waits = waiting(problem, weights, &starts);
        if waits < self.waiting && problem.holds(&starts) {
            let end = problem.makespan(&starts);
            self.schedule = Schedule { starts, end };
            self.waiting = waits;
        }
    }
}

/// The minutes that starts wait, each as often as its link weighs.
pub(super) fn waiting(problem: &Problem, weights: &[u16], starts: &[i32]) -> i64 {
    let links = problem.links().iter().zip(weights);
    links
        .map(|(link, &weight)| {
            let end = i64::from(starts[link.from]) + i64::from(problem.tasks()[link.from].minutes);
            (i64::from(starts[link.to]) - end) * i64::from(weight)
        })
        .sum()
}
