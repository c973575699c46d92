//! Before a time away the hands have as much to spare as they may be late, where that makes no end later.
//!
//! That comes between the ends and what waits. Of the ends none shows it, for what lies behind a night doesn't move while
//! the evening slips; and to wait least, hands would be put off until the baker goes to bed. So what waits least is looked
//! for first, and only where it leaves too little is a schedule looked for in which the hands end as soon as that asks, or
//! else as soon as they can; what waits least is then looked for again among those that leave as much. A bread that is
//! ready long before its table gives of that, and so is as soon as it can be beside what it leaves. A plan that is kept is
//! held to what it leaves, so that it stays where it is.

use super::aims::{Aim, Met, met, soon_enough};
use crate::schedule::plan::tasks::{HANDS, Tasks};
use crate::schedule::plan::timetable::{LESS_BUFFER, MOST, NEAR, is_last, table_of};
use crate::schedule::plan::what::What;
use crate::schedule::solve::{Link, Outcome, Problem, Schedule, Task, solve};
use crate::units::minutes;

/// How often one time away is looked at: what was put off before it can be near it after that.
const TRIED: usize = 2;

/// The hands' work before a time away.
struct Evening {
    /// The minute from which on nobody is there.
    from: i32,
    /// The work that is near it, with how much later than likely it may end, in minutes.
    near: Vec<(usize, i32)>,
}

impl Evening {
    /// By which minute all of it has ended, if each is as late as it may be.
    fn ends(&self, tasks: &[Task], starts: &[i32]) -> i32 {
        let ends = self.near.iter();
        let ends = ends.map(|&(task, late)| starts[task] + tasks[task].minutes + late);
        ends.max().unwrap_or(self.from)
    }
}

impl Tasks<'_> {
    /// From when on nobody is there, by minute, of the times that lie ahead.
    fn leaves(&self) -> impl Iterator<Item = i32> {
        let all = self.tasks.iter().zip(&self.what).take(self.others);
        let away = all.filter(|(task, what)| **what == What::Away && task.minutes > 0);
        away.map(|(task, _)| task.earliest).filter(|&from| from > 0)
    }

    /// Whether a task is work that could be done before a minute, and what it is for isn't on the table by then.
    fn is_work(&self, task: usize, from: i32) -> bool {
        let table = |bake: usize| table_of(self.bakes[bake]);
        let of = self.what[task].of();
        self.tasks[task].needs.contains(&HANDS)
            && of.is_some_and(|(bake, _)| table(bake).is_none_or(|table| self.minute(table) > from))
    }

    /// Holds a problem to what a schedule leaves before times away, but to no more than any has to; `None` where the schedule
    /// doesn't hold or something is late by it, or nobody leaves.
    pub(crate) fn held(&self, problem: &Problem, aims: &[Aim], starts: &[i32]) -> Option<Problem> {
        self.leaves().next()?;
        if !problem.holds(starts) || aims.iter().any(|aim| aim.is_late(problem, starts)) {
            return None;
        }
        let mut tasks = problem.tasks().to_vec();
        for from in self.leaves() {
            for (place, task) in tasks.iter_mut().enumerate() {
                if starts[place] + task.minutes <= from && self.is_work(place, from) {
                    let most = from - MOST.get() as i32 - task.minutes;
                    start_by(task, most.max(starts[place]));
                }
            }
        }
        with(problem, tasks, problem.links().to_vec())
    }

    /// The evenings that a schedule leaves too little to spare.
    fn short(&self, starts: &[i32]) -> Vec<Evening> {
        let tasks = &self.tasks;
        let near = |from: i32| {
            let work = (0..tasks.len()).filter(move |&task| {
                let left = from - starts[task] - tasks[task].minutes;
                (0..NEAR.get() as i32).contains(&left) && self.is_work(task, from)
            });
            work.collect::<Vec<usize>>()
        };
        let near: Vec<_> = self.leaves().map(|from| (from, near(from))).collect();
        if near.iter().all(|(_, near)| near.is_empty()) {
            return Vec::new();
        }
        let reach = self.reach(starts, &self.hangs_on(starts));
        let late = |task: usize| match self.what[task] {
            What::Step(bake, step) if is_last(self.bakes[bake], step) => (task, 0),
            _ => (task, reach[task].1.up_to_five().min(MOST).get() as i32),
        };
        let evenings = near.into_iter().map(|(from, near)| Evening {
            from,
            near: near.into_iter().map(late).collect(),
        });
        let is_short = |evening: &Evening| {
            let over = evening.ends(tasks, starts) - evening.from;
            minutes(f64::from(over)) > LESS_BUFFER
        };
        evenings.filter(is_short).collect()
    }

    /// What leaves more to spare than a schedule that leaves too little, within a problem that asks for as much; `None` where
    /// nothing does that is as soon as it has to be. `tried` is what was looked at before.
    pub(crate) fn spared(
        &self,
        met_by: (&Problem, &Met),
        aims: &[Aim],
        starts: &[i32],
        tried: &mut Vec<i32>,
        go_on: &mut dyn FnMut() -> bool,
    ) -> Option<(Problem, Met)> {
        let (whole, is) = met_by;
        for evening in self.short(starts) {
            let times = tried.iter().filter(|&&from| from == evening.from).count();
            if times >= TRIED {
                continue;
            }
            tried.push(evening.from);
            // The ends as they are, or else soon enough.
            let ended = is.problem.clone().ended_by(is.schedule.end);
            let mut best = sooner(&ended, starts, &evening, go_on);
            let enough = soon_enough(whole, aims, starts);
            let is_full = best.as_ref().is_some_and(|best| best.0 <= evening.from);
            if let Some(enough) = enough.filter(|_| !is_full) {
                let other = sooner(&enough, starts, &evening, go_on);
                let is = best.as_ref().map_or(i32::MAX, |best| best.0);
                best = other.filter(|other| other.0 < is).or(best);
            }
            let Some((end, starts)) = best else {
                tried.push(evening.from);
                continue;
            };
            let mut tasks = whole.tasks().to_vec();
            for &(place, late) in &evening.near {
                let latest = end - late - tasks[place].minutes;
                start_by(&mut tasks[place], latest);
            }
            let limited = with(whole, tasks, whole.links().to_vec())?;
            let met = met(&limited, aims, &starts, go_on)?;
            return Some((limited, met));
        }
        None
    }

    /// By how many minutes a schedule leaves too little, where that is most.
    pub(crate) fn missing(&self, starts: &[i32]) -> i32 {
        let short = self.short(starts);
        let missing = short.iter();
        let missing = missing.map(|evening| evening.ends(&self.tasks, starts) - evening.from);
        missing.max().unwrap_or(0)
    }
}

