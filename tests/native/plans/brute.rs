//! Every start of every task, one after the other.

use domain::schedule::solve::{Link, Problem, switches};

/// The least end of any schedule, found by trying all; of a few tasks of a few minutes.
pub(super) fn least_end(problem: &Problem) -> Option<i32> {
    let mut best = None;
    place(problem, horizon(problem), &mut Vec::new(), &mut |starts| {
        let end = problem.makespan(starts);
        best = Some(best.map_or(end, |best| end.min(best)));
    });
    best
}

/// The least waiting of any schedule that has ended by then, found by trying all.
pub(super) fn least_waiting(problem: &Problem, weights: &[u16], end: i32) -> Option<i64> {
    let mut best = None;
    place(problem, horizon(problem), &mut Vec::new(), &mut |starts| {
        if problem.makespan(starts) <= end {
            let waits = waiting(problem, weights, starts);
            best = Some(best.map_or(waits, |best| waits.min(best)));
        }
    });
    best
}

/// The fewest switches of attention of any schedule that has ended by then and waits no more.
pub(super) fn fewest_switches(
    problem: &Problem,
    weights: &[u16],
    (end, waits): (i32, i64),
    kind: &dyn Fn(usize) -> Option<usize>,
) -> Option<usize> {
    let mut best = None;
    place(problem, horizon(problem), &mut Vec::new(), &mut |starts| {
        if problem.makespan(starts) <= end && waiting(problem, weights, starts) <= waits {
            let found = switches(starts, kind);
            best = Some(best.map_or(found, |best| found.min(best)));
        }
    });
    best
}

/// The weighted lags of a schedule.
pub(super) fn waiting(problem: &Problem, weights: &[u16], starts: &[i32]) -> i64 {
    let links = problem.links().iter().zip(weights);
    let waits = links.map(|(link, &weight)| {
        let minutes = problem.tasks()[link.from].minutes;
        i64::from(weight) * i64::from(starts[link.to] - starts[link.from] - minutes)
    });
    waits.sum()
}

fn horizon(problem: &Problem) -> i32 {
    // Below nothing, a greatest lag keeps the first of the two waiting.
    let lag = |link: &Link| link.least.max(-link.most.unwrap_or(0)).max(0);
    let lags = problem.links().iter().map(lag);
    let first = problem.tasks().iter().map(|task| task.earliest).max();
    let minutes = problem.tasks().iter().map(|task| task.minutes);
    minutes.sum::<i32>() + lags.sum::<i32>() + first.unwrap_or(0)
}

fn place(problem: &Problem, horizon: i32, starts: &mut Vec<i32>, found: &mut dyn FnMut(&[i32])) {
    let Some(task) = problem.tasks().get(starts.len()) else {
        if problem.holds(starts) {
            found(starts);
        }
        return;
    };
    for start in task.earliest..=task.latest.unwrap_or(horizon).min(horizon) {
        starts.push(start);
        if problem
            .links()
            .iter()
            .all(|link| may_keep(problem, link, starts))
        {
            place(problem, horizon, starts, found);
        }
        starts.pop();
    }
}

/// Whether a link is kept, as far as both of its tasks are placed.
fn may_keep(problem: &Problem, link: &Link, starts: &[i32]) -> bool {
    let (Some(from), Some(to)) = (starts.get(link.from), starts.get(link.to)) else {
        return true;
    };
    let lag = to - from - problem.tasks()[link.from].minutes;
    lag >= link.least && link.most.is_none_or(|most| lag <= most)
}
