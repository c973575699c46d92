//! Which component a text speaks of.

use super::super::{Said, Task};
use super::kind_of;
use crate::food::folded;
use crate::formula::manuscript::Component;
use crate::formula::{ComponentId, ComponentKind, StepKind};

/// Shorter words tell nothing: "the", "egg".
const SHORTEST: usize = 4;

fn words(text: &str) -> Vec<String> {
    let text = folded(text);
    let words = text.split(|letter: char| !letter.is_alphanumeric());
    let long = words.filter(|word| word.chars().count() >= SHORTEST);
    long.map(str::to_owned).collect()
}

/// Words of a component's name and ingredients that no other component has.
fn own_words(components: &[Component], of: &Component) -> Vec<String> {
    let all = |one: &Component| {
        let names = one.ingredients.iter().map(|part| part.name.as_str());
        let names = names.chain([one.name.as_str()]);
        names.flat_map(words).collect::<Vec<_>>()
    };
    let others = components.iter().filter(|other| other.id != of.id);
    let others: Vec<String> = others.flat_map(all).collect();
    let mut own = all(of);
    own.retain(|word| !others.contains(word));
    own
}

/// The component that a text says most words of, where that isn't the dough or a preferment.
pub(super) fn apart(components: &[Component], said: &Said) -> Option<ComponentId> {
    let text = words(&said.text);
    let mut most = (0, None);
    for one in components {
        let own = own_words(components, one);
        let count = text.iter().filter(|word| own.contains(word)).count();
        if count > most.0 {
            most = (count, (!one.is_dough()).then_some(one.id));
        }
    }
    most.1
}

/// The preferment that a text names, where it is still to be made: later on it is only taken up.
pub(super) fn preferment(
    components: &[Component],
    said: &Said,
    kind: StepKind,
    before: &[Task],
) -> Option<ComponentId> {
    let makes = matches!(
        kind,
        StepKind::Mix
            | StepKind::Bulk
            | StepKind::FinalProof
            | StepKind::BenchRest
            | StepKind::Retard
            | StepKind::Prepare
    );
    let is_dough = |task: &Task| kind_of(components, task.component) == ComponentKind::Dough;
    if !makes
        || before
            .iter()
            .any(|task| is_dough(task) && task.kind == StepKind::Knead)
    {
        return None;
    }
    let text = words(&said.text);
    let found = components.iter().find(|one| {
        let names = words(&one.name);
        let ripens = |task: &Task| task.component == one.id && task.kind == StepKind::Bulk;
        one.kind == ComponentKind::Preferment
            && names.iter().any(|name| text.contains(name))
            && !before.iter().any(ripens)
    });
    found.map(|one| one.id)
}
