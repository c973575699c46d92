//! What a plan lets go of where it can't keep everything.

use super::aims::Aim;
use super::best::{Best, calmest};
use crate::schedule::plan::tasks::{FRIDGE, Tasks};
use crate::schedule::plan::ways::trial::is_patient;
use crate::schedule::plan::what::{RetardPart, What};
use crate::schedule::solve::{Edge, Part, why_infeasible};

/// A greatest lag that can be let go of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Limit {
    /// That of a link.
    Link(usize),
    /// The latest start of a task, after something that has ended.
    Latest(usize),
}

/// More than any kitchen has to put into a fridge.
pub(crate) const ROOM_FOR_ALL: u32 = 1_000;

/// How often it may be asked whether to go on until it is known what contradicts itself: all that is done then hangs on that.
const WHY: u32 = 4_000;

/// What is let go of last, after all that is only fixed.
pub(crate) const LAST: i32 = -1;

/// How many minutes more a limit gets, each time that what it had wasn't enough; at last it counts no more.
pub(crate) const MORE: [i32; 5] = [5, 15, 30, 60, 240];

/// The best schedule, with as little let go of as was found to be enough.
///
/// Of the limits that contradict each other the one gives that bears waiting longest, since minutes
/// matter least there. `None` where something contradicts itself that can't be let go of.
pub(crate) fn best_that_holds(
    tasks: &mut Tasks,
    aims: &[Aim],
    before: &[i32],
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Best> {
    let mut is_first = true;
    loop {
        // The lengths of a kitchen's steps are never so long that this fails.
        let problem = tasks.problem().ok()?;
        if let Some(best) = calmest(&problem, tasks, aims, before, go_on) {
            return Some(best);
        }
        // What was let go of before is let go of again: another limit would do as well, and would move what needn't move.
        if std::mem::take(&mut is_first) && tasks.let_go_as(before) {
            continue;
        }
        let mut left = WHY;
        let parts = why_infeasible(&problem, &mut || is_patient(&mut left));
        if tasks.make_room(&parts) {
            continue;
        }
        let limits = parts.iter().filter_map(|part| match *part {
            Part::Most(link) => Some(Limit::Link(link)),
            Part::Latest(task) => Some(Limit::Latest(task)),
            _ => None,
        });
        let gives = limits
            .filter_map(|limit| Some((limit, tasks.bears(limit)?)))
            .max_by_key(|&(_, bears)| bears);
        let takes_room = |part: &Part| matches!(*part, Part::Stay(_) | Part::Need(_, FRIDGE));
        match gives {
            Some((gives, _)) => tasks.let_go(gives)?,
            // Last of all the room in the fridge, for which the baker can do something.
            None if tasks.room < ROOM_FOR_ALL && parts.iter().any(takes_room) => {
                tasks.room = ROOM_FOR_ALL;
            }
            None => return None,
        }
    }
}

impl Tasks<'_> {
    /// How long after what it follows a limit lets something wait; `None` where it is no matter of
    /// harm but of what goes on by itself, or counts no more.
    fn bears(&self, limit: Limit) -> Option<i32> {
        match limit {
            Limit::Link(nth) => {
                let link = self.links[nth];
                // What would have to be thrown away gives way to anything that would only be less good.
                if self.spoils.contains(&nth) {
                    return link.most.and(Some(LAST));
                }
                let over = link.most.map(|most| most - link.least);
                over.filter(|&over| over > 0)
            }
            Limit::Latest(place) => {
                let limits = self.soon.iter().filter(|(task, _)| *task == place);
                self.tasks[place]
                    .latest
                    .and(limits.map(|&(_, most)| most).min())
            }
        }
    }

    /// Lets go of what a plan from before had let go of, if it keeps all the rest.
    ///
    /// What it kept by its own lengths, and wouldn't by those of now, is no promise to let something wait.
    fn let_go_as(&mut self, before: &[i32]) -> bool {
        let links = (0..self.links.len()).map(Limit::Link);
        let latest = (0..self.tasks.len()).map(Limit::Latest);
        let mut given = Vec::new();
        for limit in links.chain(latest) {
            let waits = match limit {
                Limit::Link(nth) => {
                    let link = self.links[nth];
                    before[link.to] - before[link.from] - self.tasks[link.from].minutes
                }
                Limit::Latest(place) => before[place],
            };
            let (bears, is) = (self.bears(limit), *self.most(limit));
            let lets_wait = self.lets_wait.contains(&self.what[self.of(limit)]);
            if let Some(was) = is.filter(|&is| lets_wait && bears.is_some() && waits > is) {
                given.push((limit, was));
                *self.most(limit) = Some(waits);
            }
        }
        let holds = !given.is_empty() && self.problem().is_ok_and(|problem| problem.holds(before));
        if holds {
            self.let_go.append(&mut given);
        } else {
            for (limit, was) in given {
                *self.most(limit) = Some(was);
            }
        }
        holds
    }

    /// The task that waits no longer by a limit.
    fn of(&self, limit: Limit) -> usize {
        match limit {
            Limit::Link(nth) => self.links[nth].to,
            Limit::Latest(place) => place,
        }
    }

    fn most(&mut self, limit: Limit) -> &mut Option<i32> {
        match limit {
            Limit::Link(nth) => &mut self.links[nth].most,
            Limit::Latest(place) => &mut self.tasks[place].latest,
        }
    }

    /// Finds room in the fridge for one more dough that is planned to stand there, if that contradicts the rest. Such a
    /// time is of the clock and gives way to nothing; and how much a fridge takes is guessed, where whoever planned it knows.
    fn make_room(&mut self, parts: &[Part]) -> bool {
        let stands =
            |place: usize| matches!(self.what[place], What::Retard(_, _, RetardPart::Stands));
        for part in parts {
            match *part {
                Part::Need(place, _) if stands(place) => self.tasks[place].needs.clear(),
                Part::Stay(nth) => match self.stays[nth].from {
                    Edge::Start(place) if stands(place) => {
                        self.tasks[place].needs.clear();
                        self.stays.remove(nth);
                    }
                    _ => continue,
                },
                _ => continue,
            }
            return true;
        }
        false
    }

    /// Lets something wait longer than is good for it.
    fn let_go(&mut self, limit: Limit) -> Option<()> {
        let is = (*self.most(limit))?;
        let known = self.let_go.iter().find(|(other, _)| *other == limit);
        let was = known.map_or(is, |&(_, was)| was);
        if known.is_none() {
            self.let_go.push((limit, was));
        }
        let next = MORE.iter().find(|&&more| was + more > is);
        *self.most(limit) = next.map(|&more| was + more);
        Some(())
    }
}
