//! A formula as schema.org's `Recipe`.

use domain::decimal::plain;
use domain::formula::{Component, Formula, Ingredient, Length, Step};
use domain::units::Minutes;

use super::OWN;
use crate::formula::FormulaRecord;
use crate::read::Record as _;
use crate::table::Object;

/// The JSON-LD of a formula, in one line.
///
/// Masses are written to a hundredth of a gram, as no kitchen scales show; the exact ones stand in our own shape.
#[must_use]
pub fn recipe(formula: &Formula) -> String {
    let mut text = String::new();
    let mut object = Object::begin(&mut text);
    object.written(
        "@context",
        r#"["https://schema.org",{"oventide":"urn:oventide:"}]"#,
    );
    object.field("@type", &"Recipe".to_owned());
    object.field("name", &formula.name);
    object.field("description", &formula.about);
    object.field("recipeYield", &makes(formula));
    object.field("recipeIngredient", &ingredients(formula));
    object.written("recipeInstructions", &list(&sections(formula)));
    object.written(OWN, &FormulaRecord::from(formula).write());
    object.end();
    text
}

/// "8 buns of 85 g".
pub(super) fn makes(formula: &Formula) -> String {
    let pieces = &formula.pieces;
    let noun = if pieces.count == 1 {
        &pieces.noun
    } else {
        &pieces.plural
    };
    format!(
        "{} {noun} of {} g",
        pieces.count,
        plain(pieces.mass.get(), 0)
    )
}

/// A line for each ingredient, behind the name of its component.
fn ingredients(formula: &Formula) -> Vec<String> {
    let mut lines = Vec::new();
    for component in formula
        .components
        .iter()
        .filter(|one| !one.ingredients.is_empty())
    {
        lines.push(heading(component));
        lines.extend(component.ingredients.iter().map(ingredient));
    }
    lines
}

/// "For the almond cream:", by which readers tell a heading from an ingredient.
pub(super) fn heading(component: &Component) -> String {
    format!("For the {}:", component.name)
}

/// "390 g strong white flour".
pub(super) fn ingredient(part: &Ingredient) -> String {
    format!("{} g {}", plain(part.mass.get(), 2), part.name)
}

/// Items that are JSON already, as a list.
fn list(items: &[String]) -> String {
    format!("[{}]", items.join(","))
}

/// A section for each run of steps at one component.
fn sections(formula: &Formula) -> Vec<String> {
    let mut sections = Vec::new();
    let mut from = 0;
    while let Some(first) = formula.steps.get(from) {
        let run = formula.steps[from..]
            .iter()
            .take_while(|step| step.component == first.component);
        let steps: Vec<String> = run.map(step).collect();
        from += steps.len();
        let mut text = String::new();
        let mut section = Object::begin(&mut text);
        section.field("@type", &"HowToSection".to_owned());
        let name = formula
            .component_of(first)
            .map_or("", |component| &component.name);
        section.field("name", &name.to_owned());
        section.written("itemListElement", &list(&steps));
        section.end();
        sections.push(text);
    }
    sections
}

fn step(step: &Step) -> String {
    let mut text = String::new();
    let mut object = Object::begin(&mut text);
    object.field("@type", &"HowToStep".to_owned());
    object.field("name", &step.title);
    object.field("text", &told(step));
    if let Some(minutes) = likely(step) {
        object.field("performTime", &duration(minutes));
    }
    object.end();
    text
}

/// What is done, how, and how hot the oven is.
pub(super) fn told(step: &Step) -> String {
    let mut told = step.instruction.clone();
    let oven = match step.length {
        Length::Bake { oven, .. } => Some(oven),
        _ => None,
    };
    if let Some(oven) = oven {
        told += &format!(" Oven at {} °C.", plain(oven.get(), 0));
    }
    for more in [&step.detail, &step.cue]
        .into_iter()
        .filter(|more| !more.is_empty())
    {
        told.push(' ');
        told += more;
    }
    told
}

/// How long a step takes where the formula itself says so; coolings and heating ovens are reckoned, not written.
pub(super) fn likely(step: &Step) -> Option<Minutes> {
    match &step.length {
        Length::Hands(range) | Length::Wait(range) | Length::Bake { range, .. } => {
            Some(range.likely())
        }
        Length::Ferment {
            reference_minutes, ..
        } => Some(reference_minutes.likely()),
        Length::Chill { .. } | Length::Cool { .. } | Length::OvenHeats { .. } => None,
    }
}

/// ISO 8601: "PT95M".
fn duration(minutes: Minutes) -> String {
    format!("PT{}M", plain(minutes.get(), 0))
}
