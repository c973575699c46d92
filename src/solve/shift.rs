//! Schedules with everything as early as an order allows.
//!
//! The order is that of any two that hold the same thing one after the other. The earliest
//! starts that keep it are unique, and keep within every capacity: tasks that meet in them met
//! before, all at one minute. Doing it again changes nothing. A plan that lets things wait on purpose
//! is changed by it, though, so one from before isn't moved unless that lets it end sooner.

use super::Schedule;
use super::problem::Problem;
use super::room::{holders, is_shared, may_meet};
use super::side::Holder;

/// From, to, and the least number of minutes between two starts.
pub(super) type Between = (usize, usize, i32);

/// The earliest starts of a schedule's order, none of them before a minute that the schedule doesn't
/// begin before either.
#[must_use]
pub fn earlier(problem: &Problem, starts: &[i32], from: i32) -> Vec<i32> {
    let tasks = problem.tasks();
    let mut arcs = problem.arcs();
    arcs.extend(order(problem, starts, true));
    let mut found: Vec<i32> = tasks.iter().map(|task| task.earliest.max(from)).collect();
    // The starts at hand keep every arc, so this ends before it comes past them.
    while push(&mut found, &arcs) {}
    found
}

/// The earliest starts that keep differences and first minutes, whatever the last ones are; `None` where the
/// differences go round in a circle that grows.
pub(super) fn earliest(problem: &Problem, arcs: &[Between]) -> Option<Vec<i32>> {
    let tasks = problem.tasks();
    let mut found: Vec<i32> = tasks.iter().map(|task| task.earliest).collect();
    // A longest way passes every task once at most.
    let settles = (0..=tasks.len()).any(|_| !push(&mut found, arcs));
    settles.then_some(found)
}

/// Whether anything had to be pushed.
pub(super) fn push(starts: &mut [i32], arcs: &[Between]) -> bool {
    let mut more = false;
    for &(from, to, minutes) in arcs {
        if starts[to] < starts[from] + minutes {
            starts[to] = starts[from] + minutes;
            more = true;
        }
    }
    more
}

/// What an order asks for beside the links: of what there is one, that it is held in the order of those starts, and of
/// anything else, that who had it after another has it after them again.
pub(super) fn order_of(problem: &Problem, starts: &[i32]) -> Vec<Between> {
    order(problem, starts, false)
}

/// The same; where starts are to be kept `as_they_are`, also of what there is one only what comes after another is told, since
/// a time away beyond a table stands anywhere.
fn order(problem: &Problem, starts: &[i32], as_they_are: bool) -> Vec<Between> {
    let mut arcs = Vec::new();
    for (resource, &capacity) in problem.capacities().iter().enumerate() {
        let mut holders = holders(problem, resource);
        // What lasts no time at all comes before who begins at its minute.
        holders.sort_by_key(|holder| (holder.from.at(starts), holder.to.at(starts)));
        let is_shared = capacity == 1 && is_shared(problem, resource, &holders);
        for (nth, first) in holders.iter().enumerate() {
            // Those that it shares it with come in any order.
            let may_share =
                |second: &Holder| is_shared && may_meet(problem, resource, *first, *second);
            let is_one = capacity == 1 && !as_they_are;
            // What comes after one of those that come after it needn't be told.
            let mut until = i32::MAX;
            for second in &holders[nth + 1..] {
                if second.from.at(starts) >= until {
                    break;
                }
                let follows = match is_one {
                    true => !may_share(second),
                    false => first.to.at(starts) <= second.from.at(starts),
                };
                if !follows {
                    continue;
                }
                arcs.extend(arc(first, second));
                if is_one && !is_shared {
                    break;
                }
                if capacity == 1 && as_they_are {
                    until = until.min(second.to.at(starts));
                }
            }
        }
    }
    arcs
}

/// That one has ended when another begins; nothing where no task could move for it.
fn arc(first: &Holder, second: &Holder) -> Option<Between> {
    let minutes = first.to.minutes - second.from.minutes;
    Some((first.to.task()?, second.from.task()?, minutes))
}

/// The schedule in the order of starts that may not fit any more, if there is one.
pub(super) fn in_order_of(problem: &Problem, starts: &[i32]) -> Option<Schedule> {
    let mut arcs = problem.arcs();
    arcs.extend(order_of(problem, starts));
    let starts = earliest(problem, &arcs).filter(|starts| problem.holds(starts))?;
    let end = problem.makespan(&starts);
    Some(Schedule { starts, end })
}
