//! What a plan lets go of where it can't keep everything.

use super::best::{Best, calmest};
use super::tasks::Tasks;
use crate::schedule::solve::{Part, why_infeasible};

/// A greatest lag that can be let go of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Limit {
    /// That of a link.
    Link(usize),
    /// The latest start of a task, after something that has ended.
    Latest(usize),
}

/// How many minutes more a limit gets, each time that what it had wasn't enough; at last it counts no more.
const MORE: [i32; 5] = [5, 15, 30, 60, 240];

/// The best schedule, with as little let go of as was found to be enough.
///
/// Of the limits that contradict each other the one gives that bears waiting longest, since minutes
/// matter least there. `None` where something contradicts itself that can't be let go of.
pub(super) fn best_that_holds(
    tasks: &mut Tasks,
    before: &[i32],
    go_on: &mut dyn FnMut() -> bool,
) -> Option<Best> {
    loop {
        // The lengths of a kitchen's steps are never so long that this fails.
        let problem = tasks.problem().ok()?;
        if let Some(best) = calmest(&problem, tasks, before, go_on) {
            return Some(best);
        }
        let parts = why_infeasible(&problem, go_on);
        let limits = parts.iter().filter_map(|part| match *part {
            Part::Most(link) => Some(Limit::Link(link)),
            Part::Latest(task) => Some(Limit::Latest(task)),
            _ => None,
        });
        let gives = limits
            .filter_map(|limit| Some((limit, tasks.bears(limit)?)))
            .max_by_key(|&(_, bears)| bears)?
            .0;
        tasks.let_go(gives)?;
    }
}

impl Tasks<'_> {
    /// How long after what it follows a limit lets something wait; `None` where it is no matter of
    /// harm but of what goes on by itself, or counts no more.
    fn bears(&self, limit: Limit) -> Option<i32> {
        match limit {
            Limit::Link(nth) => {
                let link = self.links[nth];
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

    /// Lets something wait longer than is good for it.
    fn let_go(&mut self, limit: Limit) -> Option<()> {
        let most = match limit {
            Limit::Link(nth) => &mut self.links[nth].most,
            Limit::Latest(place) => &mut self.tasks[place].latest,
        };
        let is = (*most)?;
        let known = self.let_go.iter().find(|(other, _)| *other == limit);
        let was = known.map_or(is, |&(_, was)| was);
        if known.is_none() {
            self.let_go.push((limit, was));
        }
        let next = MORE.iter().find(|&&more| was + more > is);
        *most = next.map(|&more| was + more);
        Some(())
    }
}
