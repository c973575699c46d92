//! How far an answer is from what its examiner expects.
//!
//! `tests/texts/README.md` says what stands in an expectation. Every finding is one sentence; an answer without any is
//! right.

use domain::food::unaccented;
use serde_json::Value;

/// What is wrong with an answer.
#[must_use]
pub fn findings(answer: &Value, expected: &Value) -> Vec<String> {
    let mut findings = Vec::new();
    let kind = text(&answer["kind"]);
    let kinds = text(&expected["kind"]);
    if !kinds.split('|').any(|wanted| wanted == kind) {
        findings.push(format!(
            "it was taken as {kind}, not {kinds}: {}",
            answer["reason"]
        ));
        return findings;
    }
    if kind == "rejected" {
        if text(&answer["reason"]).is_empty() {
            findings.push("it was rejected without a reason".to_owned());
        }
        return findings;
    }
    components(answer, expected, &mut findings);
    steps(answer, expected, &mut findings);
    questions(answer, expected, &mut findings);
    for kept in list(&expected["keeps"]) {
        if !says(answer, text(kept)) {
            findings.push(format!("{kept} isn't kept letter for letter"));
        }
    }
    findings
}

fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

fn text(value: &Value) -> &str {
    value.as_str().unwrap_or("")
}

/// Whether a name has one of some words in it; two letters or fewer must be a whole word.
fn is_named(name: &str, words: &[Value]) -> bool {
    let name = unaccented(name);
    words.iter().map(|word| unaccented(text(word))).any(|word| {
        if word.chars().count() <= 2 {
            name.split(|letter: char| !letter.is_alphanumeric())
                .any(|one| one == word)
        } else {
            name.contains(&word)
        }
    })
}

/// Every expected component is paired with one that was found, every ingredient in it likewise; what is left over counts against the reader.
fn components(answer: &Value, expected: &Value, findings: &mut Vec<String>) {
    let found = list(&answer["components"]);
    let wanted = list(&expected["components"]);
    let mut taken: Vec<Vec<bool>> = found
        .iter()
        .map(|one| vec![false; list(&one["ingredients"]).len()])
        .collect();
    let others: Vec<&Value> = wanted
        .iter()
        .flat_map(|one| list(&one["name_contains"]))
        .collect();
    for component in wanted {
        let names = list(&component["name_contains"]);
        let anything = names.iter().any(|name| name == "*");
        let fits = |one: &Value| {
            let name = text(&one["name"]);
            if anything {
                true
            } else if names.is_empty() {
                !others
                    .iter()
                    .any(|other| text(other) != "*" && is_named(name, &[(*other).clone()]))
            } else {
                is_named(name, names)
            }
        };
        let places: Vec<usize> = (0..found.len())
            .filter(|&place| fits(&found[place]))
            .collect();
        let is_needed = list(&component["ingredients"])
            .iter()
            .any(|one| one["optional"] != true);
        if places.is_empty() && is_needed {
            let names: Vec<&str> = found.iter().map(|one| text(&one["name"])).collect();
            findings.push(format!(
                "no component is called any of {}; there are {names:?}",
                component["name_contains"]
            ));
            continue;
        }
        for optional in [false, true] {
            let of_that_kind = list(&component["ingredients"])
                .iter()
                .filter(|one| (one["optional"] == true) == optional);
            for one in of_that_kind {
                match place_of(one, found, &places, &taken) {
                    Ok((component, ingredient)) => taken[component][ingredient] = true,
                    Err(_) if optional => {}
                    Err(why) => findings.push(why),
                }
            }
        }
    }
    for (component, taken) in found.iter().zip(&taken) {
        for (one, _) in list(&component["ingredients"])
            .iter()
            .zip(taken)
            .filter(|(_, taken)| !**taken)
        {
            findings.push(format!(
                "nobody listed \"{}\" ({} g, {}) in {}",
                text(&one["name"]),
                one["grams"],
                one["role"],
                component["name"]
            ));
        }
    }
}

/// Where an expected ingredient is, or why nowhere.
fn place_of(
    wanted: &Value,
    found: &[Value],
    places: &[usize],
    taken: &[Vec<bool>],
) -> Result<(usize, usize), String> {
    let mut nearest = None;
    for &place in places {
        for (at, one) in list(&found[place]["ingredients"]).iter().enumerate() {
            if taken[place][at] || !is_named(text(&one["name"]), list(&wanted["name_contains"])) {
                continue;
            }
            match is_right(one, wanted) {
                Ok(()) => return Ok((place, at)),
                Err(why) => nearest = Some(why),
            }
        }
    }
    Err(nearest.unwrap_or_else(|| format!("nothing is called any of {}", wanted["name_contains"])))
}

