//! What is left of some bakes, as tasks, links and capacities.
//!
//! Minutes count from now. What goes on by itself starts the minute that it can; what is going on
//! stands where it stands and takes what is left of it. A fold is a task of its own, since it takes
//! the hands away from everything else.

mod bounds;
mod in_passing;
mod kept;
mod links;
mod nights;
pub(super) mod room;
mod spoils;

use super::lengths::Lengths;
use super::lengths::ovens::{heat, trays};
use super::what::What;
use crate::bake::State;
use crate::formula::{Step, StepId, StepKind};
use crate::schedule::plan::starts::let_go::Limit;
use crate::schedule::solve::{Edge, Link, Problem, ProblemError, Stay, Task};
use crate::units::{Minutes, Moment, minutes};
pub use nights::turned_out;
use room::room;

pub(super) const HANDS: usize = 0;
const HOB: usize = 1;
const OVEN: usize = 2;
pub(super) const FRIDGE: usize = 3;
/// Of an oven that breads share.
const TRAYS: usize = 4;
/// ASSUMPTION: most hobs have four rings (common practice, no source).
const RINGS: u32 = 4;

/// The problem as it is built.
pub(super) struct Tasks<'a> {
    pub bakes: &'a [&'a State],
    pub lengths: &'a [Lengths],
    pub now: Moment,
    /// What each task is about.
    pub what: Vec<What>,
    pub tasks: Vec<Task>,
    pub links: Vec<Link>,
    /// How much a minute matters that is waited on each link.
    pub weights: Vec<u16>,
    /// Tasks that should start soon after something that has ended, and how soon.
    pub soon: Vec<(usize, i32)>,
    /// The links by which nothing spoils, which give way last.
    pub spoils: Vec<usize>,
    /// Whether its order is as good as any other that ends and waits the same, as one that was planned before is.
    pub has_order: bool,
    /// Whether hands have as much to spare before a time away as they may be late.
    pub spares: bool,
    /// What was let go of, with what it was before.
    pub let_go: Vec<(Limit, i32)>,
    /// What waited longer than it should in the plan from before.
    pub lets_wait: Vec<What>,
    /// What takes room in the fridge from one moment to another.
    pub stays: Vec<Stay>,
    /// The tasks whose room is that of a stay, where these count.
    pub covered: Vec<usize>,
    /// The steps after which something is kept there: of which bake, and the tasks that fetch it.
    pub kept: Vec<(usize, StepId, Vec<usize>)>,
    /// How much fits into it; where that had to be let go of, as much as there is.
    pub room: u32,
    /// From which place on tasks are what other bakes hold.
    pub others: usize,
    /// The minute from which the hands are free of taking out what has baked.
    pub free: i32,
    /// The links that ask for nights in the fridge to be as long as is likely.
    pub nights: Vec<usize>,
}

