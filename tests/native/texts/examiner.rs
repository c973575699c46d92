//! The examiner itself finds what is wrong. A check that can't fail is none.

use checks::read::answer_to;
use checks::read::examine::findings;
use serde_json::{Value, json};

use super::{FOLDERS, Text, texts};

fn text_of(folder: &str, name: &str) -> Text {
    let found = texts(folder)
        .into_iter()
        .find(|text| text.name.starts_with(name));
    found.expect("a text of that name")
}

/// A text with a mistake planted in its answer, and what the examiner says of it.
fn spoilt(folder: &str, name: &str, spoil: impl Fn(&mut Value)) -> Vec<String> {
    let text = text_of(folder, name);
    let mut answer = answer_to(&text.bytes);
    assert!(
        findings(&answer, &text.expected).is_empty(),
        "{name} is right"
    );
    let before = answer.clone();
    spoil(&mut answer);
    assert_ne!(answer, before, "{name} was spoilt");
    findings(&answer, &text.expected)
}

fn items<'a>(value: &'a mut Value, field: &str) -> &'a mut Vec<Value> {
    value[field].as_array_mut().expect("a list")
}

fn ingredients(answer: &mut Value, component: usize) -> &mut Vec<Value> {
    items(&mut answer["components"][component], "ingredients")
}

/// Swirls of our own: a dough, a filling and a wash, with times and a temperature.
const SWIRLS: (&str, &str) = ("given", "x1-");

/// One finding about a mistake in the swirls.
fn one_finding(spoil: impl Fn(&mut Value)) -> String {
    let (folder, name) = SWIRLS;
    let mut found = spoilt(folder, name, spoil);
    assert_eq!(found.len(), 1, "{found:?}");
    found.remove(0)
}

#[test]
fn a_wrong_weight_is_found() {
    let gram_more = |answer: &mut Value| ingredients(answer, 0)[0]["grams"] = json!(376.0);
    let said = spoilt(SWIRLS.0, SWIRLS.1, gram_more);
    assert!(
        said[0].contains("376") && said[0].contains("375"),
        "{said:?}"
    );
    let none = |answer: &mut Value| ingredients(answer, 0)[0]["grams"] = Value::Null;
    assert!(!spoilt(SWIRLS.0, SWIRLS.1, none).is_empty());
}

#[test]
fn a_missing_ingredient_is_found() {
    let said = one_finding(|answer| drop(ingredients(answer, 0).remove(1)));
    assert!(said.contains("salt"), "{said}");
}

#[test]
fn an_ingredient_that_nobody_listed_is_found() {
    let extra = json!({ "name": "gravel", "grams": 3.0, "role": "other" });
    let said = one_finding(|answer| ingredients(answer, 1).push(extra.clone()));
    assert!(said.contains("gravel"), "{said}");
}

#[test]
fn an_ingredient_in_the_wrong_part_is_found() {
    let said = spoilt(SWIRLS.0, SWIRLS.1, |answer| {
        let leeks = ingredients(answer, 1).remove(1);
        ingredients(answer, 0).push(leeks);
    });
    assert!(said.iter().any(|said| said.contains("leek")), "{said:?}");
}

#[test]
fn a_part_that_is_called_something_else_is_found() {
    let said = spoilt(SWIRLS.0, SWIRLS.1, |answer| {
        answer["components"][1]["name"] = json!("roof");
    });
    assert!(said.iter().any(|said| said.contains("filling")), "{said:?}");
}

#[test]
fn a_wrong_role_is_found() {
    let said = spoilt(SWIRLS.0, SWIRLS.1, |answer| {
        ingredients(answer, 0)[4]["role"] = json!("sugar");
    });
    assert!(
        said[0].contains("sugar") && said[0].contains("fat"),
        "{said:?}"
    );
}

#[test]
fn a_missing_time_is_found() {
    let said = one_finding(|answer| {
        for step in items(answer, "steps") {
            if step["minutes"] == json!([75.0, 75.0]) {
                step["minutes"] = Value::Null;
            }
        }
    });
    assert!(said.contains("75"), "{said}");
    // From the least to the most: an hour and a quarter is no range up to it.
    let said = one_finding(|answer| {
        for step in items(answer, "steps") {
            if step["minutes"] == json!([75.0, 75.0]) {
                step["minutes"] = json!([60.0, 75.0]);
            }
        }
    });
    assert!(said.contains("75"), "{said}");
}

