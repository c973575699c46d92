//! What is kept in the fridge: it takes room there from when it is put in until what comes next fetches it.

use super::{FRIDGE, Tasks};
use crate::bake::How;
use crate::formula::{Formula, Step, StepId, StepKind};
use crate::schedule::filled::all_before;
use crate::schedule::plan::what::What;
use crate::schedule::solve::{Edge, Stay};

impl Tasks<'_> {
    pub(super) fn add_kept(&mut self, bake: usize) {
        let state = self.bakes[bake];
        for step in state.formula.steps.iter().filter(|step| step.needs.fridge) {
            let Some((next, all)) = self.fetched_by(bake, step.id) else {
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
            self.kept.push((bake, step.id, all));
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

    /// What fetches what a step left in the fridge, of what is still to begin: the last of it, as far as the formula says,
    /// and all. `None` where nothing does.
    pub(super) fn fetched_by(&self, bake: usize, step: StepId) -> Option<(usize, Vec<usize>)> {
        let state = self.bakes[bake];
        let formula = &state.formula;
        let placed = fetches(formula, step).into_iter().filter_map(|other| {
            let is_to_come = state.progress(other).open_since.is_none();
            let place = self.place(What::Step(bake, other));
            Some((other, place.filter(|_| is_to_come)?))
        });
        let all: Vec<(StepId, usize)> = placed.collect();
        let is_last = |&&(one, _): &&(StepId, usize)| {
            let mut others = all.iter().filter(|&&(other, _)| other != one);
            !others.any(|&(other, _)| all_before(formula, other).contains(&one))
        };
        let &(_, last) = all.iter().rev().find(is_last)?;
        Some((last, all.iter().map(|&(_, place)| place).collect()))
    }
}

/// The steps that fetch what one left in the fridge, in the formula's order.
///
/// A link says what has to end before, not what is taken: so work at the same part fetches it, and any other only where
/// no such work follows. What is used a portion at a time, as a filling or a wash, is fetched by later work of that kind
/// as well, unless it was put away anew before that.
fn fetches(formula: &Formula, step: StepId) -> Vec<StepId> {
    let part = formula.step(step).map(|step| step.component);
    let is_own = |other: &&Step| Some(other.component) == part;
    let follows = |other: &&Step| {
        let mut links = other.after.iter();
        other.kind != StepKind::OvenOn && links.any(|link| link.step == step)
    };
    let own = formula.steps.iter().filter(follows).filter(is_own);
    let own: Vec<StepKind> = own.map(|other| other.kind).collect();
    let comes_after = |other: StepId, one: StepId| all_before(formula, other).contains(&one);
    let is_portion = |other: &&Step| {
        let by_portions = matches!(
            other.kind,
            StepKind::Fill | StepKind::Wash | StepKind::Finish
        );
        let mut again = formula.steps.iter().filter(is_own);
        by_portions
            && own.contains(&other.kind)
            && comes_after(other.id, step)
            && !again.any(|put| {
                put.needs.fridge
                    && put.id != step
                    && comes_after(put.id, step)
                    && comes_after(other.id, put.id)
            })
    };
    let fetches = |other: &&Step| {
        let is_first = follows(other) && (is_own(other) || own.is_empty());
        is_first || (is_own(other) && is_portion(other))
    };
    let steps = formula.steps.iter().filter(fetches);
    steps.map(|step| step.id).collect()
}
