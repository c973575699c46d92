//! What has stood out beyond its limit, or will have by the plan, and how that is told of all bakes: a baker isn't told of it by how many minutes it is late.

use domain::bake::{Keeps, Spoils, State};
use domain::formula::StepKind;
use domain::schedule::plan::{Plan, What};
use domain::units::Moment;

use crate::state::Planned;
use crate::words;

/// What is said of one bake, and whether that takes the place of all lateness in it.
pub(super) fn limits(plan: &Plan, bake: usize, state: &State, now: Moment) -> (bool, String) {
    let stood = state.stood(now);
    if stood.iter().any(|stood| stood.keeps(now) > Keeps::Soon) {
        let (is_lost, mut said) = words::stood(state, now);
        if is_lost {
            said = format!("{}. {said}", words::LOST);
        }
        return (is_lost, said);
    }
    // What is still within its limit, and by the plan isn't when it is baked or eaten.
    for stood in &stood {
        let ends = match stood.what {
            Spoils::Filling if stood.is_in => StepKind::Bake,
            Spoils::Bread => StepKind::Serve,
            _ => continue,
        };
        for item in &plan.items {
            if let What::Step(of, step) = item.what
                && of == bake
                && item.start > stood.by()
                && let Some(step) = state.formula.step(step)
                && step.kind == ends
            {
                let said = words::late_for_limit(&step.title, item.start, stood, now);
                return (true, said);
            }
        }
    }
    (false, String::new())
}

/// By bake what is said of limits that are past, and of what is left out while something waits, with its name where there
/// are several.
pub(super) fn left_out(
    planned: &Planned,
    states: &[&State],
    names: &[String],
    past: Vec<String>,
    now: Moment,
) -> Vec<String> {
    let mut left_out = Vec::new();
    for (bake, ((state, name), past)) in states.iter().zip(names).zip(past).enumerate() {
        let called = planned.called(bake, now);
        let left = planned.timetable.plan.left_out(bake, state, called);
        let left = left.map(|left| words::plan::left_out(state, left, now));
        for said in [past, left.unwrap_or_default()] {
            if !said.is_empty() {
                left_out.push(if states.len() > 1 {
                    format!("{name}: {said}")
                } else {
                    said
                });
            }
        }
    }
    left_out
}
