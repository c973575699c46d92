//! What no text says but the app needs, and all steps in the order in which they are read.

mod dough;
mod lanes;

use super::Task;
use super::place::kind_of;
use crate::formula::manuscript::{Component, Manuscript};
use crate::formula::{ComponentId, ComponentKind, StepKind};

/// All steps in order: gathering, preferments, fillings, the dough's lane with what is brushed and put on where that is
/// needed, serving.
pub(super) fn complete(manuscript: &Manuscript, dough: ComponentId, tasks: Vec<Task>) -> Vec<Task> {
    let components = &manuscript.components;
    let sorted = Sorted::of(components, dough, tasks);
    let oven_is_told = !(sorted.oven_on.assumed.whole && sorted.oven_heats.assumed.whole);
    let mut lane = dough::complete(manuscript, dough, sorted.lane, oven_is_told);
    dough::put_oven_on(&mut lane, dough, sorted.oven_on, sorted.oven_heats);
    let mut apart = sorted.apart;
    let mut of = |component: &Component| {
        let (own, others) = std::mem::take(&mut apart)
            .into_iter()
            .partition(|task: &Task| task.component == component.id);
        apart = others;
        own
    };
    let mut all = vec![sorted.gather];
    for kind in [ComponentKind::Preferment, ComponentKind::Filling] {
        for component in components.iter().filter(|one| one.kind == kind) {
            all.extend(lanes::complete(component, of(component)));
        }
    }
    for component in components {
        let own: Vec<Task> = of(component);
        lanes::insert(&mut lane, component, own);
    }
    all.extend(lane);
    all.push(sorted.serve);
    all
}

/// What stands in which lane.
struct Sorted {
    gather: Task,
    lane: Vec<Task>,
    apart: Vec<Task>,
    oven_on: Task,
    oven_heats: Task,
    serve: Task,
}

impl Sorted {
    fn of(components: &[Component], dough: ComponentId, tasks: Vec<Task>) -> Self {
        let added = |kind| Task::added(kind, dough);
        let mut sorted = Self {
            gather: added(StepKind::Gather),
            lane: Vec::new(),
            apart: Vec::new(),
            oven_on: added(StepKind::OvenOn),
            oven_heats: added(StepKind::OvenHeats),
            serve: added(StepKind::Serve),
        };
        for task in tasks {
            let plays = kind_of(components, task.component);
            let has_baked = || {
                sorted
                    .lane
                    .iter()
                    .any(|one: &Task| one.kind == StepKind::Bake)
            };
            match task.kind {
                StepKind::Gather => join(&mut sorted.gather, task),
                StepKind::Serve => join(&mut sorted.serve, task),
                // "Reduce to 200 °C" is a part of the bake.
                StepKind::OvenOn | StepKind::OvenHeats if has_baked() => {
                    let mut last_first = sorted.lane.iter_mut().rev();
                    if let Some(bake) = last_first.find(|one| one.kind == StepKind::Bake) {
                        say_also(bake, &task);
                    }
                }
                StepKind::OvenOn => join(&mut sorted.oven_on, task),
                StepKind::OvenHeats => join(&mut sorted.oven_heats, task),
                StepKind::Fill | StepKind::Wash | StepKind::Finish => sorted.lane.push(task),
                _ if plays == ComponentKind::Dough => sorted.lane.push(task),
                _ => sorted.apart.push(task),
            }
        }
        sorted
    }
}

/// One step of what two texts say.
fn join(into: &mut Task, task: Task) {
    if into.assumed.whole {
        *into = task;
    } else {
        say_also(into, &task);
        into.said.heat = into.said.heat.or(task.said.heat);
    }
}

/// Keeps what else is written.
fn say_also(into: &mut Task, task: &Task) {
    if !into.said.text.is_empty() && !task.said.text.is_empty() {
        let has_ended = into.said.text.ends_with(['.', '!', '?', ';']);
        into.said.text.push_str(if has_ended { " " } else { "; " });
    }
    into.said.text.push_str(&task.said.text);
}
