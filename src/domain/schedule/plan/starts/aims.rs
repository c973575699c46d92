//! The ends that a plan brings about, one after the other.
//!
//! Breads for one table are ready when the last of them is, and that is one end; once that is as soon as it can be,
//! so is each of them, that none of it is left to chance. Breads for several tables
//! have one each, and they come in the order of the tables: none is ready later for the sake of one that
//! is wished later, unless it can be and still be in time. Each is proven to be the soonest, once those
//! before it come when they do.

use super::let_go::MORE;
use crate::schedule::plan::tasks::Tasks;
use crate::schedule::plan::what::What;
use crate::schedule::solve::{Outcome, Problem, Schedule, Task, solve};
use crate::units::Moment;

/// An end to bring about.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Aim {
    /// By task: whether it has to have ended.
    of: Vec<bool>,
    /// The minute by which that is soon enough, where something else wants the hands.
    by: Option<i32>,
}

impl Aim {
    /// When it is soon enough, if it ends then.
    fn enough(&self, end: i32) -> i32 {
        self.by.map_or(end, |by| end.max(by))
    }

    pub(crate) fn is_of(&self, task: usize) -> bool {
        self.of[task]
    }

    /// Whether it is later than has to be by a schedule.
    pub(crate) fn is_late(&self, problem: &Problem, starts: &[i32]) -> bool {
        let by = self.by;
        by.is_some_and(|by| ended(problem.tasks(), &self.of, starts) > by)
    }
}

/// A problem in which every end that a schedule brings about comes soon enough; `None` where none has time to spare.
pub(crate) fn soon_enough(problem: &Problem, aims: &[Aim], starts: &[i32]) -> Option<Problem> {
    let (mut enough, mut spares) = (problem.clone(), false);
    for aim in aims {
        let end = ended(problem.tasks(), &aim.of, starts);
        let by = aim.enough(end);
        spares |= by > end;
        enough = enough.ending_with(&aim.of).ended_by(by);
    }
    spares.then_some(enough)
}

/// A schedule that brings ends about.
pub(crate) struct Met {
    /// The problem, in which all ends but the last have become deadlines.
    pub problem: Problem,
    pub schedule: Schedule,
    /// By how much one of them may be later than it has to be.
    pub short_by: i32,
}

/// How good a schedule is, the less the better: how much of what waits too long, which tables are missed and by when
/// each is kept instead, and when everything that is aimed at ends.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Worth {
    over: usize,
    late: Option<Vec<i32>>,
    ends: Vec<i32>,
}

impl Worth {
    pub(crate) fn lets_wait(&self) -> bool {
        self.over > 0
    }

    /// Whether it is better. Nothing waits too long where it needn't; but where something has to, minutes of that aren't worth
    /// an hour of an end.
    pub(crate) fn beats(&self, other: &Self) -> bool {
        let ends = |of: &Self| (of.late.clone(), of.ends.clone());
        self < other && (!self.lets_wait() || !other.lets_wait() || ends(self) <= ends(other))
    }
}

