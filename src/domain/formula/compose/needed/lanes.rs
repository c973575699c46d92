//! What is made apart from the dough.

use crate::formula::compose::Task;
use crate::formula::manuscript::Component;
use crate::formula::palette::{Holds, Preparing};
use crate::formula::{ComponentKind, StepKind};

/// The whole lane of a preferment or a filling.
pub(super) fn complete(component: &Component, mut own: Vec<Task>) -> Vec<Task> {
    let has = |own: &[Task], kind| own.iter().any(|task: &Task| task.kind == kind);
    let added = |kind| Task::added(kind, component.id);
    if component.kind == ComponentKind::Preferment {
        let is_cooked = has(&own, StepKind::Cook);
        let ferments = has(&own, StepKind::Bulk) || has(&own, StepKind::Retard);
        if !has(&own, StepKind::Mix) && !is_cooked {
            own.insert(0, added(StepKind::Mix));
        }
        if !ferments && !is_cooked {
            own.push(added(StepKind::Bulk));
        }
        return own;
    }
    if own.is_empty() {
        own.push(added(StepKind::Prepare));
    }
    // What was cooked with milk or egg has to be cold before anything is closed around it: FDA's two stages of cooling.
    let spoils = Holds::of(component.foods()).spoils();
    if spoils && has(&own, StepKind::Cook) && !has(&own, StepKind::Chill) {
        own.push(added(StepKind::Chill));
    }
    if spoils {
        put_away(&mut own, added(StepKind::Prepare));
    }
    own
}

/// What spoils waits in the fridge, as the text says at the end or as it is added.
fn put_away(own: &mut Vec<Task>, added: Task) {
    let preparing = Some(Preparing::FillingAway);
    let is_cold = own
        .iter()
        .rev()
        .skip(1)
        .any(|task| task.kind == StepKind::Chill);
    match own.last_mut() {
        Some(last) if is_cold && last.said.kind == Some(StepKind::Prepare) => {
            last.preparing = preparing;
        }
        _ => own.push(Task { preparing, ..added }),
    }
}

/// Puts what a text says of a wash, a glaze or a coating into the dough's lane, before it is brushed or put on.
pub(super) fn insert(lane: &mut Vec<Task>, component: &Component, own: Vec<Task>) {
    let bake = lane.iter().position(|task| task.kind == StepKind::Bake);
    let wanted = |task: &Task| {
        let is_put_on = matches!(task.kind, StepKind::Wash | StepKind::Finish);
        is_put_on && task.component == component.id
    };
    let used = lane.iter().position(wanted).or_else(|| {
        let finishes = |task: &Task| task.kind == StepKind::Finish;
        lane.iter().position(finishes)
    });
    let place = match (bake, used) {
        // What goes on last is made while the bread bakes.
        (Some(bake), Some(used)) if used > bake => bake + 1,
        (_, Some(used)) => used,
        (Some(bake), None) if component.kind != ComponentKind::Wash => bake + 1,
        (Some(bake), None) => bake,
        (None, None) => lane.len(),
    };
    lane.splice(place..place, own);
}