impl<'a> Tasks<'a> {
    pub(super) fn new(bakes: &'a [&'a State], lengths: &'a [Lengths], now: Moment) -> Self {
        let mut tasks = Self {
            bakes,
            lengths,
            now,
            what: Vec::new(),
            tasks: Vec::new(),
            links: Vec::new(),
            weights: Vec::new(),
            soon: Vec::new(),
            spoils: Vec::new(),
            has_order: false,
            spares: false,
            let_go: Vec::new(),
            lets_wait: Vec::new(),
            stays: Vec::new(),
            covered: Vec::new(),
            kept: Vec::new(),
            room: room(bakes),
            others: usize::MAX,
            free: 0,
            nights: Vec::new(),
        };
        for bake in 0..bakes.len() {
            tasks.add_steps(bake);
            tasks.add_links(bake);
            tasks.add_folds(bake);
            tasks.add_spoiling(bake);
            tasks.add_kept(bake);
            tasks.add_stays(bake);
        }
        tasks
    }

    /// By task: what attention it takes, if it takes any: that for a component of a bake.
    pub(super) fn kinds_of_work(&self) -> Vec<Option<usize>> {
        let mut known = Vec::new();
        let kind = |(what, task): (&What, &Task)| {
            let (bake, step) = what.of()?;
            if !task.needs.contains(&HANDS) {
                return None;
            }
            let of = (bake, self.bakes[bake].formula.step(step)?.component);
            let place = known.iter().position(|&other| other == of);
            Some(place.unwrap_or_else(|| {
                known.push(of);
                known.len() - 1
            }))
        };
        self.what.iter().zip(&self.tasks).map(kind).collect()
    }

    /// # Errors
    /// Where the numbers are no kitchen's.
    pub(super) fn problem(&self) -> Result<Problem, ProblemError> {
        let capacities = self.capacities().to_vec();
        let (mut tasks, links) = (self.tasks.clone(), self.links.clone());
        // Where there is room for all of it at once, nothing hangs on how long it stands there.
        if self.stays.len() + self.takes(FRIDGE).count() <= self.room as usize {
            return Problem::new(tasks, links, capacities);
        }
        for &place in &self.covered {
            tasks[place].needs.retain(|&need| need != FRIDGE);
        }
        Problem::new(tasks, links, capacities)?.with_stays(self.stays.clone())
    }

    /// The tasks that hold a resource themselves.
    fn takes(&self, resource: usize) -> impl Iterator<Item = &Task> {
        let tasks = self.tasks.iter().enumerate();
        let takes = tasks.filter(move |(place, task)| {
            let is_covered = resource == FRIDGE && self.covered.contains(place);
            !is_covered && task.needs.contains(&resource)
        });
        takes.map(|(_, task)| task)
    }

    /// One pair of hands, the rings of a hob, one oven, room in a fridge, trays in the oven.
    fn capacities(&self) -> [u32; 5] {
        [1, RINGS, 1, self.room, trays(self.bakes)]
    }

    pub(super) fn place(&self, what: What) -> Option<usize> {
        self.what.iter().position(|&other| other == what)
    }

    fn add_steps(&mut self, bake: usize) {
        let state = self.bakes[bake];
        let heat = heat(state);
        for step in &state.formula.steps {
            let Some(length) = self.lengths[bake].get(&step.id) else {
                continue;
            };
            let mut needs = needs(step, heat.is_some());
            let goes_on = !step.is_hands() && state.progress(step.id).open_since.is_some();
            // What goes on holds what it holds, however many the baker has put into one oven; and an oven holds what is
            // in it until that is out, though it was turned on for another.
            let is_in = || state.is_in_oven() && state.takes_out(step);
            if (goes_on || is_in()) && self.is_anothers_oven(bake) {
                needs.retain(|&need| need != OVEN);
            }
            if goes_on {
                needs.retain(|need| !self.is_held(*need));
            }
            let end = turned_out(state, step.id)
                .map_or(length.end, |(hours, _)| length.start + hours.low());
            let task = if goes_on {
                Task {
                    latest: Some(0),
                    ..Task::new(whole(end - self.now), &needs)
                }
            } else {
                // Of work under way only the rest is left.
                let from = length.start.max(self.now.min(end));
                Task::new(whole(end - from), &needs)
            };
            let block = task.needs.contains(&OVEN).then_some((OVEN, bake as u16));
            self.what.push(What::Step(bake, step.id));
            let state = heat.filter(|_| block.is_some());
            self.tasks.push(Task {
                block,
                state,
                ..task
            });
        }
    }

    /// Whether the oven has another bake's bread in it, which this one's can't share or doesn't yet.
    fn is_anothers_oven(&self, bake: usize) -> bool {
        let state = self.bakes[bake];
        let mut others = self.bakes.iter().enumerate();
        others.any(|(other, held)| {
            let is_second = || other < bake && (heat(state).is_none() || heat(state) != heat(held));
            other != bake && held.is_in_oven() && (!state.is_in_oven() || is_second())
        })
    }

    /// Whether something that goes on holds a resource already.
    fn is_held(&self, resource: usize) -> bool {
        let tasks = self.takes(resource);
        let tasks = tasks.filter(|task| task.latest == Some(0));
        let stands = |stay: &&Stay| stay.resource == resource && stay.from == Edge::Ever;
        let held = tasks.count() + self.stays.iter().filter(stands).count();
        held as u32 >= self.capacities()[resource]
    }

    /// The minute of a moment, from now. One that is months away, as after a clock was set, is as good as any that is.
    pub(super) fn minute(&self, moment: Moment) -> i32 {
        const FAR: i32 = ProblemError::MOST_MINUTES / 2;
        whole_signed(moment - self.now).clamp(-FAR, FAR)
    }

    pub(super) fn moment(&self, minute: i32) -> Moment {
        self.now + minutes(f64::from(minute))
    }
}

/// Whether it is no more than the moment of the plan, from which waiting counts.
pub(super) fn is_present((what, task): (&What, &Task)) -> bool {
    *what == What::Away && task.minutes == 0
}

/// What a step holds from its start to its end; of an oven that could be shared a tray as well, once bread is in it.
fn needs(step: &Step, is_shared: bool) -> Vec<usize> {
    let is_in = !matches!(step.kind, StepKind::OvenOn | StepKind::OvenHeats);
    let all = [
        (step.needs.oven && is_shared && is_in, TRAYS),
        (step.is_hands(), HANDS),
        (step.needs.hob, HOB),
        (step.needs.oven, OVEN),
        (step.needs.fridge, FRIDGE),
    ];
    let needed = all.into_iter().filter(|&(needed, _)| needed);
    needed.map(|(_, resource)| resource).collect()
}

/// Whole minutes, none less than nothing.
fn whole(length: Minutes) -> i32 {
    whole_signed(length).max(0)
}

fn whole_signed(length: Minutes) -> i32 {
    length.get().round() as i32
}
