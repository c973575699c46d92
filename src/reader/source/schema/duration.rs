//! How long a step takes, by its own field.
//!
//! Source: ISO 8601-1:2019, 5.5.2. Left out: months and years, which no step takes, and signs.

use serde_json::{Map, Value};

use super::property;

/// How long a step takes, by any of its fields.
pub(super) fn minutes(object: &Map<String, Value>) -> Option<f64> {
    let fields = [
        "performTime",
        "totalTime",
        "timeRequired",
        "duration",
        "prepTime",
        "cookTime",
    ];
    fields
        .iter()
        .find_map(|field| duration(property(object, field)?.as_str()?))
}

/// The minutes of an ISO 8601 duration: "PT1H30M".
pub(super) fn duration(text: &str) -> Option<f64> {
    let rest = text.trim().strip_prefix('P')?;
    let (mut minutes, mut number, mut is_time) = (0.0, String::new(), false);
    for letter in rest.chars().take(MOST_LETTERS) {
        match letter {
            'T' => is_time = true,
            '0'..='9' => number.push(letter),
            '.' | ',' => number.push('.'),
            unit => {
                let size = match (unit, is_time) {
                    ('D', false) => 24.0 * 60.0,
                    ('W', false) => 7.0 * 24.0 * 60.0,
                    ('H', true) => 60.0,
                    ('M', true) => 1.0,
                    ('S', true) => 1.0 / 60.0,
                    _ => return None,
                };
                minutes += domain::decimal::parse(&number)? * size;
                number.clear();
            }
        }
    }
    (number.is_empty() && minutes > 0.0).then_some(minutes)
}

/// A duration of ISO 8601 has no more letters.
const MOST_LETTERS: usize = 40;
