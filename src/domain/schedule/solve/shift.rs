//! A schedule with everything as early as its order allows.
//!
//! The order is that of any two tasks that hold the same thing one after the other. The earliest
//! starts that keep it are unique, and keep within every capacity: tasks that meet in them met
//! before, all at one minute. Doing it again changes nothing. A plan that lets things wait on purpose
//! is changed by it, though, so one from before isn't moved unless that lets it end sooner.

use super::problem::Problem;

/// The earliest starts of a schedule's order, none of them before a minute that the schedule doesn't
/// begin before either.
#[must_use]
pub fn earlier(problem: &Problem, starts: &[i32], from: i32) -> Vec<i32> {
    let tasks = problem.tasks();
    let mut arcs: Vec<(usize, usize, i32)> = problem.arcs();
    for (first, task) in tasks.iter().enumerate() {
        for (second, other) in tasks.iter().enumerate() {
            let shares = || task.needs.iter().any(|need| other.needs.contains(need));
            if first != second
                && starts[first].saturating_add(task.minutes) <= starts[second]
                && shares()
            {
                arcs.push((first, second, task.minutes));
            }
        }
    }
    let mut found: Vec<i32> = tasks.iter().map(|task| task.earliest.max(from)).collect();
    let mut more = true;
    // The starts at hand keep every arc, so this ends before it comes past them.
    while more {
        more = false;
        for &(from, to, minutes) in &arcs {
            if found[to] < found[from] + minutes {
                found[to] = found[from] + minutes;
                more = true;
            }
        }
    }
    found
}
