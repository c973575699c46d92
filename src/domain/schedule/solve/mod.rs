//! The schedule of tasks with links and resources that ends soonest, proven.
//!
//! Tasks of whole minutes aren't interrupted and hold one unit of each resource they need from their
//! start to just before their end. Links bound the time from the end of one to the start of another,
//! from below and from above. That is the resource-constrained project scheduling problem with
//! generalised precedence relations. To find out whether there is any schedule at all is NP-complete
//! (Bartusch, Möhring & Radermacher 1988): whoever places tasks one after the other breaks a greatest
//! lag nearly always, and whoever tries all orders meets the same contradiction over and over. So the
//! method learns.
//!
//! # Method
//!
//! Lazy clause generation (Ohrimenko, Stuckey & Codish 2009; for this problem Schutt, Feydy, Stuckey &
//! Wallace 2013). Unknown are the bounds of every start and, for every two tasks that may not meet, a
//! yes or no: which comes first.
//!
//! 1. `gaps` closes the links; what they decide is decided (`model`).
//! 2. What follows from bounds and orders is drawn until nothing does (`engine`): along `arcs`, from
//!    `clauses`, from a resource of which there is `one` (edge finding), or `several` (time-tabling).
//! 3. Tasks start as early as they can. Where two meet that may not, `search` decides their order.
//! 4. Where something can't be, `learn` finds a clause that would have told so sooner.
//! 5. `best` asks for ends between what is proven too short and what was found.
//! 6. Of the schedules that end then, [`least_waiting`] finds one that waits least, if it is asked.
//!
//! # Invariants
//!
//! - Every fact on the trail but a decision follows from facts before it and from the problem; so
//!   every clause that is learnt follows from the problem alone. An end that is asked for is a
//!   decision, too: what is learnt while it is tried stays true for the next one.
//! - A schedule is "optimal" when its end is the bound that holds without any decision. Nothing else
//!   is called so.
//! - There is no clock and no chance in it: the same problem has the same answer, and how long it may
//!   take is counted in conflicts by whoever asks.
//! - Arithmetic stays within 32 bits, since [`Problem::new`] refuses what isn't of a kitchen's size.

mod arcs;
mod best;
mod clauses;
mod engine;
mod flow;
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
mod waiting;
mod why;

use model::Model;
pub use problem::{Link, Problem, Task, Wrong};
pub use shift::earlier;
pub use waiting::{Calm, least_waiting};
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
/// `go_on` is asked at every conflict, of which there are some ten thousand a second on a fast machine,
/// and ends the search with "no".
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
