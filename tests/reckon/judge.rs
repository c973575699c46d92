//! Whether what was reckoned is what was expected.

use std::fmt;

use serde_json::Value;

/// How an item ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Within the tolerance.
    Pass,
    /// Outside it.
    Fail,
    /// Not the model's, or without what it takes to reckon it.
    Skip,
}

impl fmt::Display for Verdict {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Pass => "PASS",
            Self::Fail => "FAIL",
            Self::Skip => "SKIP",
        })
    }
}

/// How far the two are apart, if too far.
///
/// Numbers may differ by the tolerance, lists and tables by it in every place; a list of tolerances
/// goes with a list place by place. Everything else has to be the same.
pub(crate) fn difference(got: &Value, expected: &Value, tolerance: &Value) -> Option<String> {
    match (got, expected) {
        (Value::Number(_), Value::Number(_)) => {
            let (got, wanted) = (got.as_f64()?, expected.as_f64()?);
            let allowed = tolerance.as_f64().unwrap_or(0.0);
            let off = (got - wanted).abs();
            let near = off <= allowed + rounding(wanted, got) || rounds_to(got, wanted);
            // Whatever is no number is never near.
            (!near).then(|| format!("off by {}, more than {}", short(off), short(allowed)))
        }
        (Value::Array(got), Value::Array(expected)) => {
            if got.len() != expected.len() {
                return Some(format!(
                    "{} values instead of {}",
                    got.len(),
                    expected.len()
                ));
            }
            let pairs = got.iter().zip(expected).enumerate();
            let each = pairs.filter_map(|(place, (got, expected))| {
                let own = match tolerance {
                    Value::Array(list) => list.get(place).unwrap_or(&Value::Null),
                    one => one,
                };
                let off = difference(got, expected, own)?;
                Some(format!("value {}: {off}", place + 1))
            });
            joined(each)
        }
        (Value::Object(got), Value::Object(expected)) => {
            if got.len() != expected.len() {
                return Some(format!(
                    "{} values instead of {}",
                    got.len(),
                    expected.len()
                ));
            }
            let each = expected.iter().filter_map(|(key, expected)| {
                let own = match tolerance {
                    Value::Object(table) => table.get(key).unwrap_or(&Value::Null),
                    one => one,
                };
                let off = difference(got.get(key).unwrap_or(&Value::Null), expected, own)?;
                Some(format!("{key}: {off}"))
            });
            joined(each)
        }
        (got, expected) if got == expected => None,
        _ => Some("not the same".to_owned()),
    }
}

fn joined(each: impl Iterator<Item = String>) -> Option<String> {
    let all: Vec<String> = each.collect();
    (!all.is_empty()).then(|| all.join("; "))
}

/// What subtracting two decimal numbers in binary can add: 1.84 − 1.80 is a little more than 0.04.
fn rounding(one: f64, other: f64) -> f64 {
    4.0 * f64::EPSILON * one.abs().max(other.abs())
}

/// Whether a number written with six decimals or more is the reckoned one rounded to as many.
///
/// A figure printed to eight decimals can't be met to nine, whatever its tolerance says.
fn rounds_to(got: f64, printed: f64) -> bool {
    let text = printed.to_string();
    let decimals = text.split_once('.').map_or(0, |(_, after)| after.len());
    decimals >= 6 && {
        let half = 0.5 * 10_f64.powi(-(decimals.min(300) as i32));
        (got - printed).abs() <= half + rounding(got, printed)
    }
}

/// A value on one line; numbers to seven digits.
pub(crate) fn shown(value: &Value) -> String {
    match value {
        Value::Number(_) => value.as_f64().map_or_else(|| value.to_string(), short),
        Value::Array(list) => {
            let each: Vec<String> = list.iter().map(shown).collect();
            format!("[{}]", each.join(","))
        }
        Value::Object(table) => {
            let each = table
                .iter()
                .map(|(key, value)| format!("{key}:{}", shown(value)));
            format!("{{{}}}", each.collect::<Vec<_>>().join(","))
        }
        other => other.to_string().replace(' ', "\u{a0}"),
    }
}

fn short(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return value.to_string();
    }
    let digits = 6 - value.abs().log10().floor() as i32;
    if digits <= 0 {
        return value.round().to_string();
    }
    let text = format!("{value:.*}", digits as usize);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

#[cfg(test)]
mod tests {
    use super::difference;
    use serde_json::json;

    #[test]
    fn the_tolerance_holds_in_every_place() {
        let near = |got, expected, tolerance| difference(&got, &expected, &tolerance).is_none();
        assert!(near(json!(1.80), json!(1.84), json!(0.04)));
        assert!(!near(json!(1.80), json!(1.84), json!(0.0399)));
        assert!(near(
            json!([1.0, 20.0]),
            json!([1.1, 22.0]),
            json!([0.1, 2])
        ));
        assert!(!near(json!([1.0, 20.0]), json!([1.1, 22.0]), json!(0.1)));
        assert!(!near(json!([1.0]), json!([1.0, 2.0]), json!(5)));
        assert!(near(json!({"a": 1}), json!({"a": 1.5}), json!(0.5)));
        assert!(!near(json!({"a": 1}), json!({"b": 1}), json!(0.5)));
        assert!(!near(json!(null), json!(1), json!(5)));
        assert!(!near(json!(f64::NAN), json!(1), json!(5)));
        assert!(near(json!("a;b"), json!("a;b"), json!(0)));
        assert!(!near(json!("a;b"), json!("a,b"), json!(9)));
        assert!(near(json!(75), json!(75), json!(0)));
        assert!(!near(json!(75.01), json!(75), json!(0)));
    }

    #[test]
    fn a_printed_figure_may_be_rounded_only_where_it_has_six_decimals() {
        let near = |got, expected, tolerance| difference(&got, &expected, &tolerance).is_none();
        assert!(near(json!(2.000000125), json!(2.00000013), json!(1e-9)));
        assert!(!near(json!(2.00000012), json!(2.00000013), json!(1e-9)));
        assert!(!near(json!(2.04), json!(2.0), json!(1e-9)));
        assert!(!near(json!(2.00004), json!(2.0001), json!(1e-9)));
    }
}
