//! What waits for what, how long it may, and how much a minute of that matters.

use super::{Tasks, is_present, whole};
use crate::bake::State;
use crate::formula::{Caution, Step, StepId};
use crate::schedule::plan::what::What;
use crate::schedule::solve::{Link, Task};

impl Tasks<'_> {
    pub(super) fn add_links(&mut self, bake: usize) {
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
                    let night = self.most_of_night(bake, link.step, step.id);
                    let most = link.greatest.map(|most| most.get().floor() as i32);
                    most.into_iter().chain(night).min()
                };
                let weight = weight(state, (link.step, step), link.greatest.is_some());
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
    pub(super) fn start_by(&mut self, to: usize, minute: i32, most: i32) {
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
        let state = self.bakes[bake];
        let early = state.hot_before(ahead_of, of.start, of.slack.0);
        let before_end = early + state.kitchen.oven_heats_in;
        self.link(from, to, (-whole(before_end), None), HEATING);
    }

    pub(super) fn link(
        &mut self,
        from: usize,
        to: usize,
        (least, most): (i32, Option<i32>),
        weight: u16,
    ) {
        self.links.push(Link {
            from,
            to,
            least,
            most,
        });
        self.weights.push(weight);
    }
}

/// How long what a step put into the fridge keeps there, in minutes, by the fewest days.
fn keeps(state: &State, step: StepId) -> Option<i32> {
    let kept = state.kept_after(state.formula.step(step)?)?;
    Some(i32::from(kept.days().0) * 24 * 60)
}

/// What a minute weighs in which something waits: what spoils, and hands between work and work that follows; what may wait
/// only so long, an oven that heats for nothing, a fold that comes late. What can wait weighs nothing.
///
/// ASSUMPTION: our judgement; only their order matters much.
const SPOILS: u16 = 4;
const LIMITED: u16 = 3;
const HEATING: u16 = 2;
pub(super) const LATE_FOLD: u16 = 1;

fn weight(state: &State, (after, then): (StepId, &Step), is_limited: bool) -> u16 {
    let step = state.formula.step(after);
    let spoils =
        step.is_some_and(|step| step.cautions.contains(&Caution::Perishable) && !step.needs.fridge);
    let is_work = then.is_hands() && step.is_some_and(Step::is_hands);
    match (spoils || is_work && is_limited, is_limited) {
        (true, _) => SPOILS,
        (false, true) => LIMITED,
        (false, false) => 0,
    }
}
