//! Why there is no schedule: a few parts of the problem that contradict each other by themselves.
//!
//! Parts are left out, many at a time at first, for as long as what is left still has no schedule. In
//! the end none can be left out, as far as that could be found out in time: what is told contradicts
//! itself in any case, but something in it may be more than it takes.

use super::model::MEMORY;
use super::problem::{ANY, Follows, Link, Problem, Task};
use super::room::{Edge, Stay};
use super::{Outcome, searched};

/// How many conflicts it may take to find that something can be left out.
const PATIENCE: u32 = 200;

/// A part of a problem.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// That a task holds a resource.
    Need(usize, usize),
    /// The least lag of a link.
    Least(usize),
    /// The greatest lag of a link.
    Most(usize),
    /// That a task can't start before a minute.
    Earliest(usize),
    /// That a task can't start after a minute.
    Latest(usize),
    /// That a stay takes room.
    Stay(usize),
}

/// Parts that contradict each other; nothing where the problem isn't found to be infeasible.
///
/// `go_on` is asked as in [`solve`]; with "no" what is found so far is told.
#[must_use]
pub fn why_infeasible(problem: &Problem, go_on: &mut dyn FnMut() -> bool) -> Vec<Part> {
    let mut parts = all_parts(problem);
    if !contradict(problem, &parts, u32::MAX, go_on) {
        return Vec::new();
    }
    let mut size = parts.len().div_ceil(2);
    loop {
        let mut at = 0;
        while at < parts.len() {
            let end = parts.len().min(at + size);
            let mut rest = parts.clone();
            rest.drain(at..end);
            if contradict(problem, &rest, PATIENCE, go_on) {
                parts = rest;
            } else {
                at = end;
            }
        }
        if size <= 1 {
            return parts;
        }
        size = size.div_ceil(2).min(parts.len().max(1));
    }
}

/// Everything that could stand in the way, in an order in which what belongs together is near.
fn all_parts(problem: &Problem) -> Vec<Part> {
    let mut parts = Vec::new();
    for (place, task) in problem.tasks().iter().enumerate() {
        let needs = task.needs.iter().filter(|_| task.minutes > 0);
        parts.extend(needs.map(|&need| Part::Need(place, need)));
        parts.extend((task.earliest > 0).then_some(Part::Earliest(place)));
        parts.extend(task.latest.map(|_| Part::Latest(place)));
    }
    for (place, link) in problem.links().iter().enumerate() {
        parts.push(Part::Least(place));
        parts.extend(link.most.map(|_| Part::Most(place)));
    }
    parts.extend((0..problem.stays().len()).map(Part::Stay));
    parts
}

/// Whether there is no schedule even if only these parts count.
fn contradict(
    problem: &Problem,
    parts: &[Part],
    patience: u32,
    go_on: &mut dyn FnMut() -> bool,
) -> bool {
    let problem = of_parts(problem, parts);
    searched(&problem, None, MEMORY, patience, go_on) == Outcome::Infeasible
}

/// The problem of some parts, with the tasks that they speak of.
fn of_parts(problem: &Problem, parts: &[Part]) -> Problem {
    let has = |part: Part| parts.contains(&part);
    let mut places = vec![None; problem.tasks().len()];
    let mut tasks: Vec<Task> = Vec::new();
    let mut place_of = |place: usize| {
        *places[place].get_or_insert_with(|| {
            let mut task = problem.tasks()[place].clone();
            task.needs.retain(|&need| has(Part::Need(place, need)));
            task.block = task.block.filter(|block| task.needs.contains(&block.0));
            task.state = task.state.filter(|_| task.block.is_some());
            task.latest = task.latest.filter(|_| has(Part::Latest(place)));
            if !has(Part::Earliest(place)) {
                task.earliest = 0;
            }
            tasks.push(task);
            tasks.len() - 1
        })
    };
    let (mut links, mut stays): (Vec<Link>, Vec<Stay>) = Default::default();
    for &part in parts {
        match part {
            Part::Stay(nth) => {
                let stay = problem.stays()[nth];
                let mut moved = |edge: Edge| edge.task().map_or(edge, |t| edge.with(place_of(t)));
                let (from, to) = (moved(stay.from), moved(stay.to));
                stays.push(Stay { from, to, ..stay });
            }
            Part::Need(place, _) | Part::Earliest(place) | Part::Latest(place) => {
                place_of(place);
            }
            Part::Least(nth) | Part::Most(nth) => {
                let link = problem.links()[nth];
                let both = has(Part::Least(nth)) && has(Part::Most(nth));
                // Where both count, the link was told with the first.
                if both && part == Part::Most(nth) {
                    continue;
                }
                links.push(Link {
                    from: place_of(link.from),
                    to: place_of(link.to),
                    least: if part == Part::Most(nth) {
                        ANY
                    } else {
                        link.least
                    },
                    most: link.most.filter(|_| both || part == Part::Most(nth)),
                });
            }
        }
    }
    let capacities = problem.capacities().to_vec();
    Problem {
        tasks,
        links,
        capacities,
        stays,
        follows: Follows::default(),
    }
}
