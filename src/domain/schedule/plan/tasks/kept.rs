//! What is kept in the fridge: it takes room there from when it is put in until what comes next fetches it.

use super::{FRIDGE, Tasks};
use crate::bake::How;
use crate::formula::StepId;
use crate::schedule::plan::what::What;
use crate::schedule::solve::{Edge, Stay};

impl Tasks<'_> {
    pub(super) fn add_kept(&mut self, bake: usize) {
        let state = self.bakes[bake];
        for step in state.formula.steps.iter().filter(|step| step.needs.fridge) {
            let Some(next) = self.fetched_by(bake, step.id) else {
                continue;
            };
            let progress = state.progress(step.id);
            let from = match self.place(What::Step(bake, step.id)) {
                Some(place) => {
                    // What stands in a full fridge already takes nothing that could be counted.
                    if !self.tasks[place].needs.contains(&FRIDGE) {
                        continue;
                    }
                    self.covered.push(place);
                    let goes_on = !step.is_hands() && progress.open_since.is_some();
                    if goes_on {
                        Edge::Ever
                    } else {
                        Edge::Start(place)
                    }
                }
                None => {
                    let was_done = progress.ended.is_some_and(|ended| ended.how == How::Done);
                    if !was_done || self.is_held(FRIDGE) {
                        continue;
                    }
                    Edge::Ever
                }
            };
            self.stand(from, next);
            self.kept.push((bake, step.id, next));
        }
    }

    /// Something stands in the fridge until a task begins.
    pub(super) fn stand(&mut self, from: Edge, until: usize) {
        self.stays.push(Stay {
            resource: FRIDGE,
            from,
            to: Edge::Start(until),
        });
    }

    /// What begins with what a step left; of several that one which the formula has last. `None` where nothing follows
    /// that is still to begin.
    pub(super) fn fetched_by(&self, bake: usize, step: StepId) -> Option<usize> {
        let state = self.bakes[bake];
        let steps = state.formula.steps.iter().rev();
        let mut follows = steps.filter(|other| other.after.iter().any(|link| link.step == step));
        follows.find_map(|other| {
            let is_to_come = state.progress(other.id).open_since.is_none();
            self.place(What::Step(bake, other.id))
                .filter(|_| is_to_come)
        })
    }
}
