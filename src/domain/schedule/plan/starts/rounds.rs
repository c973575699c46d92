//! Lengths and schedule in turn until they rest, and that for every order in which breads can come into one oven.

use std::cell::Cell;

use super::aims::{Aim, Worth};
use super::best::{Best, latest};
use super::let_go::best_that_holds;
use crate::bake::State;
use crate::formula::StepId;
use crate::schedule::plan::lengths::ovens::{Hot, is_shared, reheated};
use crate::schedule::plan::lengths::{Lengths, as_promised, settle};
use crate::schedule::plan::tasks::Tasks;
use crate::schedule::plan::what::What;
use crate::schedule::plan::{Bounds, Goal, Item, Plan, Proven, redone_all};
use crate::units::{Moment, minutes};

/// How often lengths and schedule are reckoned in turn, at most.
const ROUNDS: usize = 8;
/// How often a search is asked whether to go on before what was found is kept for when it can't.
const LONG: u32 = 500;

/// What stays the same from round to round.
pub(crate) struct Rounds<'a> {
    pub bakes: &'a [&'a State],
    pub bounds: Bounds<'a>,
    pub now: Moment,
    /// What was planned before.
    pub promised: &'a [Item],
    /// What the hands are at.
    pub at_work: Option<(usize, StepId)>,
    /// The starts from before that are kept where they are as good as any.
    pub kept: &'a [(What, Moment)],
    /// What begins no later than hands are free for it.
    pub at_once: Vec<(What, Moment)>,
}

/// What a round takes as known, and the next one reckons anew.
#[derive(Clone)]
pub(crate) struct Guess {
    pub was: Vec<(What, Moment)>,
    pub lengths: Vec<Lengths>,
    pub hot: Vec<Hot>,
    /// What waits longer than it should.
    pub lets_wait: Vec<What>,
}

/// Where rounds came to rest.
pub(crate) struct Found {
    pub plan: Plan,
    /// Whether what the hands are at has to give way to something else.
    pub gives_way: bool,
    worth: Worth,
    /// How much less the hands have to spare before a time away than they may be late, in minutes.
    missing: i32,
    /// The guess that came true.
    pub settled: Guess,
}

impl<'a> Rounds<'a> {
    /// The best of what comes to rest, whichever bread has the oven first.
    pub(crate) fn best(&self, guess: Guess, go_on: &mut dyn FnMut() -> bool) -> Option<Found> {
        let mut found = self.settled_from(guess, go_on)?;
        if self.bounds.goal != Goal::Soonest || !is_shared(self.bakes, &found.settled.lengths) {
            return Some(found);
        }
        let (orders, mut is_sure) = self.orders(&found.settled);
        let first = found.settled.hot.clone();
        for other in orders.into_iter().filter(|other| other.hot != first) {
            let mut is_patient = true;
            let go_on = &mut || {
                is_patient &= go_on();
                is_patient
            };
            if self.could_be_better(&other, &found.worth, go_on) {
                let hot = other.hot.len();
                let other = self.settled_from(other, go_on);
                let other = other.filter(|other| {
                    other.worth.beats(&found.worth) && other.missing <= found.missing
                });
                // What was better only with an oven that is hot from bread to bread proves nothing.
                is_sure &= other.as_ref().is_some_and(|o| o.settled.hot.len() == hot);
                found = other.unwrap_or(found);
            }
            is_sure &= is_patient;
        }
        found.plan.as_heated = !is_sure;
        Some(found)
    }

    /// Whether another order can be better by its best, with ovens that are hot from bread to bread and lengths as they are.
    fn could_be_better(
        &self,
        other: &Guess,
        than: &Worth,
        go_on: &mut dyn FnMut() -> bool,
    ) -> bool {
        // Where something waits too long already, how much less it could be takes the whole search.
        if than.lets_wait() {
            return true;
        }
        let tasks = self.tasks(&other.lengths, &other.hot);
        let aims = tasks.aims(self.bounds.ready_by);
        let before = tasks.starts(&other.was);
        tasks.beats(than, &aims, &before, go_on)
    }

