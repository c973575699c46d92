//! What would stand out of the fridge while a bake waits for somebody's hands, and what stays there when all else is
//! gathered.
//!
//! The two-hour rule of [`PERISHABLE_LIMIT`](crate::bake::PERISHABLE_LIMIT) holds for milk and egg that were weighed. What
//! is needed later than that is at hand in the fridge, and is weighed when it is needed: the baker is told before
//! anything is weighed, so it doesn't count as standing out from then on. For
//! a dough no such rule was found (see [`filled`](super::filled)), but one that waits longer by as much than is good for
//! it is past its time, whatever is in it.

use super::filled::{all_before, out_limit};
use crate::bake::{CALLED, How, State};
use crate::food::FoodKind;
use crate::formula::{Component, ComponentId, ComponentKind, Step, StepId, StepKind};
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

/// A part of a bake of which milk and egg stay in the fridge when all else is gathered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct InFridge {
    /// Which.
    pub component: ComponentId,
    /// When they are needed.
    pub until: Moment,
}

impl Plan {
    /// The parts of one of its bakes that aren't gathered yet and whose milk and egg would stand out for too long from
    /// then on until they are needed, in the order in which they are.
    #[must_use]
    pub fn stay_in_fridge(&self, bake: usize, state: &State) -> Vec<InFridge> {
        let mut stay = Vec::new();
        let mut gathered = None;
        // What a part is used for first comes first.
        for item in &self.items {
            let What::Step(of, step) = item.what else {
                continue;
            };
            let Some(step) = state.formula.step(step).filter(|_| of == bake) else {
                continue;
            };
            let is_left = state.progress(step.id).ended.is_none();
            if step.kind == StepKind::Gather && is_left {
                gathered = gathered.or(Some(item.end));
            }
            let component = step.component;
            let is_known = stay
                .iter()
                .any(|part: &InFridge| part.component == component);
            let part = state.formula.component(component);
            let spoils = part.is_some_and(|part| spoiling(part).next().is_some());
            if works_at(step, component) && spoils && !is_known && !is_begun(state, component) {
                let until = item.start;
                stay.push(InFridge { component, until });
            }
        }
        let is_long = |until: Moment, since| until - since > out_limit(state.kitchen.air);
        stay.retain(|part| gathered.is_some_and(|since| is_long(part.until, since)));
        stay
    }

    /// What one of its bakes leaves out for too long by it: a dough, or else what was weighed. `called` is when somebody
    /// was called to go on with it, if they were.
    #[must_use]
    pub fn left_out(&self, bake: usize, state: &State, called: Option<Moment>) -> Option<LeftOut> {
        let mut items = self.items.iter();
        let dough = items.find_map(|item| match (item.what, item.too_late_by) {
            (What::Step(of, step), Some(late))
                if of == bake
                    // What can't be as soon as it was fixed waits for nothing by that.
                    && state.pins.get(&step).is_none_or(|&pin| item.start - pin != late)
                    && dough_left_out(state, step, late) =>
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
            // What was fixed calls by its own name.
            let fixed = state.pins.get(&step).copied();
            let fixed = fixed.filter(|&pin| at - pin >= CALLED);
            let called = called.into_iter().chain(fixed).min();
            (!weighed_out(state, step, at, called).is_empty()).then_some(LeftOut {
                step,
                at,
                is_dough: false,
            })
        })
    }
}

/// The milk and egg of what was gathered, by what the baker calls them, that would stand out too long if a bake went on
/// with a step at a moment. What is in a dough or a filling by then isn't among them.
///
/// Who was called so long after they had gathered that it stayed in the fridge has it out from then on.
#[must_use]
pub fn weighed_out(
    state: &State,
    goes_on_with: StepId,
    at: Moment,
    called: Option<Moment>,
) -> Vec<&str> {
    let formula = &state.formula;
    let before = all_before(formula, goes_on_with);
    let done = |step: StepId| {
        let ended = state.progress(step).ended;
        ended.filter(|ended| ended.how == How::Done)
    };
    let steps = formula.steps.iter();
    let gathered = steps.filter(|step| step.kind == StepKind::Gather && before.contains(&step.id));
    let gathered = gathered.filter_map(|step| Some(done(step.id)?.at)).min();
    let is_long = |since: Moment, at: Moment| at - since > out_limit(state.kitchen.air);
    let out_since = gathered.map(|since| {
        let stayed = called.filter(|&called| is_long(since, called));
        stayed.unwrap_or(since)
    });
    if out_since.is_none_or(|since| !is_long(since, at)) {
        return Vec::new();
    }
    let goes_on_at = formula.step(goes_on_with).map(|step| step.component);
    let mut names: Vec<&str> = Vec::new();
    for component in &formula.components {
        // The spoonful of a wash stands beside the rises of any bake, and is said to be put away where it is next.
        if component.kind == ComponentKind::Wash && Some(component.id) != goes_on_at {
            continue;
        }
        if !is_begun(state, component.id) {
            for name in spoiling(component) {
                if !names.contains(&name) {
                    names.push(name);
                }
            }
        }
    }
    names
}

/// The milk and egg of a part of a bake, by what the baker calls them.
pub fn spoiling(component: &Component) -> impl Iterator<Item = &str> {
    let parts = component.ingredients.iter();
    let spoils = parts.filter(|part| matches!(part.food.kind, FoodKind::Egg | FoodKind::Milk));
    spoils.map(|part| part.name.as_str())
}

/// Whether hands take what was gathered for a part of a bake.
fn works_at(step: &Step, component: ComponentId) -> bool {
    step.component == component && step.is_hands() && step.kind != StepKind::Gather
}

fn is_begun(state: &State, component: ComponentId) -> bool {
    let mut steps = state.formula.steps.iter();
    steps.any(|step| works_at(step, component) && state.progress(step.id).ended.is_some())
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
