//! Words, lengths and marks of each step: the text's where it says so, else the palette's.

mod words;

use super::place::kind_of;
use super::{SaidHeat, Task};
use crate::formula::manuscript::{Component, Line, Manuscript, USUAL_REFERENCE};
use crate::formula::palette::{self, spread};
use crate::formula::{Checklist, ComponentKind, Length, Step, StepKind};
use crate::thermal::oven::without_fan;
use crate::units::{Celsius, celsius, minutes};
use crate::yeast::activity::{Cardinals, relative_rate};

/// Doughs rise between these; what is hotter is the oven's temperature, and what is colder the fridge's.
const RISES_FROM: Celsius = celsius(15.0);
const RISES_TO: Celsius = celsius(40.0);

/// The temperature of the first rise that has one.
pub(super) fn reference(tasks: &[Task]) -> Option<Celsius> {
    tasks.iter().find_map(rises_at)
}

fn rises_at(task: &Task) -> Option<Celsius> {
    let rises = matches!(task.kind, StepKind::Bulk | StepKind::FinalProof);
    let told = task.said.heat.filter(|_| rises)?.written;
    (told >= RISES_FROM && told <= RISES_TO).then_some(told)
}

/// The steps, without numbers and links.
pub(super) fn write(
    manuscript: &Manuscript,
    reference: Option<Celsius>,
    tasks: &[Task],
) -> Vec<Line> {
    let reference = reference
        .or(manuscript.reference)
        .unwrap_or(USUAL_REFERENCE);
    let mut lines: Vec<Line> = Vec::with_capacity(tasks.len());
    for (place, task) in tasks.iter().enumerate() {
        let Some(component) = manuscript.component(task.component) else {
            continue;
        };
        let at = manuscript.setting(component);
        let mut step = match task.preparing {
            Some(what) => palette::preparing(what, &at),
            None => palette::step(task.kind, &at),
        };
        words::say(&mut step, &task.said.text);
        take_time(&mut step, task, reference);
        take_heat(&mut step, task);
        let cooked =
            |other: &Task| other.kind == StepKind::Cook && other.component == task.component;
        if task.kind == StepKind::Chill && !tasks[..place].iter().any(cooked) {
            chill_uncooked(&mut step, task);
        }
        if comes_from_fridge(&tasks[..place], task, &manuscript.components)
            && let Length::Ferment { from_fridge, .. } = &mut step.length
        {
            *from_fridge = true;
        }
        let is_ingredients = step.checklist == Some(Checklist::Ingredients);
        let has_weighed = lines.iter().any(|line: &Line| {
            line.step.component == step.component
                && line.step.checklist == Some(Checklist::Ingredients)
        });
        if is_ingredients && has_weighed {
            step.checklist = None;
        }
        lines.push(Line {
            step,
            assumed: task.assumed,
        });
    }
    lines
}

fn take_time(step: &mut Step, task: &Task, reference: Celsius) {
    if task.waits {
        step.needs.hands = false;
        step.needs.hob = false;
    }
    let told = task.said.minutes;
    let window = |kind| told.map(|(least, most)| spread(kind, least, most));
    match &mut step.length {
        length if task.waits => {
            let kind = StepKind::BenchRest;
            let usual = match length {
                Length::Hands(usual) => *usual,
                _ => return,
            };
            *length = Length::Wait(window(kind).unwrap_or(usual));
        }
        Length::Hands(usual) | Length::Wait(usual) => {
            *usual = window(step.kind).unwrap_or(*usual);
        }
        Length::Bake { range, .. } => *range = window(step.kind).unwrap_or(*range),
        Length::Ferment {
            reference_minutes, ..
        } => {
            if let Some((least, most)) = told {
                // Yeast that is warmer does more in a minute.
                let pace = rises_at(task).map_or(1.0, |at| pace(at, reference));
                *reference_minutes = spread(step.kind, least * pace, most * pace);
            }
        }
        Length::Chill { .. } | Length::Cool { .. } | Length::OvenHeats { .. } => {}
    }
}

/// What was never hot is put into the fridge for a while.
fn chill_uncooked(step: &mut Step, task: &Task) {
    let (least, most) = task.said.minutes.unwrap_or((minutes(30.0), minutes(60.0)));
    step.length = Length::Wait(spread(StepKind::Chill, least, most));
    step.needs.fridge = true;
    if task.said.text.trim().is_empty() {
        step.instruction = "Cover it and put it in the fridge.".to_owned();
        step.detail.clear();
    }
}

/// How much faster a dough rises at one temperature than at another.
fn pace(at: Celsius, reference: Celsius) -> f64 {
    let rate = |at| relative_rate(at, &Cardinals::DOUGH);
    let of_reference = rate(reference);
    if of_reference > 0.0 {
        rate(at) / of_reference
    } else {
        1.0
    }
}

/// An oven's temperature without a fan.
fn conventional(heat: SaidHeat) -> Celsius {
    if heat.fan {
        without_fan(heat.written)
    } else {
        heat.written
    }
}

fn take_heat(step: &mut Step, task: &Task) {
    let Some(told) = task.said.heat.map(conventional) else {
        return;
    };
    match &mut step.length {
        Length::Bake { oven, .. } | Length::OvenHeats { oven } => *oven = told,
        _ => {}
    }
}

/// Whether a rise begins as cold as the fridge: the dough was retarded since it rose last.
fn comes_from_fridge(before: &[Task], task: &Task, components: &[Component]) -> bool {
    let is_dough = |task: &&Task| kind_of(components, task.component) == ComponentKind::Dough;
    let mut last_first = before.iter().rev().filter(is_dough);
    let last = last_first.find(|other| {
        matches!(
            other.kind,
            StepKind::Retard | StepKind::Bulk | StepKind::FinalProof
        )
    });
    is_dough(&task) && last.is_some_and(|last| last.kind == StepKind::Retard)
}
