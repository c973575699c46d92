//! `Recipe` of schema.org, as JSON-LD has it in more ways than one.
//!
//! Sources: schema.org, types Recipe, HowToSection, HowToStep, HowToDirection and ItemList; JSON-LD 1.1 (W3C, 2020) for
//! `@graph`, `@value` and types as full addresses. Durations are those of ISO 8601. Left out: `@context`, so that a name
//! which a context gives another meaning is taken as schema.org's, and references from one object to another.

mod duration;
mod instructions;
mod lines;

use serde_json::{Map, Value};

use super::{Source, entities};
use crate::refusal::Refusal;
use crate::rows::Hint;
use instructions::instructions;
use lines::lines;

/// The first recipe of some JSON; nothing where there is none.
pub(crate) fn from_json(text: &str) -> Result<Option<Source>, Refusal> {
    let json = parsed(text)?;
    let mut recipes = Vec::new();
    collect(&json, &mut recipes);
    let Some((first, others)) = recipes.split_first() else {
        return Ok(None);
    };
    let mut source = source(first);
    source.others = others
        .iter()
        .map(|other| words(other.get("name")))
        .collect();
    Ok(Some(source))
}

/// JSON, with the line breaks inside texts that pages have, though its grammar doesn't allow them.
fn parsed(text: &str) -> Result<Value, Refusal> {
    let is_control = |letter: char| letter.is_control();
    let strict = serde_json::from_str(text);
    let parsed = strict.or_else(|cause| {
        if text.contains(is_control) {
            serde_json::from_str(&text.replace(is_control, " "))
        } else {
            Err(cause)
        }
    });
    parsed.map_err(|cause| Refusal::BrokenJson {
        cause: cause.to_string(),
    })
}

/// All recipes, in their order, wherever they hang.
fn collect<'a>(json: &'a Value, recipes: &mut Vec<&'a Map<String, Value>>) {
    match json {
        Value::Array(items) => items.iter().for_each(|item| collect(item, recipes)),
        Value::Object(object) if is_a(object, "Recipe") => recipes.push(object),
        Value::Object(object) => object.values().for_each(|value| collect(value, recipes)),
        _ => {}
    }
}

/// Whether an object is of that type: "Recipe", "schema:Recipe", "http://schema.org/Recipe".
fn is_a(object: &Map<String, Value>, wanted: &str) -> bool {
    let is = |kind: &Value| {
        let kind = kind.as_str().unwrap_or("");
        kind.rsplit(['/', ':', '#']).next() == Some(wanted)
    };
    match object.get("@type").or_else(|| object.get("type")) {
        Some(Value::Array(kinds)) => kinds.iter().any(is),
        Some(kind) => is(kind),
        None => false,
    }
}

/// A property by its name, plain or with its vocabulary before it.
fn property<'a>(object: &'a Map<String, Value>, name: &str) -> Option<&'a Value> {
    object.get(name).or_else(|| {
        let full = |key: &String| key.rsplit(['/', ':', '#']).next() == Some(name);
        object
            .iter()
            .find(|(key, _)| full(key))
            .map(|(_, value)| value)
    })
}

fn source(recipe: &Map<String, Value>) -> Source {
    let mut source = Source {
        name: words(property(recipe, "name").or_else(|| property(recipe, "headline"))),
        makes: makes(property(recipe, "recipeYield").or_else(|| property(recipe, "yield"))),
        ..Source::default()
    };
    let ingredients =
        property(recipe, "recipeIngredient").or_else(|| property(recipe, "ingredients"));
    listed(ingredients, &mut source);
    let steps = property(recipe, "recipeInstructions").or_else(|| property(recipe, "step"));
    if let Some(steps) = steps {
        instructions(steps, &mut source);
    }
    source
}

/// The most telling of several ways to say it: "8 rings" rather than "8".
fn makes(json: Option<&Value>) -> String {
    match json {
        Some(Value::Array(ways)) => {
            let ways = ways.iter().map(|way| words(Some(way)));
            ways.max_by_key(String::len).unwrap_or_default()
        }
        other => words(other),
    }
}

fn listed(json: Option<&Value>, source: &mut Source) {
    match json {
        Some(Value::Array(items)) => items.iter().for_each(|item| listed(Some(item), source)),
        Some(Value::Object(object)) if property(object, "itemListElement").is_some() => {
            listed(property(object, "itemListElement"), source);
        }
        Some(json) => {
            let text = words(Some(json));
            for line in lines(&text) {
                source.lines.push((line, Hint::Ingredient));
            }
        }
        None => {}
    }
}

/// The words of a value: a text, a number, an object that has a text.
fn words(json: Option<&Value>) -> String {
    match json {
        Some(Value::String(text)) => entities::decoded(&entities::decoded(text))
            .trim()
            .to_owned(),
        Some(Value::Number(number)) => number.to_string(),
        Some(Value::Array(items)) => words(items.first()),
        Some(Value::Object(object)) => {
            let named = ["@value", "text", "name"]
                .iter()
                .find_map(|field| property(object, field));
            let amount = [
                property(object, "value"),
                property(object, "unitText").or_else(|| property(object, "unitCode")),
            ];
            let mut said: Vec<String> = amount
                .into_iter()
                .flatten()
                .map(|part| words(Some(part)))
                .collect();
            said.push(words(named));
            said.join(" ").trim().to_owned()
        }
        _ => String::new(),
    }
}

#[cfg(test)]
mod tests;
