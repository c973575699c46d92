//! Of the schedules that end as soon and wait as little, one that asks for fewer switches of attention.
//!
//! Work is of kinds, and going from one kind to another costs thought. The order of the work is changed
//! a piece at a time: what is one kind with the work before a switch is put there from farther on, or
//! what is one kind with the work behind it from farther back, alone or with the work of its kind next
//! to it. An order that can't end in time falls by the arcs alone; of any other the two goals that
//! come before this one are reckoned exactly, and it counts only if neither gets worse. So the answer
//! is never worse than the schedule at hand, but it isn't proven that none has fewer switches.

use super::calm::Calm;
use super::problem::{Link, Problem};
use super::shift::earliest;
use super::waiting::least_waiting;
use super::{Outcome, solve};

/// How many orders are reckoned exactly, at most: each costs about as much as the schedule itself.
const TRIED: usize = 40;
/// How many orders are looked at, the nearest to the one at hand first.
const LOOKED_AT: usize = 1_000;

/// How often attention goes from one kind of work to another. `kind` is nothing for what takes none.
#[must_use]
pub fn switches(starts: &[i32], kind: &dyn Fn(usize) -> Option<usize>) -> usize {
    count(&in_order(starts, kind), kind)
}

/// A schedule as good as a calm one, with fewer switches of attention where one is found.
///
/// `weights` are those with which it waits least; `go_on` is asked as in [`solve`].
#[must_use]
pub fn fewer_switches(
    problem: &Problem,
    calm: Calm,
    weights: &[u16],
    kind: &dyn Fn(usize) -> Option<usize>,
    go_on: &mut dyn FnMut() -> bool,
) -> Calm {
    let mut best = calm;
    if !problem.holds(&best.schedule.starts) {
        return best;
    }
    let mut left = TRIED;
    // Every round has fewer switches than the one before.
    loop {
        let order = in_order(&best.schedule.starts, kind);
        let is_now = count(&order, kind);
        let mut others = regrouped(&order, kind).into_iter().take(LOOKED_AT);
        let better = others.find_map(|other| {
            if count(&other, kind) >= is_now || !can_end(problem, &other, best.schedule.end) {
                return None;
            }
            left = left.checked_sub(1)?;
            as_good(problem, &other, &best, weights, go_on)
        });
        match better {
            Some(better) => best = better,
            None => return best,
        }
    }
}

/// What takes attention, in its order.
fn in_order(starts: &[i32], kind: &dyn Fn(usize) -> Option<usize>) -> Vec<usize> {
    let mut order: Vec<usize> = (0..starts.len()).collect();
    order.retain(|&task| kind(task).is_some());
    order.sort_by_key(|&task| (starts[task], task));
    order
}

fn count(order: &[usize], kind: &dyn Fn(usize) -> Option<usize>) -> usize {
    let pairs = order.windows(2);
    pairs.filter(|pair| kind(pair[0]) != kind(pair[1])).count()
}

/// Orders with one stretch of a kind put next to another of it.
fn regrouped(order: &[usize], kind: &dyn Fn(usize) -> Option<usize>) -> Vec<Vec<usize>> {
    let mut found = Vec::new();
    // Where a stretch of one kind begins, and where the last one ends.
    let mut ends: Vec<usize> = (1..order.len())
        .filter(|&at| kind(order[at - 1]) != kind(order[at]))
        .collect();
    ends.insert(0, 0);
    ends.push(order.len());
    let stretches = ends.len().saturating_sub(1);
    for (first, second) in pairs(stretches) {
        if found.len() >= LOOKED_AT {
            break;
        }
        let [start, end, from, to] = [ends[first], ends[first + 1], ends[second], ends[second + 1]];
        if kind(order[start]) != kind(order[from]) {
            continue;
        }
        let (one, between, other) = (&order[start..end], &order[end..from], &order[from..to]);
        let mut around = |middle: &[&[usize]]| {
            let parts = [&order[..start], &middle.concat(), &order[to..]];
            found.push(parts.concat());
        };
        // Both among what lies between them: before, within or behind it.
        for cut in 0..=between.len() {
            around(&[&between[..cut], one, other, &between[cut..]]);
            around(&[&between[..cut], other, one, &between[cut..]]);
        }
        // A part of either may be able to move where all of it isn't.
        for cut in 1..other.len() {
            around(&[one, &other[..cut], between, &other[cut..]]);
        }
        for cut in 1..one.len() {
            around(&[&one[..cut], between, &one[cut..], other]);
        }
    }
    found
}

/// Every two places of so many, the nearest first.
fn pairs(count: usize) -> Vec<(usize, usize)> {
    let mut pairs = Vec::new();
    for apart in 1..count {
        pairs.extend((apart..count).map(|second| (second - apart, second)));
    }
    pairs
}

/// Whether an order of work ends by a minute, as far as links and windows go.
fn can_end(problem: &Problem, order: &[usize], end: i32) -> bool {
    let tasks = problem.tasks();
    let mut arcs = problem.arcs();
    for pair in order.windows(2) {
        arcs.push((pair[0], pair[1], tasks[pair[0]].minutes));
    }
    let fits = |(task, &start): (&super::Task, &i32)| {
        let in_time = !task.counts || start + task.minutes <= end;
        in_time && task.latest.is_none_or(|latest| start <= latest)
    };
    earliest(problem, &arcs).is_some_and(|starts| tasks.iter().zip(&starts).all(fits))
}

/// The schedule with that order of work that waits least, if it is as good as the best so far.
fn as_good(
    problem: &Problem,
    order: &[usize],
    best: &Calm,
    weights: &[u16],
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Calm> {
    let mut links = problem.links().to_vec();
    links.extend(order.windows(2).map(|pair| Link {
        from: pair[0],
        to: pair[1],
        least: 0,
        most: None,
    }));
    let ordered = problem.with_links(links).ok()?;
    let schedule = match solve(&ordered, None, go_on) {
        Outcome::Optimal(schedule) => schedule,
        Outcome::BestFound { best, .. } => best?,
        Outcome::Infeasible => return None,
    };
    if schedule.end > best.schedule.end {
        return None;
    }
    let calm = least_waiting(&ordered, &schedule, weights, go_on);
    (calm.waiting <= best.waiting).then_some(Calm {
        is_proven: best.is_proven,
        ..calm
    })
}
