//! Which rise is the first and which the last.

use super::Task;
use super::place::kind_of;
use crate::formula::manuscript::Component;
use crate::formula::{ComponentKind, StepKind};
use crate::units::{Minutes, minutes};

/// A rest as long as this before anything is shaped is a first rise. Common practice, no source.
const AS_LONG_AS_A_RISE: Minutes = minutes(40.0);
/// A rest as long as this behind the last shaping is a proof. Common practice, no source.
const AS_LONG_AS_A_PROOF: Minutes = minutes(20.0);

/// Tells the dough's rises apart by what comes before and behind them, whatever the text calls them.
pub(super) fn tell(tasks: &mut [Task], components: &[Component]) {
    for task in tasks.iter_mut() {
        let is_preferment = kind_of(components, task.component) == ComponentKind::Preferment;
        if is_preferment && task.kind == StepKind::FinalProof {
            become_kind(task, StepKind::Bulk);
        }
    }
    let dough: Vec<usize> = (0..tasks.len())
        .filter(|&place| kind_of(components, tasks[place].component) != ComponentKind::Preferment)
        .collect();
    let bake = dough
        .iter()
        .position(|&place| tasks[place].kind == StepKind::Bake);
    let (raw, baked) = dough.split_at(bake.unwrap_or(dough.len()));
    for &place in baked {
        // Nothing rises once it is baked.
        if is_rise(tasks[place].kind) {
            become_kind(&mut tasks[place], StepKind::Cool);
        }
    }
    let shaping = |place: &&usize| shapes(tasks[**place].kind);
    let first_shaped = raw.iter().find(shaping).copied();
    let last_shaped = raw.iter().rfind(shaping).copied();
    promote(tasks, raw, first_shaped, last_shaped);
    let rises: Vec<usize> = raw
        .iter()
        .copied()
        .filter(|&place| is_rise(tasks[place].kind))
        .collect();
    for (nth, &place) in rises.iter().enumerate() {
        let is_last = match last_shaped {
            Some(last) => place > last,
            // "Knead, let rise, put into the tin, let rise": the last of two, or as the text says.
            None if rises.len() > 1 => nth + 1 == rises.len(),
            None => tasks[place].kind == StepKind::FinalProof,
        };
        let kind = if is_last {
            StepKind::FinalProof
        } else {
            StepKind::Bulk
        };
        become_kind(&mut tasks[place], kind);
    }
    for &place in raw {
        // What cools before it is baked rests.
        let is_dough = kind_of(components, tasks[place].component) == ComponentKind::Dough;
        if is_dough && tasks[place].kind == StepKind::Cool {
            become_kind(&mut tasks[place], StepKind::BenchRest);
        }
    }
}

/// Takes long rests for rises where the text names none.
fn promote(
    tasks: &mut [Task],
    raw: &[usize],
    first_shaped: Option<usize>,
    last_shaped: Option<usize>,
) {
    let ferments = |task: &Task| is_rise(task.kind) || task.kind == StepKind::Retard;
    let rests = |task: &Task, least: Minutes| {
        let long = task.said.minutes.is_some_and(|(_, most)| most >= least);
        task.kind == StepKind::BenchRest && long
    };
    let first = first_shaped.unwrap_or(usize::MAX);
    if !raw
        .iter()
        .any(|&place| place < first && ferments(&tasks[place]))
    {
        let rest = raw
            .iter()
            .find(|&&place| place < first && rests(&tasks[place], AS_LONG_AS_A_RISE));
        if let Some(&place) = rest {
            become_kind(&mut tasks[place], StepKind::Bulk);
        }
    }
    let Some(last) = last_shaped else {
        return;
    };
    if !raw
        .iter()
        .any(|&place| place > last && ferments(&tasks[place]))
    {
        let rest = raw
            .iter()
            .find(|&&place| place > last && rests(&tasks[place], AS_LONG_AS_A_PROOF));
        if let Some(&place) = rest {
            become_kind(&mut tasks[place], StepKind::FinalProof);
        }
    }
}

fn become_kind(task: &mut Task, kind: StepKind) {
    task.assumed.kind |= task.kind != kind && task.said.kind != Some(kind);
    task.kind = kind;
}

fn is_rise(kind: StepKind) -> bool {
    matches!(kind, StepKind::Bulk | StepKind::FinalProof)
}

fn shapes(kind: StepKind) -> bool {
    matches!(
        kind,
        StepKind::Divide | StepKind::PreShape | StepKind::Shape | StepKind::Fill
    )
}
