//! What of a plan somebody has to be called for.
//!
//! Hands that go on from one step of a bake to the next are in the kitchen already, so they are
//! called once for all of it. A fold, an oven that has to be turned on and what the baker fixed to a
//! moment have one of their own, and so has what likely comes to its end by itself then: work that begins with it begins
//! a new call. An oven that has become hot calls nobody, for it waits. While nobody is there only what burns or spoils
//! calls; what else ends then calls as they are back, as an alarm does (`bake::absence`).

use crate::bake::{CALLED, State};
use crate::formula::StepKind;
use crate::schedule::plan::{Item, Plan, What};
use crate::sorted;
use crate::units::Moment;

/// One moment to be there for, and what is there to do. Items are told by their places in the plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Call {
    /// Whose, by its place among the bakes that are planned together.
    pub bake: usize,
    /// When.
    pub at: Moment,
    /// Until when there is something to do.
    pub until: Moment,
    /// What has likely come to its end by itself, then or while nobody was there.
    pub looks: Vec<usize>,
    /// What the hands do from then on, one after the other.
    pub work: Vec<usize>,
}

/// Everything that calls somebody from a moment on, in the order of time.
#[must_use]
pub fn agenda(plan: &Plan, bakes: &[&State], from: Moment) -> Vec<Call> {
    let mut calls: Vec<Call> = Vec::new();
    for (place, item) in plan.items.iter().enumerate() {
        if let Some((bake, kind)) = waits(item, bakes)
            && kind != StepKind::OvenHeats
        {
            let at = called_at(plan, item, bakes).unwrap_or(item.end);
            match calls
                .iter_mut()
                .find(|call| call.bake == bake && call.at == at)
            {
                Some(call) => call.looks.push(place),
                None => calls.push(call(bake, at, vec![place], Vec::new())),
            }
        }
    }
    for (place, item) in plan.items.iter().enumerate() {
        let Some((bake, has_its_moment)) = works(item, bakes) else {
            continue;
        };
        let looked = |call: &&mut Call| call.bake == bake && call.at == item.start;
        let goes_on = |call: &&mut Call| {
            call.bake == bake && call.until == item.start && !call.work.is_empty()
        };
        let found = match calls.iter_mut().find(looked) {
            Some(call) => Some(call),
            None if has_its_moment => None,
            None => calls.iter_mut().find(goes_on),
        };
        match found {
            Some(call) => {
                call.work.push(place);
                call.until = item.end;
            }
            None => calls.push(Call {
                until: item.end,
                ..call(bake, item.start, Vec::new(), vec![place])
            }),
        }
    }
    // Plans go by whole minutes: whoever is at a bake goes on with it in the next one, and isn't called.
    let goes_on = |call: &Call| {
        let has_begun = bakes.get(call.bake).is_some_and(|state| state.has_begun());
        has_begun && call.looks.is_empty() && call.at - from < CALLED
    };
    calls.retain(|call| call.at >= from && !goes_on(call));
    sorted::by_key(&mut calls, |call| (call.at, call.bake));
    calls
}

fn call(bake: usize, at: Moment, looks: Vec<usize>, work: Vec<usize>) -> Call {
    Call {
        bake,
        at,
        until: at,
        looks,
        work,
    }
}

/// When somebody is called for the end of a step that goes on by itself.
fn called_at(plan: &Plan, item: &Item, bakes: &[&State]) -> Option<Moment> {
    let What::Step(bake, step) = item.what else {
        return None;
    };
    let state = bakes.get(bake)?;
    // From when to when the bake has an oven on.
    let heats = plan.items.iter().filter(|other| match other.what {
        What::Step(of, step) if of == bake => {
            let step = state.formula.step(step);
            step.is_some_and(|step| step.needs.oven)
        }
        _ => false,
    });
    let on = heats.clone().map(|other| other.start).min();
    let off = heats.map(|other| other.end).max();
    let is_on = on.zip(off);
    let is_on = is_on.is_some_and(|(on, off)| on <= item.end && item.end < off);
    let step = state.formula.step(step)?;
    Some(state.called_at(step, (item.start, item.end), is_on))
}

/// Whose step goes on by itself, and of what kind it is.
fn waits(item: &Item, bakes: &[&State]) -> Option<(usize, StepKind)> {
    let What::Step(bake, step) = item.what else {
        return None;
    };
    let step = bakes.get(bake)?.formula.step(step)?;
    (!step.is_hands()).then_some((bake, step.kind))
}

/// Whose hands something takes, and whether it has a moment of its own.
fn works(item: &Item, bakes: &[&State]) -> Option<(usize, bool)> {
    match item.what {
        What::Step(bake, step) => {
            let state = bakes.get(bake)?;
            let is_fixed = state.pins.get(&step) == Some(&item.start);
            let step = state.formula.step(step)?;
            let is_own = is_fixed || step.kind == StepKind::OvenOn;
            (is_fixed || step.is_hands()).then_some((bake, is_own))
        }
        other => other
            .of()
            .filter(|_| other.is_in_passing())
            .map(|(bake, _)| (bake, true)),
    }
}
