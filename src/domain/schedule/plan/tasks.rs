//! What is left of some bakes, as tasks, links and capacities.
//!
//! Minutes count from now. What goes on by itself starts the minute that it can; what is going on
//! stands where it stands and takes what is left of it. A fold is a task of its own, since it takes
//! the hands away from everything else.

use super::Plan;
use super::lengths::Lengths;
use super::let_go::Limit;
use super::ovens::Hot;
use crate::bake::State;
use crate::formula::{Caution, Step, StepId};
use crate::schedule::solve::{Link, Problem, ProblemError, Task};
use crate::units::{Minutes, Moment, minutes};

/// One pair of hands, the rings of a hob, one oven, room in a fridge.
const CAPACITIES: [u32; 4] = [1, RINGS, 1, SHELVES];
const HANDS: usize = 0;
const HOB: usize = 1;
const OVEN: usize = 2;
const FRIDGE: usize = 3;
/// ASSUMPTION: most hobs have four rings (common practice, no source).
const RINGS: u32 = 4;
/// ASSUMPTION: so many bowls, tins and trays a home fridge takes beside what is in it anyway
/// (judgement). What waits there between two steps isn't counted.
const SHELVES: u32 = 4;
/// How long a fold takes the hands.
///
/// ASSUMPTION: common practice, no source.
const FOLD: Minutes = minutes(3.0);
/// How much later than its moment a fold may come, or a dough into the fridge or out of it. Beyond that is told.
///
/// ASSUMPTION: common practice, no source.
const FOLD_LATER: Minutes = minutes(10.0);

/// What is planned. Bakes are told by their place among those that are planned together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum What {
    /// A step of a bake.
    Step(usize, StepId),
    /// A fold in a step of a bake, of those still to come the first, the second and so on.
    Fold(usize, StepId, usize),
    /// Nobody is in the kitchen.
    Away,
    /// A rise of a bake that isn't done in the fridge, and its time there.
    Cold(usize, StepId, Cold),
}

/// What there is of a time in the fridge that is no step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cold {
    /// The dough is put in.
    In,
    /// It stands there.
    Stands,
    /// It is taken out.
    Out,
}

impl What {
    /// The bake that it is of, and the step.
    #[must_use]
    pub fn of(self) -> Option<(usize, StepId)> {
        match self {
            Self::Step(bake, step) | Self::Fold(bake, step, _) | Self::Cold(bake, step, _) => {
                Some((bake, step))
            }
            Self::Away => None,
        }
    }

    /// The same of another bake.
    #[must_use]
    pub fn at(self, bake: usize) -> Self {
        match self {
            Self::Step(_, step) => Self::Step(bake, step),
            Self::Fold(_, step, nth) => Self::Fold(bake, step, nth),
            Self::Cold(_, step, cold) => Self::Cold(bake, step, cold),
            Self::Away => Self::Away,
        }
    }

