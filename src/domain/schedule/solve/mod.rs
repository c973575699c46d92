//! The best schedule of tasks with links and resources, proven.

mod arcs;
mod best;
mod clauses;
mod engine;
mod gaps;
mod learn;
mod model;
mod one;
mod problem;
mod search;
mod several;
mod shift;
mod side;
mod trail;
mod why;

use model::Model;
pub use problem::{Link, Problem, Task, Wrong};
pub use why::{Part, why_infeasible};

/// A start for every task, in their order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Schedule {
    /// The minute at which each task starts.
    pub starts: Vec<i32>,
    /// The minute at which the last one has ended.
    pub end: i32,
}

/// What is known of a problem.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Outcome {
    /// A schedule than which none ends sooner: proven.
    Optimal(Schedule),
    /// There is no schedule: proven. [`why_infeasible`] says why.
    Infeasible,
    /// Patience came to an end before the proof.
    BestFound {
        /// The best schedule so far.
        best: Option<Schedule>,
        /// No schedule ends sooner than at this minute.
        bound: i32,
    },
}

/// The schedule that ends soonest, with everything as early as its order allows.
///
/// The same problem always has the same answer. A schedule from `before` is kept as it is where none
/// ends sooner, and otherwise its orders are tried first; it need not fit the problem any more.
/// `go_on` is asked at every conflict, thousands of times a second, and ends the search with "no".
#[must_use]
pub fn solve(
    problem: &Problem,
    before: Option<&[i32]>,
    go_on: &mut dyn FnMut() -> bool,
) -> Outcome {
    let Ok(mut model) = Model::new(problem) else {
        return Outcome::Infeasible;
    };
    let before = before.filter(|starts| starts.len() == problem.tasks().len());
    if let Some(starts) = before {
        model.lean_to(starts);
    }
    let fits = before.filter(|starts| problem.holds(starts));
    model.best(fits.map(|starts| Schedule::new(problem, starts)), go_on)
}