    fn tasks<'b>(&'b self, lengths: &'b [Lengths], hot: &[Hot]) -> Tasks<'b> {
        let bounds = &self.bounds;
        let mut tasks = Tasks::new(self.bakes, lengths, self.now);
        for &(from, to) in bounds.closed {
            tasks.close(from, to);
        }
        if let Some((plan, others)) = bounds.beside {
            tasks.leave_room(plan, others);
        }
        for &(from, to) in bounds.rests {
            tasks.rest(from, to);
        }
        for (bake, at) in bounds.not_before.iter().enumerate() {
            if let Some(at) = *at {
                tasks.release(bake, at);
            }
        }
        tasks.spares = bounds.spares && bounds.goal == Goal::Soonest;
        tasks.keep_hot(hot);
        if bounds.pins {
            tasks.pin();
        }
        tasks.take_out();
        if let Some((bake, step)) = self.at_work {
            tasks.go_on_with(bake, step);
        }
        for &(what, at) in &self.at_once {
            tasks.begin_by(what, at);
        }
        tasks
    }

    /// The best of a round, and what it aimed at.
    fn round(
        &self,
        tasks: &mut Tasks,
        before: &[i32],
        go_on: &mut dyn FnMut() -> bool,
    ) -> Option<(Best, Vec<Aim>)> {
        match self.bounds.goal {
            Goal::Soonest => {
                let aims = tasks.aims(self.bounds.ready_by);
                let best = best_that_holds(tasks, &aims, before, go_on)?;
                Some((best, aims))
            }
            Goal::By(table) => {
                for (bake, at) in self.bounds.ready_by.iter().enumerate() {
                    tasks.end_by(bake, at.filter(|&at| at < table));
                }
                let (problem, aims) = (tasks.problem().ok()?, tasks.all_and_each());
                let horizon = tasks.minute(table);
                let best = latest(&problem, tasks, &aims, horizon, before, go_on)?;
                Some((best, aims))
            }
        }
    }

    /// Round after round until nothing changes any more.
    fn settled_from(&self, guess: Guess, go_on: &mut dyn FnMut() -> bool) -> Option<Found> {
        let Guess {
            mut was,
            mut lengths,
            mut hot,
            mut lets_wait,
        } = guess;
        // How often it was asked whether to go on; more than can be where it was said no.
        let asked = Cell::new(0_u32);
        let go_on = &mut || {
            let goes_on = go_on();
            asked.set(if goes_on {
                asked.get().saturating_add(1)
            } else {
                u32::MAX
            });
            goes_on
        };
        let mut found: Option<Found> = None;
        let (mut round, mut short_by) = (0, 0);
        let mut last: Option<(Vec<Lengths>, Vec<Lengths>)> = None;
        loop {
            round += 1;
            let mut tasks = self.tasks(&lengths, &hot);
            // A search backwards only finds out when to begin, and that hangs on no switch of attention.
            let known = if round == 1 { self.kept } else { &was };
            tasks.has_order = self.bounds.goal != Goal::Soonest || tasks.knows(known);
            tasks.lets_wait = lets_wait;
            let before = tasks.starts(&was);
            let Some((mut best, aims)) = self.round(&mut tasks, &before, go_on) else {
                // Where there is no patience left for another round, the one before counts, as it stands by now.
                let mut found = found.filter(|_| asked.get() == u32::MAX)?;
                let short_by = tasks.short_of_bound(&before);
                found.plan.proven = Proven::Short(minutes(f64::from(short_by)));
                return Some(found);
            };
            // The lengths are those of the order that was found before: what wasn't proven then isn't by them.
            short_by = best.short_by.max(short_by);
            best.short_by = short_by;
            was = tasks.moments(&best.starts);
            lets_wait = tasks.late(&best.starts);
            let mut next = redone_all(self.bakes, &lengths, &was, self.now);
            let next_hot = reheated(self.bakes, &mut next, &was, self.now);
            as_promised(self.bakes, &mut next, self.promised, self.now);
            let is_last = round == ROUNDS || tasks.is_as_long(&next);
            if is_last || asked.get() > LONG {
                let work = self.at_work;
                let work = work.and_then(|(bake, step)| tasks.place(What::Step(bake, step)));
                found = Some(Found {
                    plan: tasks.told(&best),
                    gives_way: work.is_some_and(|work| best.starts[work] > tasks.free),
                    worth: tasks.worth(&aims, &best.starts),
                    missing: if tasks.spares {
                        tasks.missing(&best.starts)
                    } else {
                        0
                    },
                    settled: Guess {
                        was: was.clone(),
                        lengths: lengths.clone(),
                        hot: hot.clone(),
                        lets_wait: lets_wait.clone(),
                    },
                });
            }
            if is_last {
                return found;
            }
            let reckoned = next.clone();
            if let Some((lengths_before, reckoned_before)) = &last {
                let used = [&lengths_before[..], &lengths];
                settle(used, reckoned_before, &mut next);
            }
            last = Some((lengths, reckoned));
            (lengths, hot) = (next, next_hot);
        }
    }
}