    /// Whether it takes the hands in the midst of a rise.
    #[must_use]
    pub fn is_in_passing(self) -> bool {
        matches!(
            self,
            Self::Fold(..) | Self::Cold(_, _, Cold::In | Cold::Out)
        )
    }
}

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
    /// Whether everything was planned before.
    pub are_known: bool,
    /// What was let go of, with what it was before.
    pub let_go: Vec<(Limit, i32)>,
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
            are_known: false,
            let_go: Vec::new(),
        };
        for bake in 0..bakes.len() {
            tasks.add_steps(bake);
            tasks.add_links(bake);
            tasks.add_folds(bake);
            tasks.add_stays(bake);
        }
        tasks
    }

    /// Nobody is in the kitchen from one moment to another.
    pub(super) fn close(&mut self, from: Moment, to: Moment) {
        // Rounded apart, so that it ends at the same minute before it has begun and after.
        let (start, end) = (self.minute(from.max(self.now)), self.minute(to));
        if end > start {
            self.what.push(What::Away);
            self.tasks.push(Task::away(start, end - start, &[HANDS]));
        }
    }

    /// What other bakes hold by their plan isn't there.
    pub(super) fn leave_room(&mut self, plan: &Plan, others: &[&State]) {
        for item in &plan.items {
            let (bake, mut needs) = match item.what {
                What::Step(bake, step) => {
                    let step = others.get(bake).and_then(|state| state.formula.step(step));
                    (bake, step.map_or_else(Vec::new, needs))
                }
                What::Cold(bake, _, Cold::Stands) => (bake, vec![FRIDGE]),
                What::Fold(bake, ..) | What::Cold(bake, ..) => (bake, vec![HANDS]),
                // Told already.
                What::Away => continue,
            };
            let from = self.minute(item.start.max(self.now));
            let minutes = self.minute(item.end) - from;
            needs.retain(|&need| !self.is_held(need));
            if minutes <= 0 || needs.is_empty() {
                continue;
            }
            // An oven that is heated for one bread isn't another's before that is out.
            let block = needs
                .contains(&OVEN)
                .then_some((OVEN, u16::MAX - bake as u16));
            self.what.push(What::Away);
            self.tasks.push(Task {
                block,
                ..Task::away(from, minutes, &needs)
            });
        }
    }

    /// Nothing of a bake starts before a moment.
    pub(super) fn release(&mut self, bake: usize, at: Moment) {
        let minute = self.minute(at);
        for (what, task) in self.what.iter().zip(&mut self.tasks) {
            if matches!(*what, What::Step(of, _) if of == bake) {
                task.earliest = task.earliest.max(minute);
            }
        }
    }

    /// A bread that another's heating counts on stays before it.
    pub(super) fn keep_hot(&mut self, hot: &[Hot]) {
        for hot in hot {
            let after = self.place(What::Step(hot.after.0, hot.after.1));
            let heats = self.place(What::Step(hot.heats.0, hot.heats.1));
            if let (Some(after), Some(heats)) = (after, heats) {
                self.link(after, heats, (0, None), 0);
            }
        }
    }

    /// Steps that the baker fixed to a moment start then, where that lies ahead and they haven't.
    pub(super) fn pin(&mut self) {
        for (bake, state) in self.bakes.iter().enumerate() {
            // A rise that is planned to stand in the fridge begins as it is put there.
            let colds = state.retards.iter().map(|(&step, &(from, _))| (step, from));
            let colds = colds.filter(|(step, _)| !state.pins.contains_key(step));
            let pins = state.pins.iter().map(|(&step, &at)| (step, at));
            for (step, at) in pins.chain(colds) {
                let (minute, place) = (self.minute(at), self.place(What::Step(bake, step)));
                let Some(place) = place.filter(|_| minute >= 0) else {
                    continue;
                };
                let (task, length) = (&mut self.tasks[place], self.lengths[bake].get(&step));
                let is_begun = length.is_some_and(|length| length.start < self.now);
                if task.latest != Some(0) && !is_begun {
                    // What has to begin later than that is told how much, as if it had been let go of.
                    if minute < task.earliest {
                        self.let_go.push((Limit::Latest(place), minute));
                    }
                    let minute = minute.max(task.earliest);
                    (task.earliest, task.latest) = (minute, Some(minute));
                    self.soon.push((place, 0));
                }
            }
        }
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

    /// What the hands are at isn't put off, as long as nothing else has to come first.
    pub(super) fn go_on_with(&mut self, bake: usize, step: StepId) {
        if let Some(place) = self.place(What::Step(bake, step)) {
            self.tasks[place].latest = Some(0);
            self.soon.push((place, 0));
        }
    }

    /// # Errors
    /// Where the numbers are no kitchen's.
    pub(super) fn problem(&self) -> Result<Problem, ProblemError> {
        Problem::new(self.tasks.clone(), self.links.clone(), CAPACITIES.to_vec())
    }

    pub(super) fn place(&self, what: What) -> Option<usize> {
        self.what.iter().position(|&other| other == what)
    }

    fn add_steps(&mut self, bake: usize) {
        let state = self.bakes[bake];
        for step in &state.formula.steps {
            let Some(length) = self.lengths[bake].get(&step.id) else {
                continue;
            };
            let mut needs = needs(step);
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
            self.tasks.push(Task { block, ..task });
        }
    }

    /// Whether something that goes on holds a resource already.
    fn is_held(&self, resource: usize) -> bool {
        let goes_on = self.tasks.iter().filter(|task| task.latest == Some(0));
        goes_on
            .filter(|task| task.needs.contains(&resource))
            .count() as u32
            >= CAPACITIES[resource]
    }

    fn add_links(&mut self, bake: usize) {
        let state = self.bakes[bake];
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
                match self.place(What::Step(bake, link.step)) {
                    Some(from) => {
                        let weight = weight(state, link.step, link.greatest.is_some());
                        self.link(from, to, (least, most), weight);
                    }
                    None => self.after_ended(state, link.step, to, least, most),
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
        least: i32,
        most: Option<i32>,
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
            let latest = (since + most).max(task.earliest);
            task.latest = Some(task.latest.map_or(latest, |other| other.min(latest)));
            self.soon.push((to, most));
        }
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

    fn add_folds(&mut self, bake: usize) {
        for (&step, length) in self.lengths[bake].iter() {
            let Some(from) = self.place(What::Step(bake, step)) else {
                continue;
            };
            let ends_in = self.tasks[from].minutes;
            for (nth, &fold) in length.folds.iter().enumerate() {
                let before_end = whole(length.end - fold);
                if before_end < whole(FOLD) {
                    continue;
                }
                let later = whole(FOLD_LATER);
                self.in_passing(
                    (from, ends_in),
                    What::Fold(bake, step, nth),
                    before_end,
                    later,
                );
            }
        }
    }

    /// The hands in the midst of a rise, so long before its end, or so much later.
    fn in_passing(&mut self, rise: (usize, i32), what: What, before_end: i32, later: i32) {
        // What is due already is done now.
        let due = before_end.min(rise.1);
        self.what.push(what);
        self.tasks.push(Task::new(whole(FOLD), &[HANDS]));
        let most = (later - before_end).max(later.min(1) - due);
        self.link(rise.0, self.tasks.len() - 1, (-due, Some(most)), LATE_FOLD);
    }

    /// A time in the fridge that is no step: it takes hands to put the dough in and to take it out, and room.
    fn add_stays(&mut self, bake: usize) {
        let state = self.bakes[bake];
        for (&step, length) in self.lengths[bake].iter() {
            let found = self.place(What::Step(bake, step));
            let stay = state.stay_or_supposed(step, length.start);
            let (Some(from), Some(stay)) = (found, stay) else {
                continue;
            };
            let rise = (from, self.tasks[from].minutes);
            let before_end = |at: Moment| whole(length.end - at);
            let cold = |cold| What::Cold(bake, step, cold);
            // What is ready before it would go in stays where it is, and what is ready in there is taken up there.
            if before_end(stay.from) < whole(FOLD) {
                continue;
            }
            let later = whole(FOLD_LATER);
            if !stay.is_in {
                self.in_passing(rise, cold(Cold::In), before_end(stay.from), later);
            }
            // A stay that is only supposed is tried for just so long.
            let is_planned = state.retards.contains_key(&step);
            let later = if is_planned { later } else { 0 };
            if before_end(stay.to) >= whole(FOLD) {
                self.in_passing(rise, cold(Cold::Out), before_end(stay.to), later);
                self.after_out(bake, step, self.tasks.len() - 1);
            }
            let has_room = state
                .formula
                .step(step)
                .is_some_and(|step| step.needs.fridge);
            let is_full = stay.is_in && self.is_held(FRIDGE);
            if !has_room && !is_full {
                let due = before_end(stay.from).min(rise.1);
                let left = (due - before_end(stay.to)).max(0);
                self.what.push(cold(Cold::Stands));
                self.tasks.push(Task::new(left, &[FRIDGE]));
                self.link(from, self.tasks.len() - 1, (-due, Some(-due)), 0);
            }
        }
    }

    /// However late a dough is taken out, hands go on with it only after that.
    fn after_out(&mut self, bake: usize, rise: StepId, out: usize) {
        let state = self.bakes[bake];
        let follows = |step: &&Step| step.is_hands() && step.after.iter().any(|l| l.step == rise);
        for step in state.formula.steps.iter().filter(follows) {
            if let Some(to) = self.place(What::Step(bake, step.id)) {
                self.link(out, to, (0, None), 0);
            }
        }
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

/// What a step holds from its start to its end.
fn needs(step: &Step) -> Vec<usize> {
    let all = [
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