fn is_right(one: &Value, wanted: &Value) -> Result<(), String> {
    let name = text(&one["name"]);
    if let [low, high] = list(&wanted["grams"]) {
        let (low, high) = (low.as_f64().unwrap_or(0.0), high.as_f64().unwrap_or(0.0));
        let within = one["grams"]
            .as_f64()
            .is_some_and(|grams| grams >= low - SLIGHT && grams <= high + SLIGHT);
        if !within {
            return Err(format!(
                "{name} has {} g, not {low} to {high}",
                one["grams"]
            ));
        }
    }
    let role = text(&one["role"]);
    if text(&wanted["role"])
        .split('|')
        .any(|wanted| wanted == role)
    {
        Ok(())
    } else {
        Err(format!("{name} is {role}, not {}", wanted["role"]))
    }
}

/// What rounding of a sum may come to, in g.
const SLIGHT: f64 = 1e-6;

fn steps(answer: &Value, expected: &Value, findings: &mut Vec<String>) {
    let steps = list(&answer["steps"]);
    let least = expected["steps_min"].as_u64().unwrap_or(0);
    if (steps.len() as u64) < least {
        findings.push(format!(
            "there are {} steps, fewer than {least}",
            steps.len()
        ));
    }
    let mut times: Vec<(f64, f64)> = steps
        .iter()
        .filter_map(|step| match list(&step["minutes"]) {
            [low, high] => Some((low.as_f64()?, high.as_f64()?)),
            _ => None,
        })
        .collect();
    for wanted in list(&expected["times_min"]) {
        let found = times.iter().position(|time| is_time(*time, wanted));
        match found {
            Some(place) => {
                times.remove(place);
            }
            None => findings.push(format!("no step takes {wanted} min; left are {times:?}")),
        }
    }
    let mut heats: Vec<f64> = steps
        .iter()
        .filter_map(|step| step["celsius"].as_f64())
        .collect();
    for wanted in list(&expected["temps_c"]) {
        match heats.iter().position(|heat| is_heat(*heat, wanted)) {
            Some(place) => {
                heats.remove(place);
            }
            None => findings.push(format!("no step is at {wanted} °C; left are {heats:?}")),
        }
    }
}

fn is_time(time: (f64, f64), wanted: &Value) -> bool {
    match wanted {
        Value::Number(number) => number
            .as_f64()
            .is_some_and(|wanted| near(time.0, wanted) && near(time.1, wanted)),
        Value::Array(range) => match range.as_slice() {
            [low, high] => {
                near(time.0, low.as_f64().unwrap_or(-1.0))
                    && near(time.1, high.as_f64().unwrap_or(-1.0))
            }
            _ => false,
        },
        other => list(&other["any"])
            .iter()
            .any(|wanted| is_time(time, wanted)),
    }
}

fn near(one: f64, other: f64) -> bool {
    (one - other).abs() < 0.01
}

fn is_heat(heat: f64, wanted: &Value) -> bool {
    match wanted {
        Value::Number(number) => number
            .as_f64()
            .is_some_and(|wanted| (heat - wanted).abs() <= 1.0),
        Value::Array(range) => match range.as_slice() {
            [low, high] => {
                heat >= low.as_f64().unwrap_or(f64::MAX)
                    && heat <= high.as_f64().unwrap_or(f64::MIN)
            }
            _ => false,
        },
        other => list(&other["any"])
            .iter()
            .any(|wanted| is_heat(heat, wanted)),
    }
}

fn questions(answer: &Value, expected: &Value, findings: &mut Vec<String>) {
    let asked: Vec<String> = list(&answer["questions"])
        .iter()
        .map(|one| unaccented(text(one)))
        .collect();
    for wanted in list(&expected["must_ask_about"]) {
        let is_asked = text(wanted)
            .split('|')
            .map(unaccented)
            .any(|word| asked.iter().any(|one| one.contains(&word)));
        if !is_asked {
            findings.push(format!("nothing asks about {wanted}; asked is {asked:?}"));
        }
    }
}

/// Whether some text in an answer has these letters in it.
fn says(value: &Value, letters: &str) -> bool {
    match value {
        Value::String(text) => text.contains(letters),
        Value::Array(items) => items.iter().any(|item| says(item, letters)),
        Value::Object(object) => object.values().any(|item| says(item, letters)),
        _ => false,
    }
}
