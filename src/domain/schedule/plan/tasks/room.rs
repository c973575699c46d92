//! How much stands in the fridge.

use crate::bake::State;
use crate::kitchen::FRIDGE_HOLDS;
use crate::schedule::plan::what::{RetardPart, What};
use crate::schedule::plan::{Item, Plan};
use crate::units::Moment;

impl Plan {
    /// From when to when more is to stand in the fridge than fits, for the first time; `None` where that is never so.
    /// What stands in a full fridge already was put there by somebody who saw it.
    #[must_use]
    pub fn fridge_full(&self, bakes: &[&State]) -> Option<(Moment, Moment)> {
        self.fuller_than(room(bakes), bakes)
    }

    pub(crate) fn fuller_than(&self, room: u32, bakes: &[&State]) -> Option<(Moment, Moment)> {
        let cold = self.items.iter().filter(|item| stands_cold(item, bakes));
        let cold: Vec<&Item> = cold.filter(|item| item.start < item.end).collect();
        let count = |at: Moment| {
            let there = cold.iter().filter(|item| item.start <= at && at < item.end);
            there.count()
        };
        let is_full = |at: Moment| count(at) > room as usize;
        let to_come = cold.iter().filter(|item| !is_in(item, bakes));
        let starts = to_come.map(|item| item.start);
        let from = starts.filter(|&at| is_full(at)).min()?;
        let ends = cold.iter().map(|item| item.end);
        let to = ends.filter(|&at| at > from && !is_full(at)).min()?;
        Some((from, to))
    }
}

/// How much fits into the fridge of some bakes.
pub(crate) fn room(bakes: &[&State]) -> u32 {
    let kitchen = bakes.first().map(|state| state.kitchen);
    kitchen.map_or(FRIDGE_HOLDS, |kitchen| kitchen.fridge_holds)
}

/// Whether more could stand in the fridge than fits, whatever the plan.
pub(crate) fn could_fill(bakes: &[&State]) -> bool {
    let stands = bakes.iter().map(|state| {
        let steps = state.formula.steps.iter().filter(|step| step.needs.fridge);
        steps.count() + state.retards.len()
    });
    stands.sum::<usize>() > room(bakes) as usize
}

/// Whether something that takes room in the fridge stands there already.
fn is_in(item: &Item, bakes: &[&State]) -> bool {
    let Some((bake, step)) = item.what.of() else {
        return false;
    };
    bakes.get(bake).is_some_and(|state| {
        let progress = state.progress(step);
        match item.what {
            What::Kept(..) => progress.ended.is_some(),
            What::Retard(..) => state.stay(step, item.start).is_some_and(|stay| stay.is_in),
            _ => progress.open_since.is_some(),
        }
    })
}

/// Whether something takes room in the fridge.
fn stands_cold(item: &Item, bakes: &[&State]) -> bool {
    match item.what {
        What::Step(bake, step) => {
            let of = bakes.get(bake).and_then(|state| state.formula.step(step));
            of.is_some_and(|step| step.needs.fridge)
        }
        What::Retard(_, _, part) => part == RetardPart::Stands,
        What::Kept(..) => true,
        What::Fold(..) | What::Away => false,
    }
}
