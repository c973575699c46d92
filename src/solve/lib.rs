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
//! 1. `gaps` closes the links; what they decide is decided (`settled`), and the rest told to the engine (`model`).
//! 2. What follows from bounds and orders is drawn until nothing does (`engine`): along `arcs`, from
//!    `clauses`, from a resource of which there is `one` (edge finding), or `several` (time-tabling).
//! 3. Tasks start as early as they can. Where two meet that may not, `search` decides their order.
//! 4. Where something can't be, `learn` finds a clause that would have told so sooner.
//! 5. `best` asks for ends between what is proven too short and what was found.
//! 6. Of the schedules that end then, [`least_waiting`] finds one that waits least, if it is asked, and
//!    [`fewer_switches`] looks for one of these in which attention switches less often.
//!
//! A resource can be kept for *blocks* of tasks ([`Task::block`]): every two tasks of two blocks share
//! one yes or no, that of the blocks, so that one decision puts a whole block before the other
//! (`model`). Two blocks can lie within each other though no two of their tasks meet; then `search`
//! decides their order like that of two tasks that do.
//!
//! # Words
//!
//! | here | in the field |
//! |---|---|
//! | half; fact | one direction of a variable, its lower bound; bound literal |
//! | given, at level nothing | true at the root |
//! | what follows, `follow_all` | propagation |
//! | to tell, `Reason`, `explain` | lazy explanation |
//! | clash; lesson | conflict; learnt clause (nogood, first unique implication point) |
//! | `activity`, `step`, `DECAY` | the same (exponential VSIDS) |
//! | leaning | saved phase, with a solution's as the first one |
//! | spread | LBD, the number of levels of a clause |
//! | attempt | the time between two restarts |
//! | to take up a clause | a lazily added clause of the model |
//! | to tidy | clause database reduction |
//! | side | a rule asked of time and of time mirrored |
//! | calm | the least weighted sum of lags |
//!
//! # A schedule from before
//!
//! Most problems are those of a minute ago with other lengths. So what was planned before is pushed, in its order, to where
//! it can stand now (`shift`), and if the longest way through the links is as long, it is the best and nothing is built.
//! Otherwise its end is a bound: an end one minute sooner is asked for, which decides most orders at once, or contradicts
//! itself there and then. Where nothing is known, an end not far beyond that longest way is a guess that decides as much:
//! what is found within it is the best there is, and what isn't is looked for without it.
//!
//! # A conflict
//!
//! Knead (10 min), shape (20) and wash up (15) need the hands; shaping starts at most 10 min after
//! kneading ends. The question is for an end by minute 45 (level 1). All start as early as they can:
//! knead at 0, shape at 10, wash at 0. Knead and wash meet, so an order is decided, say "knead before
//! wash" (level 2), which moves wash to 10. There it meets shape. Say "wash before shape" is decided
//! (level 3): shape moves to 25, so knead, by the greatest lag, to 5, so wash to 15, shape to 30 and so
//! on without an end. `arcs` sees the circle when a push comes round to where it began. The clash is of
//! the facts that put its arcs into force: "knead before wash" and "wash before shape".
//!
//! Of the last level only the second takes part, so nothing has to be traced back further: the clause
//! that is learnt is "shape before wash, or wash before knead". The search goes back to level 2, where
//! its second half is false, so its first follows at once: knead at 0, shape at 10, wash at 30, which
//! ends at 45. That wash can't lie between has nothing to do with minute 45: the clause stays for
//! whatever is asked next.
//!
//! # Invariants
//!
//! - Every fact on the trail but a decision follows from facts before it and from the problem; so
//!   every clause that is learnt follows from the problem alone. An end that is asked for is a
//!   decision, too: what is learnt while it is tried stays true for the next one. (What `waiting`
//!   learns rests on the best that it has found as well, and says so.)
//! - A schedule is "optimal" when its end is the bound that holds without any decision. Nothing else
//!   is called so.
//! - There is no clock and no chance in it: the same problem has the same answer, and how long it may
//!   take is counted in what costs (`goes_on`) by whoever asks.
//! - Arithmetic stays within 32 bits, since [`Problem::new`] refuses what isn't of a kitchen's size.
//!   Starts that somebody brings can be any numbers, and are judged in 64 (`holds`).

mod alike;
mod arcs;
mod attention;
mod best;
mod calm;
mod clauses;
mod engine;
mod flow;
mod gaps;
mod holds;
mod learn;
mod least;
mod model;
mod one;
mod problem;
mod refused;
mod room;
mod search;
mod settled;
mod several;
mod shift;
mod side;
mod trail;
mod waiting;
mod why;

use alike::like_orders;
pub use attention::{fewer_switches, switches};
pub use calm::{Calm, least_waiting_in_order};
use least::least_by_work;
use model::Model;
pub use problem::{Link, Problem, Task};
pub use refused::ProblemError;
pub use room::{Edge, Stay};
use settled::Settled;
pub use shift::earlier;
use shift::{earliest, in_order_of};
pub use waiting::{least_waiting, least_waiting_within};
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

