//! Texts to read, and what was found in them, as JSON.
//!
//! One line: `kind` (`formula` or `rejected`), `name`, `components` (each with its `name`, `kind` and `ingredients`:
//! `name`, `grams` or null, `role`, and what was written beside it), `steps` (`text`, `minutes` from the least to the
//! most or null, `celsius` or null), `questions` in sentences, and `reason` where it was rejected.

pub mod examine;

use domain::formula::ComponentKind;
use reader::found::{Found, Ingredient, MassBasis, Part, Step};
use serde_json::{Value, json};

/// What a text comes to.
#[must_use]
pub fn answer_to(bytes: &[u8]) -> Value {
    match reader::read(bytes) {
        Ok(found) => formula(&found),
        Err(refusal) => json!({
            "kind": "rejected",
            "components": [],
            "steps": [],
            "questions": [],
            "reason": refusal.to_string(),
        }),
    }
}

fn formula(found: &Found) -> Value {
    let questions: Vec<String> = found.questions.iter().map(ToString::to_string).collect();
    let makes = found.makes.as_ref();
    json!({
        "kind": "formula",
        "name": found.name,
        "makes": makes.map(|makes| json!({ "count": makes.count, "noun": makes.noun })),
        "components": found.parts.iter().map(component).collect::<Vec<_>>(),
        "steps": found.steps.iter().map(step).collect::<Vec<_>>(),
        "questions": questions,
        "reason": null,
    })
}

fn component(part: &Part) -> Value {
    let kind = match part.kind {
        ComponentKind::Preferment => "preferment",
        ComponentKind::Dough => "dough",
        ComponentKind::Filling => "filling",
        ComponentKind::Wash => "wash",
        ComponentKind::Glaze => "glaze",
        ComponentKind::Coating => "coating",
    };
    json!({
        // A part without a heading is called what it was taken for.
        "name": if part.name.is_empty() { kind } else { &part.name },
        "kind": kind,
        "kind_is_read": part.kind_is_read,
        "ingredients": part.ingredients.iter().map(ingredient).collect::<Vec<_>>(),
    })
}

fn ingredient(one: &Ingredient) -> Value {
    let basis = one.mass.map(|mass| match mass.basis {
        MassBasis::Written => "written",
        MassBasis::Middle => "middle of a range",
        MassBasis::Converted(_) => "converted",
        MassBasis::Percentage => "from a percentage",
    });
    json!({
        "name": one.name,
        "grams": one.mass.map(|mass| mass.grams.get()),
        "role": one.known.as_ref().map_or("other".to_owned(), |known| known.role.to_string()),
        "food": one.known.as_ref().map(|known| known.food.key),
        "amount": one.amount,
        "basis": basis,
        "note": one.note,
    })
}

fn step(step: &Step) -> Value {
    json!({
        "text": step.text,
        "minutes": step.minutes.map(|(low, high)| [low, high]),
        "celsius": step.heat.map(|heat| heat.celsius),
        "kind": step.kind.map(|kind| format!("{kind:?}")),
    })
}
