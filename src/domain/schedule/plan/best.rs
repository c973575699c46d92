//! Of the schedules that end soonest the one in which least that suffers from it has to wait, and of
//! these one that keeps what was planned before where it can, or else with few switches of attention.

use super::backwards::{mirror, mirrored};
use super::keep::put_back;
use super::tasks::Tasks;
use crate::schedule::solve::{Outcome, Problem, Schedule, fewer_switches, least_waiting, solve};

/// The best schedule that was found.
pub(super) struct Best {
    pub starts: Vec<i32>,
    /// No schedule ends before this minute.
    pub bound: i32,
    /// When it ends itself.
    pub end: i32,
}

/// The schedule that ends soonest, and of these the one that waits least; `None` where there is none.
pub(super) fn calmest(
    problem: &Problem,
    tasks: &Tasks,
    before: &[i32],
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Best> {
    let (schedule, bound) = match solve(problem, Some(before), go_on) {
        Outcome::Optimal(schedule) => {
            let end = schedule.end;
            (schedule, end)
        }
        Outcome::BestFound { best, bound } => (best?, bound),
        Outcome::Infeasible => return None,
    };
    // A plan that is as good as any stays as it is.
    let stays = problem.holds(before) && problem.makespan(before) == schedule.end;
    let at_hand = if stays {
        Schedule {
            starts: before.to_vec(),
            end: schedule.end,
        }
    } else {
        schedule
    };
    let mut calm = least_waiting(problem, &at_hand, &tasks.weights, go_on);
    // Looked for once: a plan from before has its order, and keeps to it where it can.
    if !tasks.are_known {
        let kinds = tasks.kinds_of_work();
        let kind = |task: usize| kinds[task];
        calm = fewer_switches(problem, calm, &tasks.weights, &kind, go_on);
    }
    let mut starts = calm.schedule.starts;
    put_back(problem, &tasks.weights, before, &mut starts);
    Some(Best {
        end: calm.schedule.end,
        starts,
        bound,
    })
}

/// The schedule that begins as late as it can and has ended by minute `horizon`, and of these the one
/// that waits least; `None` where none ends by then.
pub(super) fn latest(
    problem: &Problem,
    tasks: &Tasks,
    horizon: i32,
    before: &[i32],
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Best> {
    let turned = mirrored(problem, horizon)?;
    let before = mirror(problem, horizon, before);
    let best = calmest(&turned, tasks, &before, go_on)?;
    Some(Best {
        starts: mirror(problem, horizon, &best.starts),
        ..best
    })
}
