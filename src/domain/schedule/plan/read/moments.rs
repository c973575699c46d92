//! A schedule of tasks, told in moments.

use super::chain;
use crate::estimate::{Basis, Estimate};
use crate::schedule::plan::lengths::ovens::is_shared;
use crate::schedule::plan::lengths::{Length, Lengths};
use crate::schedule::plan::starts::best::Best;
use crate::schedule::plan::starts::let_go::Limit;
use crate::schedule::plan::tasks::{Tasks, is_present, turned_out};
use crate::schedule::plan::what::What;
use crate::schedule::plan::{Item, Plan, Proven};
use crate::units::{Minutes, Moment, minutes};

impl Tasks<'_> {
    /// The minutes at which tasks started by an earlier plan; those that it doesn't know start at once.
    pub(crate) fn starts(&self, was: &[(What, Moment)]) -> Vec<i32> {
        let start = |what: &What| was.iter().find(|(other, _)| other == what);
        let both = self.what.iter().zip(&self.tasks);
        // What goes on began in the past, where no task can start any more.
        both.map(|(what, task)| {
            let at = start(what).map_or(0, |&(_, at)| self.minute(at));
            if *what == What::Away {
                return task.earliest;
            }
            let is_fixed = task.latest == Some(task.earliest);
            let begun = self
                .length(what)
                .is_some_and(|length| length.start < self.now);
            if is_fixed || begun {
                at.max(task.earliest)
            } else {
                at
            }
        })
        .collect()
    }

    /// Whether an earlier plan has all of it.
    pub(crate) fn knows(&self, was: &[(What, Moment)]) -> bool {
        let mut what = self.what.iter().filter(|&&what| what != What::Away);
        what.all(|what| was.iter().any(|(other, _)| other == what))
    }

    /// When everything starts.
    pub(crate) fn moments(&self, starts: &[i32]) -> Vec<(What, Moment)> {
        let both = self.what.iter().zip(starts);
        both.map(|(&what, &start)| (what, self.moment(start)))
            .collect()
    }

    /// Whether nothing takes another number of minutes by lengths that were reckoned anew, and nothing follows at
    /// another: an oven is switched on by an early end.
    pub(crate) fn is_as_long(&self, lengths: &[Lengths]) -> bool {
        let again = Tasks::new(self.bakes, lengths, self.now);
        let mut tasks = self.tasks.iter().zip(&again.tasks);
        let mut links = self.links.iter().zip(&again.links);
        let what = self.what.get(..again.what.len());
        what.is_some_and(|what| again.what == what)
            && tasks.all(|(is, was)| is.minutes == was.minutes)
            && links.all(|(is, was)| is.least == was.least)
    }

    pub(crate) fn told(&self, best: &Best) -> Plan {
        let starts = &best.starts;
        let mut order = self.order(starts);
        order.retain(|&task| !is_present((&self.what[task], &self.tasks[task])));
        let place_of = |task: usize| order.iter().position(|&other| other == task);
        let hangs_on = self.hangs_on(starts);
        let reach = self.reach(starts, &hangs_on);
        let mut items: Vec<Item> = order
            .iter()
            .map(|&task| {
                let (start, slack) = self.start_and_slack(task, starts[task]);
                Item {
                    what: self.what[task],
                    start,
                    end: self.moment(starts[task] + self.tasks[task].minutes),
                    slack,
                    reach: reach[task],
                    waits_for: hangs_on[task].and_then(place_of),
                    too_late_by: self.too_late_by(task, starts),
                }
            })
            .collect();
        self.tell_nights(&mut items);
        self.tell_kept(starts, &mut items);
        let end = chain::all_ready(&items);
        let end = end.unwrap_or_else(|| Estimate::exact(self.now, Basis::Measured));
        let proven = match best.short_by {
            0 => Proven::Soonest,
            short_by => Proven::Short(minutes(f64::from(short_by))),
        };
        Plan {
            items,
            end,
            proven,
            waits_least: best.waits_least,
            as_heated: is_shared(self.bakes, self.lengths),
        }
    }

    /// A night in the fridge lasts until its dough is turned out, and is as uncertain as that is.
    fn tell_nights(&self, items: &mut [Item]) {
        for place in 0..items.len() {
            if let What::Step(bake, night) = items[place].what
                && let Some((_, out)) = turned_out(self.bakes[bake], night)
                && let Some(&out) = items.iter().find(|item| item.what == What::Step(bake, out))
            {
                let starts = |all: Minutes, own: Minutes| {
                    Minutes::clamped(f64::sqrt((all.get().powi(2) - own.get().powi(2)).max(0.0)))
                };
                let item = &mut items[place];
                item.end = item.end.max(out.start);
                item.reach = (
                    // It begins no sooner for that.
                    item.reach.0.min(starts(out.reach.0, out.slack.0)),
                    starts(out.reach.1, out.slack.1),
                );
            }
        }
    }

    /// What stands in the fridge after a step that has left it there.
    fn tell_kept(&self, starts: &[i32], items: &mut Vec<Item>) {
        for &(bake, step, ref fetch) in &self.kept {
            let Some(last) = fetch.iter().map(|&task| starts[task]).max() else {
                continue;
            };
            let of = items
                .iter()
                .position(|item| item.what == What::Step(bake, step));
            let ended = self.bakes[bake].progress(step).ended;
            let since = match (of, ended) {
                (Some(of), _) => items[of].end,
                (None, Some(ended)) => ended.at,
                (None, None) => continue,
            };
            let kept = Item {
                what: What::Kept(bake, step),
                start: since,
                end: self.moment(last),
                slack: (minutes(0.0), minutes(0.0)),
                reach: (minutes(0.0), minutes(0.0)),
                waits_for: of,
                too_late_by: None,
            };
            if kept.end - kept.start < minutes(1.0) {
                continue;
            }
            let place = items.partition_point(|item| item.start <= kept.start);
            items.insert(place, kept);
            for item in items.iter_mut() {
                item.waits_for = item.waits_for.map(|of| of + usize::from(of >= place));
            }
        }
    }

    /// What goes on started when it did.
    fn start_and_slack(&self, task: usize, start: i32) -> (Moment, (Minutes, Minutes)) {
        let planned = self.moment(start);
        let none = (minutes(0.0), minutes(0.0));
        let length = self.length(&self.what[task]);
        let slack = length.map_or(none, |length| length.slack);
        let began = length
            .map(|length| length.start)
            .filter(|&began| began < self.now && start == 0);
        (began.unwrap_or(planned), slack)
    }

    pub(crate) fn length(&self, what: &What) -> Option<&Length> {
        match *what {
            What::Step(bake, step) => self.lengths[bake].get(&step),
            _ => None,
        }
    }

    /// The tasks by their starts.
    pub(crate) fn order(&self, starts: &[i32]) -> Vec<usize> {
        let mut order: Vec<usize> = (0..starts.len()).collect();
        let start = |task: usize| self.start_and_slack(task, starts[task]).0;
        order.sort_by_key(|&task| (start(task), starts[task] + self.tasks[task].minutes, task));
        order
    }

    /// What waits longer than it should.
    pub(crate) fn late(&self, starts: &[i32]) -> Vec<What> {
        let late = |&(place, _): &(usize, &What)| self.too_late_by(place, starts).is_some();
        let what = self.what.iter().enumerate();
        what.filter(late).map(|(_, &what)| what).collect()
    }

    pub(crate) fn too_late_by(&self, task: usize, starts: &[i32]) -> Option<Minutes> {
        // A rise that is put into the fridge later than planned waits for nothing.
        let by_stay = self.what[task].of().is_some_and(|(bake, step)| {
            let state = self.bakes[bake];
            state.retards.contains_key(&step) && !state.pins.contains_key(&step)
        });
        let over = self.let_go.iter().filter_map(|&(limit, was)| match limit {
            Limit::Latest(place) if place == task && by_stay => None,
            Limit::Link(nth) if self.links[nth].to == task => {
                let from = self.links[nth].from;
                Some(starts[task] - starts[from] - self.tasks[from].minutes - was)
            }
            Limit::Latest(place) if place == task => Some(starts[task] - was),
            _ => None,
        });
        let over = over.max().filter(|&over| over > 0)?;
        Some(minutes(f64::from(over)))
    }
}
