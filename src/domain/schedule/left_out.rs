//! What would stand out of the fridge while a bake waits for somebody's hands.
//!
//! The two-hour rule of [`PERISHABLE_LIMIT`](crate::bake::PERISHABLE_LIMIT) holds for milk and egg that were weighed. For
//! a dough no such rule was found (see [`filled`](super::filled)), but one that waits longer by as much than is good for
//! it is past its time, whatever is in it.

use super::filled::{all_before, out_limit};
use crate::bake::{How, State};
use crate::food::FoodKind;
use crate::formula::{ComponentKind, StepId, StepKind};
use crate::schedule::plan::{Plan, What};
use crate::units::{Minutes, Moment};

/// What is left out for too long while a bake waits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeftOut {
    /// With which step it goes on.
    pub step: StepId,
    /// When.
    pub at: Moment,
    /// Whether that is a dough; milk and egg that were weighed, if not.
    pub is_dough: bool,
}

impl Plan {
    /// What one of its bakes leaves out for too long by it: a dough, or else what was weighed.
    #[must_use]
    pub fn left_out(&self, bake: usize, state: &State) -> Option<LeftOut> {
        let mut items = self.items.iter();
        let dough = items.find_map(|item| match (item.what, item.too_late_by) {
            (What::Step(of, step), Some(late))
                if of == bake && dough_left_out(state, step, late) =>
            {
                Some(LeftOut {
                    step,
                    at: item.start,
                    is_dough: true,
                })
            }
            _ => None,
        });
        dough.or_else(|| {
            let (step, at) = self.begin_of(bake, state)?;
            (!weighed_out(state, step, at).is_empty()).then_some(LeftOut {
                step,
                at,
                is_dough: false,
            })
        })
    }
}

/// The milk and egg that were weighed, by what the baker calls them, and would stand out too long if a bake went on with
/// a step at a moment. What is in a dough or a filling by then isn't among them.
#[must_use]
pub fn weighed_out(state: &State, goes_on_with: StepId, at: Moment) -> Vec<&str> {
    let formula = &state.formula;
    let before = all_before(formula, goes_on_with);
    let done = |step: StepId| {
        let ended = state.progress(step).ended;
        ended.filter(|ended| ended.how == How::Done)
    };
    let steps = formula.steps.iter();
    let gathered = steps.filter(|step| step.kind == StepKind::Gather && before.contains(&step.id));
    let gathered = gathered.filter_map(|step| Some(done(step.id)?.at)).min();
    if gathered.is_none_or(|since| at - since <= out_limit(state.kitchen.air)) {
        return Vec::new();
    }
    let goes_on_at = formula.step(goes_on_with).map(|step| step.component);
    let mut names: Vec<&str> = Vec::new();
    for component in &formula.components {
        // The spoonful of a wash stands beside the rises of any bake, and is said to be put away where it is next.
        if component.kind == ComponentKind::Wash && Some(component.id) != goes_on_at {
            continue;
        }
        let mut own = formula.steps.iter().filter(|step| {
            step.component == component.id && step.is_hands() && step.kind != StepKind::Gather
        });
        if own.any(|step| state.progress(step.id).ended.is_some()) {
            continue;
        }
        for part in &component.ingredients {
            let spoils = matches!(part.food.kind, FoodKind::Egg | FoodKind::Milk);
            if spoils && !names.contains(&part.name.as_str()) {
                names.push(&part.name);
            }
        }
    }
    names
}

/// Whether a dough would be left out for too long if a step came so much later than is good for it: what is mixed, and
/// not yet baked.
#[must_use]
pub fn dough_left_out(state: &State, step: StepId, late: Minutes) -> bool {
    let formula = &state.formula;
    let before = all_before(formula, step);
    let has = |kind: StepKind| {
        let mut steps = formula.steps.iter();
        steps.any(|other| other.kind == kind && other.id != step && before.contains(&other.id))
    };
    late > out_limit(state.kitchen.air) && has(StepKind::Mix) && !has(StepKind::Bake)
}
