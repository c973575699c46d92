//! Files with bakes to schedule, right and wrong.

use checks::plan::{Named, answer_to};

const BAKE: &str = r#"{
    "tasks": [
        {"id": "knead", "minutes": 10, "needs": ["hands"]},
        {"id": "rise", "minutes": 60, "needs": []},
        {"id": "wash", "minutes": 15, "needs": ["hands"]},
        {"id": "bake", "minutes": 30, "needs": ["oven"]}
    ],
    "links": [
        {"from": "knead", "to": "rise", "min": 0, "max": 5},
        {"from": "rise", "to": "bake", "min": 0, "max": null}
    ],
    "resources": {"hands": 1, "oven": 1},
    "optimum": 7, "note": "not read"
}"#;

#[test]
fn a_bake_is_read_and_answered() {
    let named = Named::read(BAKE).expect("a bake");
    let answer = named.answer(&mut || true);
    assert_eq!(answer["status"], "optimal");
    assert_eq!(answer["makespan"], 100);
    assert_eq!(answer["bound"], 100);
    assert_eq!(answer["starts"]["bake"], 70);
    assert_eq!(answer["why"], serde_json::json!([]));
    let ms = answer["ms"].as_f64();
    assert!(ms.is_some_and(|ms| ms >= 0.0));
}

#[test]
fn a_contradiction_is_told_in_sentences() {
    let named = Named::read(&BAKE.replace("\"max\": null", "\"max\": -3")).expect("a bake");
    let answer = named.answer(&mut || true);
    assert_eq!(answer["status"], "infeasible");
    assert_eq!(answer["makespan"], serde_json::Value::Null);
    assert_eq!(
        answer["why"],
        serde_json::json!([
            "“bake” starts at least 0 min after “rise” ends.",
            "“bake” starts at most -3 min after “rise” ends.",
        ])
    );
}

#[test]
fn a_link_that_counts_both_ways_is_told_once() {
    let both = BAKE
        .replace("\"needs\": []", "\"needs\": [\"hands\"]")
        .replace("{\"from\": \"rise\"", "{\"from\": \"knead\"")
        .replace("\"max\": null", "\"max\": 0")
        .replace("[\"oven\"]", "[\"hands\"]");
    let named = Named::read(&both).expect("a bake");
    assert_eq!(
        named.answer(&mut || true)["why"],
        serde_json::json!([
            "“rise” takes 60 min of “hands”, one of 1.",
            "“bake” takes 30 min of “hands”, one of 1.",
            "“rise” starts 0 to 5 min after “knead” ends.",
            "“bake” starts 0 min after “knead” ends, no sooner and no later.",
        ])
    );
}

/// A kitchen without an oven is no wrong file.
#[test]
fn what_needs_something_of_which_there_is_nothing_is_infeasible() {
    let text = BAKE.replace("\"oven\": 1", "\"oven\": 0");
    let answer = answer_to(&text, &mut || true).expect("it can be read");
    assert_eq!(answer["status"], "infeasible");
    assert_eq!(answer["bound"], serde_json::Value::Null);
    let why = ["“bake” needs “oven”, of which there is nothing."];
    assert_eq!(answer["why"], serde_json::json!(why));
    let wrong = text.replace("\"to\": \"bake\"", "\"to\": \"serve\"");
    assert!(answer_to(&wrong, &mut || true).is_err());
}

/// What lasts no time at all holds nothing of it.
#[test]
fn what_takes_no_time_can_need_what_there_is_nothing_of() {
    let text = BAKE
        .replace("\"oven\": 1", "\"oven\": 0")
        .replace("\"minutes\": 30", "\"minutes\": 0");
    let answer = answer_to(&text, &mut || true).expect("it can be read");
    assert_eq!(
        (&answer["status"], &answer["makespan"]),
        (&"optimal".into(), &70.into())
    );
}

#[test]
fn a_mark_of_the_encoding_and_a_least_lag_of_null_say_nothing() {
    let text = format!("\u{feff}{}", BAKE.replace("\"min\": 0", "\"min\": null"));
    let answer = answer_to(&text, &mut || true).expect("it can be read");
    assert_eq!(answer["makespan"], 100);
}

#[test]
fn a_whole_number_may_have_a_point() {
    let text = BAKE
        .replace(": 60", ": 60.0")
        .replace(": 5}", ": 5.0}")
        .replace("\"hands\": 1", "\"hands\": 1.0");
    assert_eq!(
        answer_to(&text, &mut || true).expect("a bake")["makespan"],
        100
    );
}

#[test]
fn what_is_wrong_with_a_file_is_one_sentence() {
    let cases = [
        ("{", "", "That is no bake to schedule: "),
        (
            "\"id\": \"wash\"",
            "\"id\": \"rise\"",
            "There are two tasks with the id “rise”.",
        ),
        (
            "\"minutes\": 15",
            "\"minutes\": -15",
            "“wash” must take between 0 and 500000 minutes.",
        ),
        (
            "\"minutes\": 15",
            "\"minutes\": 1.5",
            "That is no bake to schedule: 1.5 is no whole number at line",
        ),
        (
            "\"minutes\": 15",
            "\"minutes\": 3000000000",
            "That is no bake to schedule: 3000000000 is too large a number here at line",
        ),
        (
            "\"max\": 5",
            "\"max\": -3e9",
            "That is no bake to schedule: -3000000000 is too small a number here at line",
        ),
        (
            "\"minutes\": 15",
            "\"minutes\": \"15\"",
            "That is no bake to schedule: invalid type: string \"15\", expected a whole number at line",
        ),
        (
            "{\"hands\": 1",
            "{\"hands\": \"one\"",
            "That is no bake to schedule: invalid type: string \"one\", expected a whole number at line",
        ),
        (
            "{\"hands\": 1",
            "{\"hands\": 1, \"hands\": 2",
            "That is no bake to schedule: there are two resources “hands” at line",
        ),
        (
            "\"to\": \"bake\"",
            "\"to\": \"bake\\nserve\"",
            "A link leads from “rise” to “bake\\nserve”, but “bake\\nserve” is no task.",
        ),
        (
            "[\"oven\"]",
            "[\"forge\"]",
            "“bake” needs “forge”, which is no resource.",
        ),
        (
            "[\"oven\"]",
            "[\"oven\", \"oven\"]",
            "“bake” names “oven” twice, but holds one unit of each of its needs.",
        ),
        (
            "\"oven\": 1",
            "\"oven\": 0",
            "“bake” needs “oven”, of which there is nothing.",
        ),
        (
            "\"oven\": 1",
            "\"oven\": -1",
            "That is no bake to schedule: -1 is too small a number here at line",
        ),
        (
            "\"to\": \"bake\"",
            "\"to\": \"serve\"",
            "A link leads from “rise” to “serve”, but “serve” is no task.",
        ),
        (
            "\"max\": 5",
            "\"max\": 5000000",
            "Link 0 must ask for a lag between -500000 and 500000 minutes.",
        ),
    ];
    for (right, wrong, expected) in cases {
        let text = match wrong {
            "" => right.to_owned(),
            _ => BAKE.replacen(right, wrong, 1),
        };
        let said = Named::read(&text).map(|_| ()).expect_err(&text);
        assert!(said.starts_with(expected), "{said}");
        assert_eq!(said.lines().count(), 1, "{said}");
    }
}
