//! Goes through the rest of a bake from now on, step by step as each can begin.

use std::cell::OnceCell;

use super::{Planned, off, warming_since};
use crate::bake::State;
use crate::estimate::{Basis, Estimate};
use crate::formula::{Step, StepId};
use crate::schedule::offers::start_by;
use crate::sorted::Map;
use crate::units::{Minutes, Moment};

pub(super) struct Forward<'a> {
    pub(super) state: &'a State,
    pub(super) now: Moment,
    /// Whether the windows of steps that haven't begun are asked for.
    pub(super) windows: bool,
    // Reckoned when two steps first compete for the hands.
    pub(super) tails: OnceCell<Map<StepId, Minutes>>,
    pub(super) hands_free: Moment,
    pub(super) last_work: Option<StepId>,
    pub(super) planned: Map<StepId, Planned>,
}

impl Forward<'_> {
    pub(super) fn run(&mut self) {
        self.go_on_with_work();
        loop {
            while self.plan_what_goes_on_by_itself() {}
            let Some((step, ready, waited_for)) = self.next_work() else {
                break;
            };
            self.plan_work(step, ready, waited_for);
        }
    }

    fn plan_what_goes_on_by_itself(&mut self) -> bool {
        let steps = self.state.formula.steps.iter();
        let next = steps
            .filter(|step| !step.is_hands() && self.is_left(step.id))
            .find_map(|step| Some((step, self.ready(step)?)));
        let Some((step, (ready, waited_for))) = next else {
            return false;
        };
        let (start, window, look) = match self.state.forecast(step.id, self.now) {
            // "Not yet" moves the look, and with it the end that can be reckoned with.
            Some(forecast) => (forecast.start, forecast.window, forecast.look),
            None => {
                let planned = |step| self.planned.get(&step).copied();
                let warming_since = warming_since(self.state, step, &planned);
                // An oven is on early enough for the early end of what it is wanted after.
                let length = if self.windows || self.is_led_up_to(step.id) {
                    let state = self.state;
                    state.length_if_warming_since(step, ready, warming_since)
                } else {
                    let likely = self.state.likely_length(step, ready, warming_since);
                    Estimate::exact(likely, Basis::Model)
                };
                let window = length.map(|length| ready + length);
                (ready, window, window.likely())
            }
        };
        let end = window.likely().max(look).max(self.now);
        let planned = Planned {
            step: step.id,
            start,
            end,
            slack: off(self.state, step.id, (start, end), &window),
            waited_for,
            too_late_by: self.too_late_by(step, start),
        };
        self.planned.insert(step.id, planned);
        true
    }

    /// Whether something is timed by the early end of a step.
    fn is_led_up_to(&self, step: StepId) -> bool {
        let mut steps = self.state.formula.steps.iter();
        steps.any(|other| other.ahead_of == Some(step))
    }

    /// When a step ended, or is planned to.
    pub(super) fn end_of(&self, step: StepId) -> Option<Moment> {
        match self.state.progress(step).ended {
            Some(ended) => Some(ended.at),
            None => Some(self.planned.get(&step)?.end),
        }
    }

    pub(super) fn too_late_by(&self, step: &Step, start: Moment) -> Option<Minutes> {
        let by = start_by(step, &|step| self.end_of(step))?;
        (start > self.now && start > by).then(|| start - by)
    }

    pub(super) fn is_left(&self, step: StepId) -> bool {
        self.state.progress(step).ended.is_none() && !self.planned.contains_key(&step)
    }

    /// When a step may start, and the step it had to wait for; nothing while
    /// the end of something it follows isn't known.
    pub(super) fn ready(&self, step: &Step) -> Option<(Moment, Option<StepId>)> {
        let mut ready = (self.now, None);
        for link in &step.after {
            let end = self.end_of(link.step)?;
            if end + link.least > ready.0 {
                ready = (end + link.least, Some(link.step));
            }
        }
        // A rise that is planned to stand in the fridge begins as it is put there, whenever what comes before it ends.
        if let Some(&(from, _)) = self.state.retards.get(&step.id)
            && from > ready.0
        {
            ready = (from, None);
        }
        let Some(ahead_of) = step.ahead_of else {
            return Some(ready);
        };
        if self.state.progress(ahead_of).ended.is_some() {
            return Some(ready);
        }
        let planned = self.planned.get(&ahead_of)?;
        let heats_in = self.state.kitchen.oven_heats_in;
        let early = self
            .state
            .hot_before(ahead_of, planned.start, planned.slack.0);
        let turn_on = planned.end - early - heats_in;
        Some((ready.0.max(turn_on), ready.1))
    }

    pub(super) fn table(&self) -> Estimate<Moment> {
        let Some(last) = self.planned.values().max_by_key(|planned| planned.end) else {
            return Estimate::exact(self.state.newest, Basis::Measured);
        };
        let (mut early_squared, mut late_squared) = (0.0, 0.0);
        let mut chain = Some(last);
        let mut seen = 0;
        while let Some(planned) = chain {
            early_squared += planned.slack.0.get().powi(2);
            late_squared += planned.slack.1.get().powi(2);
            seen += 1;
            // A chain is never longer than the bake; the bound keeps a mistake from hanging it.
            chain = planned
                .waited_for
                .filter(|_| seen <= self.planned.len())
                .and_then(|step| self.planned.get(&step));
        }
        let early = Minutes::clamped(f64::sqrt(early_squared));
        let late = Minutes::clamped(f64::sqrt(late_squared));
        let low = (last.end - early).max(self.now);
        Estimate::new(low, last.end, last.end + late, Basis::Model)
    }
}
