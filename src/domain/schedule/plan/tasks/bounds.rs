//! What keeps work from being done at some time: nobody is there, something else has the oven, it was fixed.

use super::{FRIDGE, HANDS, OVEN, Tasks, needs};
use crate::bake::State;
use crate::formula::StepId;
use crate::schedule::plan::Plan;
use crate::schedule::plan::lengths::ovens::{Hot, heat};
use crate::schedule::plan::starts::let_go::Limit;
use crate::schedule::plan::what::{RetardPart, What};
use crate::schedule::solve::Task;
use crate::sorted;
use crate::units::Moment;

impl Tasks<'_> {
    /// Nobody is in the kitchen from one moment to another.
    pub(crate) fn close(&mut self, from: Moment, to: Moment) {
        // Rounded apart, so that it ends at the same minute before it has begun and after.
        let (start, end) = (self.minute(from.max(self.now)), self.minute(to));
        if end > start {
            self.what.push(What::Away);
            self.tasks.push(Task::away(start, end - start, &[HANDS]));
        }
    }

    /// The hands rest from one moment to another, but for what is told to be done then already.
    pub(crate) fn rest(&mut self, from: Moment, to: Moment) {
        let (mut start, to) = (self.minute(from.max(self.now)), self.minute(to));
        let told = self.what.iter().zip(&self.tasks);
        let told = told.filter(|(what, task)| **what == What::Away && task.needs.contains(&HANDS));
        let mut told: Vec<(i32, i32)> = told
            .map(|(_, task)| (task.earliest, task.earliest + task.minutes))
            .collect();
        told.push((to, to));
        sorted::by_key(&mut told, |&told| told);
        for (from, until) in told {
            let end = from.min(to);
            if end > start {
                self.what.push(What::Away);
                self.tasks.push(Task::away(start, end - start, &[HANDS]));
            }
            start = start.max(until);
        }
    }

    /// What other bakes hold by their plan isn't there.
    pub(crate) fn leave_room(&mut self, plan: &Plan, others: &[&State]) {
        self.others = self.tasks.len();
        for item in &plan.items {
            let (bake, mut needs) = match item.what {
                What::Step(bake, step) => {
                    let state = others.get(bake);
                    let step = state.and_then(|state| Some((state, state.formula.step(step)?)));
                    let needs = step.map(|(state, step)| needs(step, heat(state).is_some()));
                    (bake, needs.unwrap_or_default())
                }
                What::Retard(bake, _, RetardPart::Stands) | What::Kept(bake, _) => {
                    (bake, vec![FRIDGE])
                }
                What::Fold(bake, ..) | What::Retard(bake, ..) => (bake, vec![HANDS]),
                // Told already.
                What::Away => continue,
            };
            let from = self.minute(item.start.max(self.now));
            let minutes = self.minute(item.end) - from;
            // What goes on holds what it holds; what is still to begin finds it there.
            needs.retain(|&need| from > 0 || !self.is_held(need));
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
                state: block.and_then(|_| heat(others[bake])),
                ..Task::away(from, minutes, &needs)
            });
        }
    }

    /// Nothing of a bake that can wait starts before a moment.
    pub(crate) fn release(&mut self, bake: usize, at: Moment) {
        let (minute, held) = (self.minute(at), self.bakes[bake].held_back());
        for (what, task) in self.what.iter().zip(&mut self.tasks) {
            if matches!(*what, What::Step(of, step) if of == bake && held.contains(&step)) {
                task.earliest = task.earliest.max(minute);
            }
        }
    }

    /// All of a bake has ended by a moment.
    pub(crate) fn end_by(&mut self, bake: usize, at: Option<Moment>) {
        let Some(end) = at.map(|at| self.minute(at)) else {
            return;
        };
        for (what, task) in self.what.iter().zip(&mut self.tasks) {
            if what.of().is_some_and(|(of, _)| of == bake) {
                let latest = end - task.minutes;
                task.latest = Some(task.latest.map_or(latest, |other| other.min(latest)));
            }
        }
    }

    /// A bread that another's heating counts on stays before it.
    pub(crate) fn keep_hot(&mut self, hot: &[Hot]) {
        for hot in hot {
            let after = self.place(What::Step(hot.after.0, hot.after.1));
            let heats = self.place(What::Step(hot.heats.0, hot.heats.1));
            if let (Some(after), Some(heats)) = (after, heats) {
                // It may be in there still, where the other one can share it.
                let least = if hot.shares {
                    -self.tasks[after].minutes
                } else {
                    0
                };
                self.link(after, heats, (least, None), 0);
            }
        }
    }

    /// Steps that the baker fixed to a moment start then, where that lies ahead and they haven't.
    pub(crate) fn pin(&mut self) {
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

    /// What has baked comes out now, whatever the hands are at.
    pub(crate) fn take_out(&mut self) {
        let bakes = self.bakes.iter().enumerate();
        let outs: Vec<_> = bakes
            .filter_map(|(bake, state)| self.place(What::Step(bake, state.to_take_out()?)))
            .collect();
        for place in outs {
            self.start_now(place);
            self.free += self.tasks[place].minutes;
        }
    }

    /// What the hands are at isn't put off once they are free, as long as nothing else has to come first.
    pub(crate) fn go_on_with(&mut self, bake: usize, step: StepId) {
        let is_out = self.bakes[bake].to_take_out() == Some(step);
        if let Some(place) = self.place(What::Step(bake, step)).filter(|_| !is_out) {
            self.start_now(place);
        }
    }

    /// Something begins by a moment, or as soon after that as it can.
    pub(crate) fn begin_by(&mut self, what: What, at: Moment) {
        if let Some(place) = self.place(what) {
            self.start(place, self.minute(at));
        }
    }

    fn start_now(&mut self, place: usize) {
        self.start(place, self.free);
    }

    fn start(&mut self, place: usize, by: i32) {
        let task = &mut self.tasks[place];
        task.latest = Some(by.max(task.earliest));
        self.soon.push((place, 0));
    }
}
