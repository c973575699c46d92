//! What is left of some bakes, as tasks, links and capacities.
//!
//! Minutes count from now. What goes on by itself starts the minute that it can; what is going on
//! stands where it stands and takes what is left of it. A fold is a task of its own, since it takes
//! the hands away from everything else.

mod bounds;
mod in_passing;
mod kept;

use super::lengths::Lengths;
use super::let_go::Limit;
use super::ovens::{heat, trays};
use super::room::room;
use super::what::What;
use crate::bake::State;
use crate::formula::{Caution, Step, StepId, StepKind};
use crate::schedule::solve::{Edge, Link, Problem, ProblemError, Stay, Task};
use crate::units::{Minutes, Moment, minutes};

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
    /// Whether its order is as good as any other that ends and waits the same, as one that was planned before is.
    pub has_order: bool,
    /// What was let go of, with what it was before.
    pub let_go: Vec<(Limit, i32)>,
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
            has_order: false,
            let_go: Vec::new(),
            stays: Vec::new(),
            covered: Vec::new(),
            kept: Vec::new(),
            room: room(bakes),
            others: usize::MAX,
        };
        for bake in 0..bakes.len() {
            tasks.add_steps(bake);
            tasks.add_links(bake);
            tasks.add_folds(bake);
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
            // What goes on holds what it holds, however many the baker has put into one oven.
            if goes_on {
                needs.retain(|need| !self.is_held(*need));
            }
            let task = if goes_on {
                Task {
                    latest: Some(0),
                    ..Task::new(whole(length.end - self.now), &needs)
                }
            } else {
                // Of work under way only the rest is left.
                let from = length.start.max(self.now.min(length.end));
                Task::new(whole(length.end - from), &needs)
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

    /// Whether something that goes on holds a resource already.
    fn is_held(&self, resource: usize) -> bool {
        let tasks = self.takes(resource);
        let tasks = tasks.filter(|task| task.latest == Some(0));
        let stands = |stay: &&Stay| stay.resource == resource && stay.from == Edge::Ever;
        let held = tasks.count() + self.stays.iter().filter(stands).count();
        held as u32 >= self.capacities()[resource]
    }

    fn add_links(&mut self, bake: usize) {
        let state = self.bakes[bake];
        let held = state.held_back();
        for step in &state.formula.steps {
            let Some(to) = self.place(What::Step(bake, step.id)) else {
                continue;
            };
            for link in &step.after {
                let least = whole(link.least);
                // What goes on by itself doesn't wait.
                let most = if !step.is_hands() && step.after.len() == 1 {
                    Some(least)
                } else {
                    link.greatest.map(|most| most.get().floor() as i32)
                };
                let weight = weight(state, link.step, link.greatest.is_some());
                let days = keeps(state, link.step);
                let within = most.into_iter().chain(days).min();
                let Some(from) = self.place(What::Step(bake, link.step)) else {
                    self.after_ended(state, link.step, to, (least, within), weight);
                    continue;
                };
                // What is on its way to the fridge isn't put there later for the sake of its days.
                let is_on_its_way = !held.is_empty() && !held.contains(&link.step);
                match days.filter(|_| is_on_its_way) {
                    Some(days) => {
                        self.start_by(to, days, days);
                        self.link(from, to, (least, most), weight);
                    }
                    None => self.link(from, to, (least, within), weight),
                }
            }
            self.ahead_of(bake, step, to);
        }
    }

    /// What follows something that has ended starts so long after that.
    fn after_ended(
        &mut self,
        state: &State,
        ended: StepId,
        to: usize,
        (least, most): (i32, Option<i32>),
        weight: u16,
    ) {
        let Some(ended) = state.progress(ended).ended else {
            return;
        };
        let since = self.minute(ended.at);
        let task = &mut self.tasks[to];
        // It goes on already, at whatever moment it began.
        if task.latest == Some(0) {
            return;
        }
        task.earliest = task.earliest.max(since + least);
        if let Some(most) = most {
            self.start_by(to, since + most, most);
        }
        // What has ended is no task any more, but whatever suffers from waiting for it counts from now on.
        if weight > 0 {
            let present = self.what.iter().zip(&self.tasks).position(is_present);
            let present = present.unwrap_or_else(|| {
                self.what.push(What::Away);
                self.tasks.push(Task::away(0, 0, &[]));
                self.tasks.len() - 1
            });
            self.link(present, to, (0, None), weight);
        }
    }

    /// Something starts no later than a minute, so long after what it follows.
    fn start_by(&mut self, to: usize, minute: i32, most: i32) {
        let task = &mut self.tasks[to];
        let latest = minute.max(task.earliest);
        task.latest = Some(task.latest.map_or(latest, |other| other.min(latest)));
        self.soon.push((to, most));
    }

    /// An oven isn't turned on sooner than its heat is wanted: when what it is early for could end.
    fn ahead_of(&mut self, bake: usize, step: &Step, to: usize) {
        let Some(ahead_of) = step.ahead_of else {
            return;
        };
        let (Some(from), Some(of)) = (
            self.place(What::Step(bake, ahead_of)),
            self.lengths[bake].get(&ahead_of),
        ) else {
            return;
        };
        let before_end = of.slack.0 + self.bakes[bake].kitchen.oven_heats_in;
        self.link(from, to, (-whole(before_end), None), HEATING);
    }

    fn link(&mut self, from: usize, to: usize, (least, most): (i32, Option<i32>), weight: u16) {
        self.links.push(Link {
            from,
            to,
            least,
            most,
        });
        self.weights.push(weight);
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

/// How long what a step put into the fridge keeps there, in minutes, by the fewest days.
fn keeps(state: &State, step: StepId) -> Option<i32> {
    let kept = state.kept_after(state.formula.step(step)?)?;
    Some(i32::from(kept.days().0) * 24 * 60)
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

/// What a minute weighs in which something waits: what spoils, what may wait only so long, an oven
/// that heats for nothing, a fold that comes late. What can wait weighs nothing.
///
/// ASSUMPTION: our judgement; only their order matters much.
const SPOILS: u16 = 4;
const LIMITED: u16 = 3;
const HEATING: u16 = 2;
const LATE_FOLD: u16 = 1;

fn weight(state: &State, after: StepId, is_limited: bool) -> u16 {
    let step = state.formula.step(after);
    let spoils =
        step.is_some_and(|step| step.cautions.contains(&Caution::Perishable) && !step.needs.fridge);
    match (spoils, is_limited) {
        (true, _) => SPOILS,
        (false, true) => LIMITED,
        (false, false) => 0,
    }
}

/// Whole minutes, none less than nothing.
fn whole(length: Minutes) -> i32 {
    whole_signed(length).max(0)
}

fn whole_signed(length: Minutes) -> i32 {
    length.get().round() as i32
}
