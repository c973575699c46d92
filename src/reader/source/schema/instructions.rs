//! Instructions: one text, a list of texts, steps, directions within steps, sections of all of these.

use serde_json::Value;

use super::duration::minutes;
use super::{is_a, lines, property, words};
use crate::rows::Hint;
use crate::source::Source;

/// Adds the steps to a source. How deep they lie is bounded by the parser, which goes no deeper than 128.
pub(super) fn instructions(json: &Value, source: &mut Source) {
    match json {
        Value::Array(items) => items.iter().for_each(|item| instructions(item, source)),
        Value::Object(object) => {
            let inner = property(object, "itemListElement").or_else(|| property(object, "steps"));
            if let Some(inner) = inner.filter(|inner| !inner.is_string()) {
                let name = words(property(object, "name"));
                let is_section = is_a(object, "HowToSection");
                if is_section && !name.is_empty() {
                    source.lines.push((name, Hint::Section));
                }
                let before = source.lines.len();
                instructions(inner, source);
                // A step's own time is that of its last direction.
                if let (Some(minutes), true) = (minutes(object), source.lines.len() > before)
                    && let Some((_, Hint::Step(time @ None))) = source.lines.last_mut()
                {
                    *time = Some(minutes);
                }
                return;
            }
            // What an item of a list holds is the step.
            if let Some(item) = property(object, "item").filter(|item| item.is_object()) {
                return instructions(item, source);
            }
            let text = words(property(object, "text").or_else(|| property(object, "name")));
            stepped(&text, minutes(object), source);
        }
        other => stepped(&words(Some(other)), None, source),
    }
}

fn stepped(text: &str, minutes: Option<f64>, source: &mut Source) {
    let lines = lines(text);
    let last = lines.len();
    for (place, line) in lines.into_iter().enumerate() {
        let time = minutes.filter(|_| place + 1 == last);
        source.lines.push((line, Hint::Step(time)));
    }
}
