//! What takes the hands in the midst of a rise: folds, and the ways into the fridge and out of it.

use super::links::LATE_FOLD;
use super::{FRIDGE, HANDS, Tasks, whole};
use crate::formula::{Step, StepId};
use crate::schedule::plan::what::{RetardPart, What};
use crate::schedule::solve::{Edge, Task};
use crate::units::{Minutes, Moment, minutes};

/// How long a fold takes the hands.
///
/// ASSUMPTION: common practice, no source.
const FOLD: Minutes = minutes(3.0);
/// How much later than its moment a fold may come, or a dough into the fridge or out of it. Beyond that is told.
///
/// ASSUMPTION: common practice, no source.
const FOLD_LATER: Minutes = minutes(10.0);

impl Tasks<'_> {
    pub(super) fn add_folds(&mut self, bake: usize) {
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
    pub(super) fn add_stays(&mut self, bake: usize) {
        let state = self.bakes[bake];
        for (&step, length) in self.lengths[bake].iter() {
            let found = self.place(What::Step(bake, step));
            let stay = state.stay_or_supposed(step, length.start);
            let (Some(from), Some(stay)) = (found, stay) else {
                continue;
            };
            let rise = (from, self.tasks[from].minutes);
            let before_end = |at: Moment| whole(length.end - at);
            let cold = |cold| What::Retard(bake, step, cold);
            // What is ready before it would go in stays where it is, and what is ready in there is taken up there.
            if before_end(stay.from) < whole(FOLD) {
                continue;
            }
            let later = whole(FOLD_LATER);
            if !stay.is_in {
                self.in_passing(rise, cold(RetardPart::In), before_end(stay.from), later);
            }
            // A stay that is only supposed is tried for just so long.
            let is_planned = state.retards.contains_key(&step);
            let later = if is_planned { later } else { 0 };
            let comes_out = before_end(stay.to) >= whole(FOLD);
            if comes_out {
                self.in_passing(rise, cold(RetardPart::Out), before_end(stay.to), later);
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
                let stands = self.tasks.len();
                self.what.push(cold(RetardPart::Stands));
                self.tasks.push(Task::new(left, &[FRIDGE]));
                self.link(from, stands, (-due, Some(-due)), 0);
                // What is ready in there waits in there as well.
                let next = self.fetched_by(bake, step).filter(|_| !comes_out);
                if let Some((next, all)) = next {
                    self.covered.push(stands);
                    let since = Edge::Start(stands);
                    self.stand(if stay.is_in { Edge::Ever } else { since }, next);
                    self.kept.push((bake, step, all));
                }
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
}
