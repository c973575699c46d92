//! The same from the other end: everything as late as a table at a moment allows.
//!
//! Time is mirrored at that moment: what ended there starts, every link goes the other way, and the
//! soonest end is the latest beginning. So the same search proves it.

use crate::schedule::solve::{Link, Problem, Stay, Task};

/// A problem whose minutes count back from minute `horizon` of another one, by which all of that must
/// have ended; `None` where something in it can't.
pub(crate) fn mirrored(problem: &Problem, horizon: i32) -> Option<Problem> {
    let mirror = |task: &Task| {
        let latest = horizon - task.earliest - task.minutes;
        let earliest = task
            .latest
            .map_or(0, |latest| horizon - latest - task.minutes);
        if task.counts {
            return (latest >= 0).then(|| Task {
                earliest: earliest.max(0),
                latest: Some(latest),
                ..task.clone()
            });
        }
        // What lies beyond is of no matter any more.
        let end = (latest + task.minutes).max(0);
        let start = latest.clamp(0, end);
        Some(Task {
            block: task.block,
            ..Task::away(start, end - start, &task.needs)
        })
    };
    let tasks = problem
        .tasks()
        .iter()
        .map(mirror)
        .collect::<Option<Vec<_>>>()?;
    let links = problem.links().iter().map(|link| Link {
        from: link.to,
        to: link.from,
        ..*link
    });
    let stays = problem.stays().iter().map(|stay| Stay {
        from: stay.to.mirrored(),
        to: stay.from.mirrored(),
        ..*stay
    });
    let stays = stays.collect();
    let mirrored = Problem::new(tasks, links.collect(), problem.capacities().to_vec());
    mirrored.and_then(|problem| problem.with_stays(stays)).ok()
}

/// Starts of a mirrored problem, in the minutes of its original; and the other way round.
pub(crate) fn mirror(problem: &Problem, horizon: i32, starts: &[i32]) -> Vec<i32> {
    let both = problem.tasks().iter().zip(starts);
    both.map(|(task, start)| horizon - start - task.minutes)
        .collect()
}
