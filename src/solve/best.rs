//! The way to the best end, from both sides.
//!
//! Where a schedule is known from before, the first question is whether any ends sooner: mostly none does. Otherwise it is
//! for a schedule as short as the bounds allow, which often is there. After
//! that every question lies between what is known to be too short and the best schedule so far,
//! nearer to the former: a "no" is learnt from, and makes the next one quicker. A question that
//! takes long is left for one that is easier to say yes to, and taken up again with more patience.

use super::model::Model;
use super::problem::Problem;
use super::search::Found;
use super::shift::{earlier, in_order_of};
use super::{Outcome, Schedule};

/// Which part of the way up from what is too short the next question lies.
const STEP: i32 = 8;
/// How many conflicts the first question may take before another one is asked.
const PATIENCE: u32 = 1_000;
/// How many more conflicts it may take, once patience has ended, to find any schedule at all.
const FIRST: u32 = 5_000;

impl Model<'_> {
    /// The least end that isn't known to be too short.
    fn least_end(&self) -> i32 {
        self.engine.trail.root[self.end as usize]
    }

    /// An end by which there is a schedule, if there is any at all.
    pub(super) fn latest_end(&self) -> i32 {
        -self.engine.trail.root[self.end as usize + 1]
    }

    /// The best schedule, if there is patience enough to prove it; `left` are the conflicts that it may take.
    pub(super) fn best(
        &mut self,
        mut best: Option<Schedule>,
        left: &mut u32,
        go_on: &mut dyn FnMut() -> bool,
    ) -> Outcome {
        // Where there is one from before, it is mostly the best still.
        let (mut is_easier, mut patience) = (best.is_some(), PATIENCE);
        let mut goes_on = true;
        loop {
            let least = self.least_end();
            let by = match best {
                Some(best) if best.end <= least => return Outcome::Optimal(best),
                Some(ref best) if is_easier => best.end - 1,
                Some(ref best) => least + (best.end - 1 - least) / STEP,
                None if is_easier => self.latest_end(),
                None => least,
            };
            let (was_on, before) = (goes_on, self.engine.clauses.conflicts());
            let found = self.look(by, patience.min(*left), &mut || {
                goes_on = was_on && go_on();
                goes_on || !was_on
            });
            *left -= (self.engine.clauses.conflicts() - before).min(*left);
            match found {
                Found::Schedule => {
                    best = Some(Schedule::new(self.problem, &self.starts()));
                    self.engine.back_to(0);
                    is_easier = false;
                    if !goes_on {
                        let bound = self.least_end();
                        return Outcome::BestFound { best, bound };
                    }
                }
                Found::TooLate => is_easier = best.is_none(),
                // Models ask for less than what is known.
                Found::Never => return best.map_or(Outcome::Infeasible, Outcome::Optimal),
                Found::Unknown if goes_on && *left > 0 => {
                    is_easier = !is_easier;
                    patience += PATIENCE / 2;
                }
                // A plan that isn't the best is better than none.
                Found::Unknown if was_on && !goes_on && best.is_none() => {
                    (is_easier, patience) = (true, FIRST);
                    *left = FIRST.min(*left);
                }
                Found::Unknown => {
                    let bound = self.least_end();
                    return Outcome::BestFound { best, bound };
                }
            }
        }
    }
}

impl Schedule {
    /// From before: as it is, unless it ends sooner with everything as early as its order allows, or doesn't hold any
    /// more.
    pub(super) fn known(problem: &Problem, starts: &[i32]) -> Option<Self> {
        if !problem.holds(starts) {
            return in_order_of(problem, starts);
        }
        let end = problem.makespan(starts);
        let moved = Self::new(problem, starts);
        if moved.end < end {
            return Some(moved);
        }
        let starts = starts.to_vec();
        Some(Self { starts, end })
    }

    /// With everything as early as its order allows.
    pub(super) fn new(problem: &Problem, starts: &[i32]) -> Self {
        let starts = earlier(problem, starts, 0);
        let end = problem.makespan(&starts);
        Self { starts, end }
    }
}