/// What parts of the bound that links and work set are put on top of it, to be asked for one after the other where nothing is
/// known of the end. What is asked for in vain is mostly ruled out before anything is searched.
const NEAR: [i32; 2] = [8, 2];
/// How many conflicts all of that may take.
const HOPE: u32 = 500;
/// Of how many pairs of tasks as much is reckoned as in one turn of the engine's work.
const SET_UP: usize = 800;

/// The schedule that ends soonest, with everything as early as its order allows.
///
/// The same problem always has the same answer. A schedule from `before` is kept as it is, whatever
/// waits in it, where none ends sooner, and otherwise its orders are tried first; it need not fit the
/// problem any more.
/// `go_on` is asked once for about as much work each, some five or ten thousand times a second on a fast machine, however that is
/// spent; and ends the search with "no", but for a little more where there is no schedule yet.
#[must_use]
pub fn solve(
    problem: &Problem,
    before: Option<&[i32]>,
    go_on: &mut dyn FnMut() -> bool,
) -> Outcome {
    solve_within(problem, before, model::MEMORY, go_on)
}

/// The same with a limit to how much is remembered: how many clauses are borne before half of them are
/// thrown away. What is forgotten may have to be learnt again, but nothing is proven that is not so: the end is the same, though perhaps of another schedule.
#[must_use]
pub fn solve_within(
    problem: &Problem,
    before: Option<&[i32]>,
    memory: usize,
    go_on: &mut dyn FnMut() -> bool,
) -> Outcome {
    searched(problem, before, memory, u32::MAX, go_on)
}

/// The same, with so many conflicts at most.
fn searched(
    problem: &Problem,
    before: Option<&[i32]>,
    memory: usize,
    mut conflicts: u32,
    go_on: &mut dyn FnMut() -> bool,
) -> Outcome {
    let before = before.filter(|starts| starts.len() == problem.tasks().len());
    let mut known = before.and_then(|starts| Schedule::known(problem, starts));
    // Mostly the longest way through the links decides when a kitchen is done, and no order.
    let Some(heads) = earliest(problem, &problem.arcs()) else {
        return Outcome::Infeasible;
    };
    let mut least = problem.makespan(&heads);
    for by_work in [false, true] {
        if by_work {
            least = least.max(least_by_work(problem, &heads));
        }
        if let Some(known) = &known
            && known.end <= least
        {
            return Outcome::Optimal(known.clone());
        }
    }
    // Where nothing has a greatest lag, the first order that comes to mind may end as soon as can be.
    if known.is_none() && problem.links().iter().all(|link| link.most.is_none()) {
        let found = in_order_of(problem, &heads);
        if let Some(found) = found.filter(|found| found.end <= least) {
            return Outcome::Optimal(found);
        }
    }
    // The nearer an end lies that is asked for, the less is left to be searched.
    let (bound, mut guesses, mut hope) = (least, NEAR.iter(), HOPE);
    let orders = like_orders(problem, before);
    let is_asked_for_all = conflicts == u32::MAX;
    loop {
        let mut goes_on = may_set_up(problem, go_on);
        if !goes_on && (known.is_some() || !is_asked_for_all) {
            let best = known;
            return Outcome::BestFound { best, bound: least };
        }
        let guess = match known {
            None if hope > 0 => guesses.next().map(|part| bound + bound / part),
            _ => None,
        };
        let is_guess = guess.is_some();
        let by = known.as_ref().map(|known| known.end - 1).or(guess);
        let settled = Settled::new(problem, by, least, &orders);
        let model = settled.and_then(|settled| Model::new(problem, &settled).ok());
        let most = if is_guess {
            hope.min(conflicts)
        } else {
            conflicts
        };
        let mut left = most;
        let found = model.map_or(Outcome::Infeasible, |mut model| {
            model.memory = memory;
            if let Some(starts) = before {
                model.lean_to(starts);
            }
            model.best(known.clone(), &mut left, &mut || {
                goes_on = go_on();
                goes_on
            })
        });
        conflicts -= most - left;
        hope -= (most - left).min(hope);
        match found {
            Outcome::Infeasible if is_guess => least = least.max(by.map_or(least, |by| by + 1)),
            Outcome::BestFound { best, .. }
                if is_guess && (goes_on || best.is_none()) && conflicts > 0 =>
            {
                known = best;
            }
            Outcome::Infeasible => return known.map_or(Outcome::Infeasible, Outcome::Optimal),
            found => return found,
        }
    }
}

/// Whether to go on with what is done before any search, asked as often as for as much work of the engine.
fn may_set_up(problem: &Problem, go_on: &mut dyn FnMut() -> bool) -> bool {
    (0..=problem.tasks().len().pow(2) / SET_UP).all(|_| go_on())
}
