//! Whether starts are a schedule, and when it ends: asked of any numbers, so nothing may overflow.

use super::problem::{Link, Problem, Task};
use super::room::{Edge, Stay};

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
        let moment = |edge: Edge, ever: i64| match edge {
            Edge::Start(task) => spans[task].from,
            Edge::End(task) => spans[task].to,
            Edge::Ever => ever,
        };
        let stayed = |stay: &Stay| Span {
            from: moment(stay.from, 0),
            to: moment(stay.to, i64::MAX),
        };
        let ends_behind = |stay: &Stay| stayed(stay).from <= stayed(stay).to;
        // Use of a resource only grows where somebody begins to hold it.
        let fits = |(resource, &capacity): (usize, &u32)| {
            let work =
                tasks().filter(|(task, _)| task.minutes > 0 && task.needs.contains(&resource));
            let work = work.map(|(task, &span)| (state_of(task, resource, capacity), span));
            let stays = self.stays.iter().filter(|stay| stay.resource == resource);
            let stays = stays.map(|stay| (None, stayed(stay)));
            let uses: Vec<(Option<u16>, Span)> = work.chain(stays).collect();
            uses.iter().enumerate().all(|(nth, (state, span))| {
                let meets = |(other, of): &(usize, &(Option<u16>, Span))| {
                    let is_same = state.is_some() && *state == of.0;
                    *other != nth && !is_same && span.begins_in(of.1)
                };
                uses.iter().enumerate().filter(meets).count() < capacity as usize
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
            let of = |block: (usize, u16)| self.tasks.iter().find(|task| task.block == Some(block));
            let state = |block| of(block).and_then(|task| task.state);
            let mut others = blocks.iter();
            others.all(|&other| {
                let (from, to) = whole(other);
                let is_shared = state(one).is_some() && state(one) == state(other);
                other.0 != one.0 || other == one || is_shared || from >= last || to <= first
            })
        };
        in_windows()
            && self.links.iter().all(keeps)
            && self.stays.iter().all(ends_behind)
            && self.capacities.iter().enumerate().all(fits)
            && blocks.iter().all(apart)
    }
}

/// What a task needs the only one of a resource to be, where others that need the same may hold it as well.
fn state_of(task: &Task, resource: usize, capacity: u32) -> Option<u16> {
    let is_of_block = task.block.is_some_and(|block| block.0 == resource);
    task.state.filter(|_| is_of_block && capacity == 1)
}

/// When a task starts and ends, in 64 bits: starts to be judged can be any number.
#[derive(Clone, Copy)]
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

    /// Whether another one has begun by then and hasn't ended. What lasts no time at all may touch it at either end.
    fn begins_in(self, other: Self) -> bool {
        let has_begun = if self.from < self.to {
            other.from <= self.from
        } else {
            other.from < self.from
        };
        has_begun && self.from < other.to
    }
}