/// An evening's work done as soon as it should be, or else as soon as it can: by when it then has ended at the latest. `None`
/// where that is no sooner than by a schedule at hand.
fn sooner(
    problem: &Problem,
    at_hand: &[i32],
    evening: &Evening,
    go_on: &mut dyn FnMut() -> bool,
) -> Option<(i32, Vec<i32>)> {
    let mut tasks = problem.tasks().to_vec();
    let all = tasks.len();
    let is = evening.ends(&tasks, at_hand);
    for task in &mut tasks {
        task.counts = false;
    }
    let mut links = problem.links().to_vec();
    let mut starts = at_hand.to_vec();
    // Each ends once it is as late as it may be, and none of them has to before nobody is there any more.
    for &(from, late) in &evening.near {
        links.push(Link {
            from,
            to: tasks.len(),
            least: 0,
            most: None,
        });
        starts.push(at_hand[from] + tasks[from].minutes);
        tasks.push(Task::new(late, &[]));
    }
    starts.push(evening.from);
    tasks.push(Task {
        counts: true,
        ..Task::away(evening.from, 0, &[])
    });
    let found = match solve(&with(problem, tasks, links)?, Some(&starts), go_on) {
        Outcome::Optimal(found) => found,
        Outcome::BestFound { best, .. } => best?,
        Outcome::Infeasible => return None,
    };
    let Schedule { mut starts, end } = found;
    starts.truncate(all);
    (end < is).then_some((end, starts))
}

fn start_by(task: &mut Task, latest: i32) {
    task.latest = Some(task.latest.map_or(latest, |other| other.min(latest)));
}

fn with(problem: &Problem, tasks: Vec<Task>, links: Vec<Link>) -> Option<Problem> {
    let other = Problem::new(tasks, links, problem.capacities().to_vec()).ok()?;
    other.with_stays(problem.stays().to_vec()).ok()
}
