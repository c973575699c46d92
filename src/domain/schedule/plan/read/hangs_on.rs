//! What keeps each task of a plan from starting sooner.

use crate::schedule::plan::tasks::Tasks;
use crate::schedule::solve::earlier;

impl Tasks<'_> {
    /// By task: the one that keeps it from starting sooner, if everything starts as early as the order
    /// at hand lets it. What was moved out of a wait keeps nobody.
    ///
    /// Two tasks that must follow each other at once keep each other, so a task is told only by one that is
    /// known itself to be kept by something else, or by nothing: whoever asks on and on comes to an end.
    pub(crate) fn hangs_on(&self, starts: &[i32]) -> Vec<Option<usize>> {
        let mut keeps = vec![None; starts.len()];
        let Ok(problem) = self.problem() else {
            return keeps;
        };
        let counted = self
            .tasks
            .iter()
            .zip(starts)
            .filter(|(task, _)| task.counts);
        let first = counted.map(|(_, &start)| start).min().unwrap_or(0);
        let early = earlier(&problem, starts, first);
        let early = Early {
            tasks: self,
            starts,
            early: &early,
        };
        // The first of all and what goes on already wait for nothing.
        let is_free = |task: usize| early.early[task] <= first.max(self.tasks[task].earliest);
        let mut is_known: Vec<bool> = (0..starts.len()).map(is_free).collect();
        let mut order: Vec<usize> = (0..starts.len()).collect();
        order.sort_by_key(|&task| early.early[task]);
        // What comes before is asked first, and ahead is looked only for what nothing before it keeps.
        loop {
            let mut is_told = false;
            for &task in &order {
                let by = (!is_known[task]).then(|| early.before(task, &is_known));
                if let Some(by) = by.flatten() {
                    keeps[task] = Some(by);
                    is_known[task] = true;
                    is_told = true;
                }
            }
            if is_told {
                continue;
            }
            let mut unknown = order.iter().filter(|&&task| !is_known[task]);
            let Some((task, by)) =
                unknown.find_map(|&task| Some((task, early.ahead(task, &is_known)?)))
            else {
                return keeps;
            };
            keeps[task] = Some(by);
            is_known[task] = true;
        }
    }
}

/// A schedule with everything as early as its order lets it.
struct Early<'a> {
    tasks: &'a Tasks<'a>,
    starts: &'a [i32],
    early: &'a [i32],
}

impl Early<'_> {
    fn end(&self, task: usize) -> i32 {
        self.early[task] + self.tasks.tasks[task].minutes
    }

    /// What has to have ended before: by a link, or because it holds what the task needs.
    fn before(&self, task: usize, is_known: &[bool]) -> Option<usize> {
        let links = self.tasks.links.iter();
        let after = links.filter(|link| {
            link.to == task
                && is_known[link.from]
                && self.early[task] == self.end(link.from) + link.least
        });
        // Of what ends at one moment the longest has most to do with it.
        let after = after.map(|link| link.from);
        let after = after.max_by_key(|&from| self.tasks.tasks[from].minutes);
        let needs = &self.tasks.tasks[task].needs;
        let held = || {
            (0..self.starts.len()).find(|&other| {
                let held = &self.tasks.tasks[other].needs;
                is_known[other]
                    && self.starts[other] < self.starts[task]
                    && self.end(other) == self.early[task]
                    && held.iter().any(|need| needs.contains(need))
            })
        };
        after.or_else(held)
    }

    /// It could start, but what follows would then wait too long.
    fn ahead(&self, task: usize, is_known: &[bool]) -> Option<usize> {
        let mut links = self.tasks.links.iter();
        let follows = links.find(|link| {
            let lag = self.early[link.to] - self.end(link.from);
            link.from == task && link.most == Some(lag) && is_known[link.to]
        });
        follows.map(|link| link.to)
    }
}
