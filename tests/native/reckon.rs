//! The reckoner on figures of our own: other numbers of the topics that are published.
//!
//! `reference/reckoned.json` holds them, each with what it was reckoned with: by hand, in plain
//! Python from the published equation, or with SciPy, CoolProp, iapws or pint. Tolerances are
//! the rounding of what is printed there, and where a correlation is compared with another
//! one (air, ice) the distance that both allow.

use std::path::Path;

use checks::reckon::{Verdict, reckon, reckon_file};
use serde_json::{Value, json};

fn items() -> Vec<Value> {
    serde_json::from_str(include_str!("../reference/reckoned.json")).expect("the file reads")
}

fn lines(items: &[Value]) -> Vec<checks::reckon::Line> {
    let text = serde_json::to_string(items).expect("it is JSON");
    reckon(&text, None).expect("these are items").lines
}

#[test]
fn figures_of_our_own_are_met() {
    let mut passed = 0;
    for line in lines(&items()) {
        match line.verdict {
            Verdict::Pass => passed += 1,
            Verdict::Fail => panic!("{line}"),
            Verdict::Skip => assert!(line.reason.contains("calendar"), "{line}"),
        }
    }
    assert!(passed > 75, "only {passed}");
}

#[test]
fn an_id_is_only_a_name() {
    let mut renamed = items();
    for (number, item) in renamed.iter_mut().enumerate() {
        item["id"] = json!(format!("item {number}"));
    }
    for (ours, other) in lines(&items()).iter().zip(lines(&renamed)) {
        assert_eq!(
            (&ours.got, &ours.reason),
            (&other.got, &other.reason),
            "{ours}"
        );
        assert_ne!(ours.id, other.id);
    }
}

/// Moves the first number of an expectation by far more than any tolerance.
fn moved(expected: &mut Value) -> bool {
    match expected {
        Value::Number(number) => {
            *expected = json!(number.as_f64().expect("it fits") * 1.5 + 7.0);
            true
        }
        Value::Array(list) => list.iter_mut().any(moved),
        Value::Object(table) => table.values_mut().any(moved),
        _ => false,
    }
}

/// Whatever is expected, the model's own number is what is shown, and a wrong one fails.
#[test]
fn a_wrong_expectation_fails_and_changes_nothing_else() {
    let right = items();
    let mut wrong = right.clone();
    let changed: Vec<bool> = wrong
        .iter_mut()
        .map(|item| moved(&mut item["expected"]))
        .collect();
    let mut failed = 0;
    for ((ours, other), changed) in lines(&right).iter().zip(lines(&wrong)).zip(changed) {
        if changed {
            assert_eq!(ours.got, other.got, "{ours}");
            assert_eq!(other.verdict, Verdict::Fail, "{other}");
            failed += 1;
        }
    }
    assert!(failed > 75, "only {failed} hold numbers");
}

#[test]
fn a_duration_on_the_wrong_list_fails() {
    let item = json!([{
        "id": "lengths", "topic": "valid / invalid RFC 5545 durations", "unit": "sets",
        "expected": { "valid": ["PT5M", "PT0.5H"], "invalid": ["P1M"] }, "tolerance": 0,
    }]);
    let report = reckon(&item.to_string(), None).expect("this is an item");
    assert_eq!(report.count(Verdict::Fail), 1, "{report}");
}

#[test]
fn what_lies_outside_the_model_is_skipped_with_a_reason() {
    for (topic, inputs, reason) in [
        (
            "CTMI relative rate",
            json!({"T_C": 20, "Tmin": 30, "Topt": 20, "Tmax": 40}),
            "out of order",
        ),
        ("water density", json!({"T_C": 130}), "from 0 to 100 °C"),
        (
            "desired dough temperature",
            json!({"ddt_C": 25, "room_C": 900}),
            "temperature is 900",
        ),
        (
            "desired dough temperature",
            json!({"ddt_C": 25, "room_C": 20, "factors": 4}),
            "for 2",
        ),
        ("composition per 100 g", json!({"NDB": 99_999}), "99999"),
        (
            "centre temperature ratio",
            json!({"geometry": "wall"}),
            "no number Bi",
        ),
        (
            "dough water content of the formula above",
            json!({}),
            "no formula",
        ),
        ("the colour of crust", json!({}), "a plain fact"),
    ] {
        let item = json!([{"id": "a", "topic": topic, "inputs": inputs, "expected": 1}]);
        let report = reckon(&item.to_string(), None).expect("this is an item");
        let line = &report.lines[0];
        assert_eq!(line.verdict, Verdict::Skip, "{line}");
        assert!(line.reason.contains(reason), "{line}");
    }
}

/// Foods that the model doesn't carry come from the published tables, where these lie. The two rows
/// are the database's own (USDA SR28 ABBREV and SR26 WEIGHT), with the other columns left out.
#[test]
fn other_foods_are_read_from_the_published_tables() {
    let folder = std::env::temp_dir().join(format!("published-tables-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("there is room");
    let composition = "NDB_No,Shrt_Desc,Water_(g),Energ_Kcal,Protein_(g),Lipid_Tot_(g),Ash_(g),Carbohydrt_(g),\
                       Fiber_TD_(g),Sugar_Tot_(g)\n\
                       15155,\"ABALONE,MIXED SPECIES,RAW\",74.56,105,17.1,0.76,1.57,6.01,0.0,0.0\n";
    let weight = "~02016~^1^1^~tsp~^2.1^^\n~02016~^2^1^~tbsp~^6.6^^\n";
    for (name, text) in [
        ("usda-sr28-abbrev.csv", composition),
        ("usda-sr26-weight.txt", weight),
    ] {
        std::fs::write(folder.join(name), text).expect("there is room");
    }
    let items = json!([
        { "id": "a", "topic": "composition per 100 g", "inputs": { "NDB": 15155 },
          "expected": [74.56, 17.1, 0.76, 6.01, 0, 1.57, 0], "tolerance": 1e-9 },
        { "id": "b", "topic": "household measure weight", "inputs": { "NDB": 2016, "measure": "tsp" },
          "expected": 2.1, "tolerance": 1e-9 },
    ]);
    let with = reckon(&items.to_string(), Some(folder.clone())).expect("these are items");
    std::fs::remove_dir_all(&folder).expect("it was made here");
    assert_eq!(with.count(Verdict::Pass), 2, "{with}");
    let without = reckon(&items.to_string(), None).expect("these are items");
    assert_eq!(without.count(Verdict::Skip), 2, "{without}");
}

#[test]
fn a_file_that_holds_no_items_is_refused_in_one_sentence() {
    let missing = reckon_file(Path::new("no such file.json"), None);
    let missing = missing.expect_err("it isn't there");
    assert!(
        missing.starts_with("no such file.json can't be read:"),
        "{missing}"
    );
    for nonsense in [
        "",
        "{}",
        "[1]",
        r#"[{"id": "a"}]"#,
        r#"[{"id": 1, "topic": "b"}]"#,
    ] {
        let why = reckon(nonsense, None).expect_err("these are no items");
        assert!(
            why.starts_with("is no list of items:") && why.ends_with('.'),
            "{why}"
        );
        assert!(!why.contains('\n'), "{why}");
    }
    let none = reckon("[]", None).expect("an empty list is one");
    assert_eq!(none.to_string(), "0 passed, 0 failed, 0 skipped");
}