impl Tasks<'_> {
    /// By aim: how much later its end is than its table, with no buffer before that.
    pub(crate) fn ends_late(&self, aims: &[Aim], starts: &[i32]) -> Vec<i32> {
        let late = |aim: &Aim| {
            let mut bakes = self.bakes.iter().enumerate();
            let table = bakes.find_map(|(bake, state)| {
                let mut what = aim.of.iter().zip(&self.what);
                let is_of =
                    |(&of, what): (&bool, &What)| of && what.of().is_some_and(|of| of.0 == bake);
                what.any(is_of).then_some(state.wishes.table?)
            });
            let by = aim.by?.max(table.map_or(0, |table| self.minute(table)));
            Some((ended(&self.tasks, &aim.of, starts) - by).max(0))
        };
        aims.iter().map(|aim| late(aim).unwrap_or(0)).collect()
    }

    pub(crate) fn worth(&self, aims: &[Aim], starts: &[i32]) -> Worth {
        let over = (0..starts.len()).filter_map(|task| self.too_late_by(task, starts));
        let over = over.fold(0.0, |all, over| all + over.get());
        let ends = aims.iter().map(|aim| ended(&self.tasks, &aim.of, starts));
        let ends: Vec<i32> = ends.collect();
        let both = || aims.iter().zip(&ends);
        let is_late = both().any(|(aim, &end)| aim.by.is_some_and(|by| end > by));
        let late = is_late.then(|| both().map(|(aim, &end)| aim.enough(end)).collect());
        Worth {
            // Of minutes more or less an end isn't worth an hour.
            over: MORE.iter().filter(|&&more| over > f64::from(more)).count()
                + usize::from(over > 0.0),
            late,
            ends,
        }
    }

    /// Whether there is a schedule that is better, with nothing let go of.
    pub(crate) fn beats(
        &self,
        than: &Worth,
        aims: &[Aim],
        before: &[i32],
        go_on: &mut dyn FnMut() -> bool,
    ) -> bool {
        let by = than.late.as_ref().unwrap_or(&than.ends).first();
        let (Ok(problem), Some(first), Some(&by)) = (self.problem(), aims.first(), by) else {
            return false;
        };
        // What comes first has to be as good for that: mostly it can't, and nothing has to be searched.
        let problem = problem.ending_with(&first.of).ended_by(by);
        let met = met(&problem, aims, before, go_on);
        met.is_some_and(|met| self.worth(aims, &met.schedule.starts).beats(than))
    }

    /// By how much starts that nothing was proven of end later than any schedule has to.
    pub(super) fn short_of_bound(&self, starts: &[i32]) -> i32 {
        let problem = self.problem().ok();
        let bound = problem.map(
            |problem| match solve(&problem, Some(starts), &mut || false) {
                Outcome::BestFound { bound, .. } => bound,
                Outcome::Optimal(best) => best.end,
                Outcome::Infeasible => 0,
            },
        );
        let all: Vec<bool> = self.tasks.iter().map(|task| task.counts).collect();
        (ended(&self.tasks, &all, starts) - bound.unwrap_or(0)).max(1)
    }

    /// The ends of bakes, of which those that should be ready together are one; after that, each of them alone.
    pub(crate) fn aims(&self, ready_by: &[Option<Moment>]) -> Vec<Aim> {
        let of = |bake: usize| ready_by.get(bake).copied().flatten();
        let mut ends: Vec<Option<Moment>> = (0..self.bakes.len()).map(of).collect();
        // Whatever is for no table comes after what is.
        ends.sort_by_key(|end| (end.is_none(), *end));
        ends.dedup();
        let mut aims = Vec::new();
        for end in ends {
            let together = |bake: &usize| of(*bake) == end;
            let by = end.map(|end| self.minute(end));
            let bakes: Vec<usize> = (0..self.bakes.len()).filter(together).collect();
            aims.push((bakes.clone(), by));
            if bakes.len() > 1 {
                aims.extend(bakes.iter().map(|&bake| (vec![bake], by)));
            }
        }
        self.of_any(aims)
    }

    /// The whole of what can wait, and after that every bake for itself.
    pub(crate) fn all_and_each(&self) -> Vec<Aim> {
        let all: Vec<usize> = (0..self.bakes.len()).collect();
        let mut aims = vec![(all.clone(), None)];
        if all.len() > 1 {
            aims.extend(all.into_iter().map(|bake| (vec![bake], None)));
        }
        // What is on its way lies at the present, and how late all the rest can begin is no matter of that.
        let held: Vec<_> = self.bakes.iter().map(|state| state.held_back()).collect();
        let is_on_its_way = |what: &What| {
            let of = what.of().map(|(bake, step)| (&held[bake], step));
            of.is_some_and(|(held, step)| !held.is_empty() && !held.contains(&step))
        };
        let mut aims = self.of_any(aims);
        for aim in &mut aims {
            for (of, what) in aim.of.iter_mut().zip(&self.what) {
                *of &= !is_on_its_way(what);
            }
        }
        aims
    }

    /// The ends of bakes, without those of which nothing is left.
    fn of_any(&self, aims: Vec<(Vec<usize>, Option<i32>)>) -> Vec<Aim> {
        let aim = |(bakes, by): (Vec<usize>, Option<i32>)| {
            let is_of = |what: &What| what.of().is_some_and(|(bake, _)| bakes.contains(&bake));
            let of = self.what.iter().map(is_of).collect();
            Aim { of, by }
        };
        let aims = aims.into_iter().map(aim);
        aims.filter(|aim| aim.of.contains(&true)).collect()
    }
}

/// Brings ends about; `None` where there is no schedule at all.
pub(crate) fn met(
    problem: &Problem,
    aims: &[Aim],
    before: &[i32],
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Met> {
    let soonest = in_turn(problem, aims, before, &|_, end| end, go_on)?;
    let is_late = |aim: &Aim| aim.is_late(problem, &soonest.schedule.starts);
    if aims.len() < 2 || !aims.iter().any(is_late) {
        return Some(soonest);
    }
    // Those that come first may have taken more than they need.
    let before = soonest.schedule.starts;
    let kept = in_turn(problem, aims, &before, &Aim::enough, go_on)?;
    let mut problem = kept.problem;
    if let Some(last) = aims.last() {
        problem = problem.ended_by(last.enough(kept.schedule.end));
    }
    let mut last = in_turn(&problem, aims, &kept.schedule.starts, &|_, end| end, go_on)?;
    // It is the best within the deadlines that were found before it, and those may have been set too late.
    last.short_by = last.short_by.max(kept.short_by);
    Some(last)
}

/// One after the other as soon as it can be, with what is `enough` for each as the deadline under which those
/// after it are looked for.
fn in_turn(
    problem: &Problem,
    aims: &[Aim],
    before: &[i32],
    enough: &dyn Fn(&Aim, i32) -> i32,
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Met> {
    let mut met = Met {
        problem: problem.clone(),
        schedule: Schedule {
            starts: before.to_vec(),
            end: 0,
        },
        short_by: 0,
    };
    for (place, aim) in aims.iter().enumerate() {
        if place > 0 {
            let end = enough(&aims[place - 1], met.schedule.end);
            met.problem = met.problem.ended_by(end);
        }
        met.problem = met.problem.ending_with(&aim.of);
        met.schedule = match solve(&met.problem, Some(&met.schedule.starts), go_on) {
            Outcome::Optimal(schedule) => schedule,
            Outcome::BestFound { best, bound } => {
                let best = best?;
                met.short_by = met.short_by.max(best.end - bound);
                best
            }
            Outcome::Infeasible => return None,
        };
    }
    Some(met)
}

/// The minute at which some tasks have ended.
fn ended(tasks: &[Task], of: &[bool], starts: &[i32]) -> i32 {
    let both = tasks.iter().zip(starts).zip(of);
    let ends = both.filter_map(|((task, &start), &of)| of.then_some(start + task.minutes));
    ends.max().unwrap_or(0)
}