#[test]
fn one_step_has_one_of_the_times_only() {
    let said = spoilt(SWIRLS.0, SWIRLS.1, |answer| {
        let steps = items(answer, "steps");
        steps.retain(|step| step["minutes"] != json!([30.0, 30.0]));
    });
    assert!(said.iter().any(|said| said.contains("30")), "{said:?}");
}

#[test]
fn a_wrong_temperature_is_found() {
    let said = one_finding(|answer| {
        for step in items(answer, "steps") {
            if step["celsius"] == json!(200.0) {
                step["celsius"] = json!(190.0);
            }
        }
    });
    assert!(said.contains("°C"), "{said}");
}

#[test]
fn too_few_steps_are_found() {
    let said = spoilt(SWIRLS.0, SWIRLS.1, |answer| {
        // All times and temperatures stay.
        items(answer, "steps").retain(|step| step["minutes"] != Value::Null);
    });
    assert!(said[0].contains("steps"), "{said:?}");
}

#[test]
fn a_missing_question_is_found() {
    let said = spoilt("practice", "p14-", |answer| answer["questions"] = json!([]));
    assert!(
        !said.is_empty() && said.iter().all(|said| said.contains("asks about")),
        "{said:?}"
    );
}

#[test]
fn lost_markup_is_found() {
    let mut checked = 0;
    for folder in FOLDERS {
        for text in texts(folder) {
            let kept = text.expected["keeps"]
                .as_array()
                .cloned()
                .unwrap_or_default();
            for kept in kept.iter().filter_map(Value::as_str) {
                let answer = answer_to(&text.bytes).to_string();
                // As it stands in JSON, without its quotation marks.
                let written = Value::from(kept).to_string();
                let written = written.trim_matches('"');
                let spoilt = answer.replace(written, &written.replace(['<', '&'], " "));
                assert_ne!(spoilt, answer, "{}: {kept}", text.name);
                let spoilt: Value = serde_json::from_str(&spoilt).expect("it is JSON still");
                let said = findings(&spoilt, &text.expected);
                assert!(
                    said.iter().any(|said| said.contains("letter for letter")),
                    "{said:?}"
                );
                checked += 1;
            }
        }
    }
    assert!(checked > 0, "no text has anything to keep");
}

#[test]
fn what_was_wrongly_taken_or_refused_is_found() {
    let refused = json!({ "kind": "rejected", "components": [], "steps": [], "questions": [], "reason": "too sweet" });
    let swirls = text_of(SWIRLS.0, SWIRLS.1);
    assert!(findings(&refused, &swirls.expected)[0].contains("too sweet"));
    let notice = text_of("given", "x5-");
    assert!(!findings(&answer_to(&swirls.bytes), &notice.expected).is_empty());
    let mute = json!({ "kind": "rejected", "reason": "" });
    assert!(findings(&mute, &notice.expected)[0].contains("without a reason"));
}

/// Of every text: no part can go, and nothing can be added to any.
#[test]
fn nothing_of_any_text_can_be_lost_or_added_unseen() {
    for text in FOLDERS.into_iter().flat_map(texts) {
        let answer = answer_to(&text.bytes);
        let count = answer["components"].as_array().map_or(0, Vec::len);
        for place in 0..count {
            let mut more = answer.clone();
            let extra = json!({ "name": "gravel", "grams": 3.0, "role": "other" });
            ingredients(&mut more, place).push(extra);
            assert!(!findings(&more, &text.expected).is_empty(), "{}", text.name);
            // What may be left out can be lost.
            if text.expected.to_string().contains("\"optional\"") {
                continue;
            }
            let mut less = answer.clone();
            ingredients(&mut less, place).clear();
            assert!(
                !findings(&less, &text.expected).is_empty(),
                "{}: {place}",
                text.name
            );
        }
    }
}
