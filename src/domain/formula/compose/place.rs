//! Which component a step works on, and what its kind is there.

mod names;

use super::{Said, Task};
use crate::formula::manuscript::{Assumed, Component};
use crate::formula::{ComponentId, ComponentKind, StepKind};
use crate::units::{Minutes, minutes};

/// The final dough.
pub(super) fn dough(components: &[Component]) -> Option<ComponentId> {
    first_of(components, ComponentKind::Dough)
}

/// The first component of that kind.
pub(super) fn first_of(components: &[Component], kind: ComponentKind) -> Option<ComponentId> {
    let found = components.iter().find(|one| one.kind == kind);
    found.map(|one| one.id)
}

/// The kind of a component; what isn't there counts as dough.
pub(super) fn kind_of(components: &[Component], id: ComponentId) -> ComponentKind {
    let found = components.iter().find(|one| one.id == id);
    found.map_or(ComponentKind::Dough, |one| one.kind)
}

/// Everything that is said, each step on its component.
pub(super) fn place(components: &[Component], dough: ComponentId, said: &[Said]) -> Vec<Task> {
    let mut tasks: Vec<Task> = Vec::with_capacity(said.len());
    let mut before: Option<ComponentId> = None;
    let is_baked = |one: &Said| one.minutes.is_some() || one.heat.is_some();
    let bakes = |one: &Said| one.kind == Some(StepKind::Bake);
    let tells_of_baking = said.iter().any(|one| bakes(one) && is_baked(one));
    for one in said {
        let kind = match kind_told(one) {
            // "Put it on a baking tray" bakes nothing where another step does.
            StepKind::Bake if tells_of_baking && !is_baked(one) => StepKind::Prepare,
            kind => kind,
        };
        let told = one
            .component
            .filter(|&id| components.iter().any(|one| one.id == id));
        let meant = told
            .or_else(|| names::preferment(components, one, kind, &tasks))
            .or_else(|| is_made_apart(kind).then(|| names::apart(components, one))?)
            .or_else(|| before.filter(|_| goes_on(kind)))
            .unwrap_or(dough);
        let component = rightful(components, dough, meant, kind);
        let fitting = match fitting(kind, kind_of(components, component)) {
            // Nobody said that it is put into the cold.
            StepKind::Chill if one.kind.is_none() => StepKind::Prepare,
            fitting => fitting,
        };
        before = (component != dough && is_made_apart(kind)).then_some(component);
        tasks.push(Task {
            kind: fitting,
            component,
            preparing: None,
            waits: is_wait(kind) && fitting == StepKind::Prepare,
            said: one.clone(),
            assumed: Assumed {
                whole: false,
                kind: one.kind != Some(fitting),
                component: told != Some(component),
                time: one.minutes.is_none(),
                heat: one.heat.is_none_or(|heat| heat.is_assumed),
            },
        });
    }
    tasks
}

/// What is done; without a kind it is a rest where a quarter of an hour or more is all that is told of it.
fn kind_told(said: &Said) -> StepKind {
    let long = said.minutes.is_some_and(|(_, most)| most >= A_REST);
    match said.kind {
        Some(kind) => kind,
        None if long => StepKind::BenchRest,
        None => StepKind::Prepare,
    }
}

/// Nobody works at something unnamed for as long as this. Common practice, no source.
const A_REST: Minutes = minutes(15.0);

/// What is done with other components as well as with the dough.
fn is_made_apart(kind: StepKind) -> bool {
    matches!(
        kind,
        StepKind::Cook
            | StepKind::Chill
            | StepKind::Prepare
            | StepKind::Mix
            | StepKind::Cool
            | StepKind::Retard
            | StepKind::BenchRest
    )
}

fn is_wait(kind: StepKind) -> bool {
    matches!(
        kind,
        StepKind::Chill
            | StepKind::Cool
            | StepKind::Retard
            | StepKind::BenchRest
            | StepKind::Bulk
            | StepKind::FinalProof
    )
}

/// What may go on with what the step before worked on, without saying so: "leave to cool".
fn goes_on(kind: StepKind) -> bool {
    matches!(
        kind,
        StepKind::Cook | StepKind::Chill | StepKind::Prepare | StepKind::Cool | StepKind::Retard
    )
}

/// Where a step of that kind belongs: what only a dough goes through is the dough's, whatever heading it stands under.
fn rightful(
    components: &[Component],
    dough: ComponentId,
    meant: ComponentId,
    kind: StepKind,
) -> ComponentId {
    let of = |kinds: &[ComponentKind]| {
        let mut found = kinds.iter().filter_map(|&kind| first_of(components, kind));
        found.next()
    };
    let plays = kind_of(components, meant);
    match kind {
        StepKind::Fill if plays == ComponentKind::Filling => meant,
        StepKind::Fill => of(&[ComponentKind::Filling]).unwrap_or(dough),
        StepKind::Wash | StepKind::Finish if is_outside(plays) => meant,
        StepKind::Wash => of(&[ComponentKind::Wash]).unwrap_or(dough),
        StepKind::Finish => of(&[ComponentKind::Glaze, ComponentKind::Coating]).unwrap_or(dough),
        StepKind::Knead | StepKind::Bulk | StepKind::FinalProof
            if plays == ComponentKind::Preferment =>
        {
            meant
        }
        StepKind::Bake if plays != ComponentKind::Dough && plays != ComponentKind::Preferment => {
            meant
        }
        StepKind::Divide
        | StepKind::PreShape
        | StepKind::Shape
        | StepKind::FinalProof
        | StepKind::Bulk
        | StepKind::Knead
        | StepKind::Bake
        | StepKind::TakeTemperature
        | StepKind::Gather
        | StepKind::OvenOn
        | StepKind::OvenHeats
        | StepKind::Serve => dough,
        _ => meant,
    }
}

fn is_outside(kind: ComponentKind) -> bool {
    matches!(
        kind,
        ComponentKind::Wash | ComponentKind::Glaze | ComponentKind::Coating
    )
}

/// What a kind is called on such a component.
fn fitting(kind: StepKind, on: ComponentKind) -> StepKind {
    match (kind, on) {
        // A dough that is chilled is retarded; a filling that is put into the fridge gets cold.
        (StepKind::Chill, ComponentKind::Dough | ComponentKind::Preferment) => StepKind::Retard,
        (_, ComponentKind::Dough) => kind,
        (StepKind::Cool, ComponentKind::Preferment) => StepKind::BenchRest,
        (_, ComponentKind::Preferment) => kind,
        (StepKind::Cool | StepKind::Retard | StepKind::Chill, ComponentKind::Filling) => {
            StepKind::Chill
        }
        // Nuts that are toasted in the oven: nothing else of the oven's steps is theirs.
        (StepKind::Bake, _) => StepKind::Cook,
        (StepKind::Cook | StepKind::Fill | StepKind::Wash | StepKind::Finish, _) => kind,
        _ => StepKind::Prepare,
    }
}
