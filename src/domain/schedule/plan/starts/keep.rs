//! What was planned before stays at its minute where nothing speaks against it.
//!
//! The search knows ends and waiting, and of schedules that are equal in both it gives any. Here what it
//! moved is put back, one task after the other: later ones first where they go back to later, so that each
//! finds the room that it left, and earlier ones first where they go back to earlier. What comes of it is a
//! schedule as good as the one at hand in which no single task can be put back any more; that none moves fewer isn't proven.

use crate::schedule::solve::Problem;

/// Puts tasks of a schedule back to where they started before, as long as it holds, ends no later and waits no longer.
pub(crate) fn put_back(problem: &Problem, weights: &[u16], before: &[i32], starts: &mut [i32]) {
    if before.len() != starts.len() {
        return;
    }
    let end = problem.makespan(starts);
    let mut order: Vec<usize> = (0..starts.len()).collect();
    order.sort_by_key(|&task| before[task]);
    let mut moved = true;
    while moved {
        moved = false;
        let later = order.iter().rev();
        for (&task, is_later) in later
            .map(|task| (task, true))
            .chain(order.iter().map(|task| (task, false)))
        {
            let (is, was) = (starts[task], before[task]);
            if is == was || (was > is) != is_later || !may(problem, weights, starts, task, was) {
                continue;
            }
            starts[task] = was;
            if problem.makespan(starts) <= end && problem.holds(starts) {
                moved = true;
            } else {
                starts[task] = is;
            }
        }
    }
}

/// What is quickly seen: whether a task may start at a minute by its own window and links, and nothing waits longer for it.
fn may(problem: &Problem, weights: &[u16], starts: &[i32], task: usize, minute: i32) -> bool {
    let tasks = problem.tasks();
    let Some(end) = minute.checked_add(tasks[task].minutes) else {
        return false;
    };
    let in_window =
        minute >= tasks[task].earliest && tasks[task].latest.is_none_or(|latest| minute <= latest);
    let mut costs = 0;
    in_window
        && problem.links().iter().enumerate().all(|(nth, link)| {
            let weight = weights.get(nth).copied().map_or(0, i64::from);
            let lag = if link.to == task {
                costs += weight;
                minute - (starts[link.from] + tasks[link.from].minutes)
            } else if link.from == task {
                costs -= weight;
                starts[link.to] - end
            } else {
                return true;
            };
            lag >= link.least && link.most.is_none_or(|most| lag <= most)
        })
        && costs * i64::from(minute - starts[task]) <= 0
}
