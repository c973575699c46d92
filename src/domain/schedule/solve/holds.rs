//! Whether starts are a schedule, and when it ends: asked of any numbers, so nothing may overflow.

use super::problem::{Link, Problem, Task};

impl Problem {
    /// When the last task ends, of those that count; whatever the starts are.
    #[must_use]
    pub fn makespan(&self, starts: &[i32]) -> i32 {
        let ends = self.tasks.iter().zip(starts);
        let counted = ends.filter(|(task, _)| task.counts);
        counted
            .map(|(task, start)| start.saturating_add(task.minutes))
            .max()
            .unwrap_or(0)
    }

    /// Whether starts keep to every window, link and capacity, and blocks apart; whatever they are.
    #[must_use]
    pub fn holds(&self, starts: &[i32]) -> bool {
        if starts.len() != self.tasks.len() {
            return false;
        }
        let spans: Vec<Span> = self.tasks.iter().zip(starts).map(Span::new).collect();
        let tasks = || self.tasks.iter().zip(&spans);
        let in_windows = || {
            tasks().all(|(task, span)| {
                let latest = task.latest.map(i64::from);
                span.from >= i64::from(task.earliest)
                    && latest.is_none_or(|latest| span.from <= latest)
            })
        };
        let keeps = |link: &Link| {
            let lag = spans[link.to].from - spans[link.from].to;
            lag >= i64::from(link.least) && link.most.is_none_or(|most| lag <= i64::from(most))
        };
        // Use of a resource only grows where a task starts.
        let fits = |(resource, &capacity): (usize, &u32)| {
            let uses = |task: &Task| task.minutes > 0 && task.needs.contains(&resource);
            let users = tasks().filter(|(task, _)| uses(task));
            let users: Vec<&Span> = users.map(|(_, span)| span).collect();
            users.iter().all(|at| {
                let hold = users.iter();
                let hold = hold.filter(|span| span.from <= at.from && at.from < span.to);
                hold.count() <= capacity as usize
            })
        };
        // A block comes before all of another that is kept the same resource, or after.
        let whole = |block: (usize, u16)| {
            let of = tasks().filter(|(task, _)| task.minutes > 0 && task.block == Some(block));
            of.fold((i64::MAX, i64::MIN), |(first, last), (_, span)| {
                (first.min(span.from), last.max(span.to))
            })
        };
        let mut blocks: Vec<_> = self.tasks.iter().filter_map(|task| task.block).collect();
        blocks.sort_unstable();
        blocks.dedup();
        let apart = |&one: &(usize, u16)| {
            let (first, last) = whole(one);
            let mut others = blocks.iter();
            others.all(|&other| {
                let (from, to) = whole(other);
                other.0 != one.0 || other == one || from >= last || to <= first
            })
        };
        in_windows()
            && self.links.iter().all(keeps)
            && self.capacities.iter().enumerate().all(fits)
            && blocks.iter().all(apart)
    }
}

/// When a task starts and ends, in 64 bits: starts to be judged can be any number.
struct Span {
    from: i64,
    to: i64,
}

impl Span {
    fn new((task, &start): (&Task, &i32)) -> Self {
        let from = i64::from(start);
        let to = from + i64::from(task.minutes);
        Self { from, to }
    }
}
