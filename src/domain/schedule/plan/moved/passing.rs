//! What time itself has moved: something should have begun or ended, and nobody said that it has.

use super::{Both, Moved, Why};
use crate::formula::{Step, StepId};
use crate::schedule::plan::{Item, What};
use crate::units::{Minutes, Moment, minutes};

/// What only time has moved is told from here on: minute by minute it would be noise. ASSUMPTION: judgement.
const NOISE: Minutes = minutes(5.0);

impl Moved {
    /// Whether it is worth telling: of what only time has moved, what is more than noise. What isn't told adds up.
    #[must_use]
    pub fn is_news(&self) -> bool {
        let by = self.ready.1 - self.ready.0;
        !self.why.is_passing() || by.get().abs() >= NOISE.get()
    }
}

impl<'a> Both<'a> {
    /// What time has gone by, and how much later that is for it: of what everything hangs on first, then of all the rest.
    pub(super) fn passing(&self, chain: &[What]) -> Option<(Why, Minutes)> {
        for bake in 0..self.after.bakes.len() {
            if let Some((step, place, due)) = self.state(bake).to_be_moved(self.now)
                && due < self.now
            {
                let by = self.since(due);
                return Some((Why::Unmoved(self.named(bake, step)?, place, by), by));
            }
        }
        let plan = &self.after.timetable.plan;
        let of_step = |item: &'a Item| {
            let What::Step(bake, step) = item.what else {
                return None;
            };
            Some((bake, step, item, self.was(item.what)?))
        };
        let all = plan.items.iter().filter_map(of_step);
        let of_chain = all
            .clone()
            .filter(|(.., item, _)| chain.contains(&item.what));
        let is_overdue = |(bake, step, item, was): &(usize, StepId, &Item, &Item)| {
            let begun = item.start < self.now
                || self.step(*bake, *step).is_some_and(|step| !step.is_hands());
            begun && self.state(*bake).is_open(*step) && was.end < self.now && item.end > was.end
        };
        let waits = |(.., item, was): &(usize, StepId, &Item, &Item)| {
            was.start < self.now && item.start > was.start
        };
        // What goes on began before the plan, so it stands ahead of the chain: where something in that follows it, or hands
        // are at it and so at nothing else. Else what is told hangs on explains more than what doesn't.
        let is_ahead = |of: &(usize, StepId, &Item, &Item)| {
            let is_hands = self.step(of.0, of.1).is_some_and(Step::is_hands);
            let mut then = chain.iter().filter_map(|what| what.of());
            let follows = then.any(|(bake, step)| {
                let step = self.step(bake, step).filter(|_| bake == of.0);
                step.is_some_and(|step| step.after.iter().any(|link| link.step == of.1))
            });
            is_overdue(of) && (is_hands || follows)
        };
        let first = of_chain.clone().find(is_overdue);
        let first = first.or_else(|| all.clone().find(is_ahead));
        let first = first.or_else(|| of_chain.clone().find(waits));
        let first = first.or_else(|| all.clone().find(is_overdue));
        let (bake, step, item, was) = first.or_else(|| all.clone().find(waits))?;
        if is_overdue(&(bake, step, item, was)) {
            // The plan before may have waited for it already.
            let state = self.state(bake);
            let put_off = state.progress(step).look_again.is_some();
            let forecast = state.forecast(step, self.now).filter(|_| !put_off);
            let likely = forecast.map_or(was.end, |forecast| forecast.window.likely());
            let due = was.end.min(likely);
            let why = Why::Overdue(self.named(bake, step)?, self.since(due));
            return Some((why, item.end - was.end));
        }
        let why = Why::Waits(self.named(bake, step)?, self.since(was.start));
        Some((why, item.start - was.start))
    }

    fn since(&self, moment: Moment) -> Minutes {
        minutes((self.now - moment).get().round())
    }
}
