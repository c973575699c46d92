//! Every start of every task, one after the other.

use domain::schedule::solve::{Link, Problem};

/// The least end of any schedule, found by trying all; of a few tasks of a few minutes.
pub(super) fn least_end(problem: &Problem) -> Option<i32> {
    let lags = problem.links().iter().map(|link| link.least.max(0));
    let first = problem.tasks().iter().map(|task| task.earliest).max();
    let minutes = problem.tasks().iter().map(|task| task.minutes);
    let horizon = minutes.sum::<i32>() + lags.sum::<i32>() + first.unwrap_or(0);
    let mut best = None;
    place(problem, horizon, &mut Vec::new(), &mut best);
    best
}

fn place(problem: &Problem, horizon: i32, starts: &mut Vec<i32>, best: &mut Option<i32>) {
    let Some(task) = problem.tasks().get(starts.len()) else {
        let end = problem.makespan(starts);
        if problem.holds(starts) && best.is_none_or(|best| end < best) {
            *best = Some(end);
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
            place(problem, horizon, starts, best);
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
