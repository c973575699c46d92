//! The `plan` command itself, as it is called: what it prints, and with what it leaves. Whether the answers are right is
//! checked beside this.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use serde_json::{Value, json};

/// A bake of two tasks and a link, to be spoilt.
const BAKE: &str = r#"{
    "tasks": [{"id": "knead", "minutes": 10, "needs": ["hands"]}, {"id": "bake", "minutes": 30, "needs": []}],
    "links": [{"from": "knead", "to": "bake", "min": 0, "max": null}],
    "resources": {"hands": 1}
}"#;

fn asked(arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_plan"));
    command.args(arguments).output().expect("it can be started")
}

fn printed(of: &[u8]) -> String {
    String::from_utf8(of.to_vec()).expect("it is text")
}

/// A file of its own for each text, which is gone with it.
struct Written(PathBuf);

impl Written {
    fn new(name: &str, text: &str) -> Self {
        let name = format!("a-bake-to-schedule-{}-{name}.json", std::process::id());
        let path = std::env::temp_dir().join(name);
        fs::write(&path, text).expect("there is room");
        Self(path)
    }

    fn path(&self) -> &str {
        self.0.to_str().expect("it is text")
    }
}

impl Drop for Written {
    fn drop(&mut self) {
        // Whatever is left there is swept away with all that is temporary.
        let _ = fs::remove_file(&self.0);
    }
}

/// The one line of JSON that is printed for a file that can be read.
fn answered(arguments: &[&str]) -> Value {
    let output = asked(arguments);
    assert_eq!(printed(&output.stderr), "");
    assert_eq!(output.status.code(), Some(0));
    let text = printed(&output.stdout);
    assert!(
        text.ends_with('\n') && text.lines().count() == 1,
        "{text:?}"
    );
    serde_json::from_str(&text).expect("it is JSON")
}

#[test]
fn a_file_is_answered_by_a_line_of_json_with_what_is_to_stand_in_it() {
    for name in ["buns", "flatbreads", "pairs", "rings"] {
        let path =
            Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("reference/plans/{name}.json"));
        let file = fs::read_to_string(&path).expect("it is there");
        let file: Value = serde_json::from_str(&file).expect("it is JSON");
        let answer = answered(&[path.to_str().expect("it is text")]);

        let keys: BTreeSet<&str> = answer
            .as_object()
            .expect("an object")
            .keys()
            .map(String::as_str)
            .collect();
        let expected = ["bound", "makespan", "ms", "starts", "status", "why"];
        assert_eq!(keys, BTreeSet::from(expected), "{name}");
        assert_eq!(answer["status"], file["status"], "{name}");
        assert_eq!(answer["makespan"], file["optimum"], "{name}");
        assert_eq!(answer["bound"], file["optimum"], "{name}");
        assert!(answer["ms"].as_f64().is_some_and(|ms| ms >= 0.0), "{name}");
        assert_eq!(answer["why"], Value::Array(Vec::new()), "{name}");

        let starts = answer["starts"].as_object().expect("starts by id");
        let tasks = file["tasks"].as_array().expect("a list").iter();
        let ids: BTreeSet<&str> = tasks
            .map(|task| task["id"].as_str().expect("a text"))
            .collect();
        assert_eq!(
            starts.keys().map(String::as_str).collect::<BTreeSet<_>>(),
            ids
        );
        assert!(starts.values().all(|start| start.as_i64() >= Some(0)));
    }
}

/// What can't be done is an answer as well, and no fault of the file's.
#[test]
fn what_is_infeasible_is_answered_with_why() {
    let text = BAKE.replace("\"max\": null", "\"max\": -5");
    let file = Written::new("infeasible", &text);
    let answer = answered(&[file.path()]);
    assert_eq!(answer["status"], "infeasible");
    assert_eq!(
        (&answer["makespan"], &answer["bound"]),
        (&Value::Null, &Value::Null)
    );
    let why = answer["why"].as_array().expect("a list");
    let names = |name: &str| {
        why.iter()
            .any(|part| part.as_str().is_some_and(|part| part.contains(name)))
    };
    assert!(names("“knead”") && names("“bake”"), "{why:?}");
}

/// Ten pieces of work for each of two, and a bound that only shows in their sum.
#[test]
fn what_there_was_no_time_to_prove_is_never_called_optimal() {
    let task = |nth: usize, whose: &str| {
        let id = format!("{whose} {nth}");
        json!({ "id": id, "minutes": nth, "needs": [whose] })
    };
    let tasks = ["one", "other"].map(|whose| (1..=10).map(move |nth| task(nth, whose)));
    let link = |nth: usize| {
        let (from, to) = (format!("one {nth}"), format!("other {}", 11 - nth));
        json!({ "from": from, "to": to, "min": 0, "max": 3 })
    };
    let bake = json!({
        "tasks": tasks.into_iter().flatten().collect::<Vec<_>>(),
        "links": (1..=10).map(link).collect::<Vec<_>>(),
        "resources": { "one": 1, "other": 1 },
    });
    let file = Written::new("no-time", &bake.to_string());
    let proven = answered(&[file.path()]);
    assert_eq!(
        (&proven["status"], &proven["bound"]),
        (&json!("optimal"), &proven["makespan"])
    );
    let least = proven["makespan"].as_i64().expect("a minute");
    let answer = answered(&[file.path(), "--seconds", "0"]);
    assert_eq!(answer["status"], "best-found");
    assert!(answer["bound"].as_i64().expect("a minute") <= least);
    let end = answer["makespan"].as_i64();
    assert!(end.is_none_or(|end| end >= least), "{answer}");
    let starts = answer["starts"].as_object().expect("starts by id");
    assert_eq!(starts.len(), end.map_or(0, |_| 20));
}

/// Nothing is printed where JSON is waited for, one sentence says what is wrong, and 2 that it is the asker's to mend.
#[test]
fn what_is_no_bake_is_refused_in_one_plain_sentence() {
    let spoilt = |name, from: &str, to: &str| Written::new(name, &BAKE.replacen(from, to, 1));
    let files = [
        (
            Written::new("no-json", "knead, then bake"),
            "That is no bake to schedule: expected value at line 1 column 1.",
        ),
        (
            Written::new("cut-short", &BAKE[..BAKE.len() / 2]),
            "That is no bake to schedule: EOF while parsing",
        ),
        (
            spoilt("no-resource", "[\"hands\"]", "[\"forge\"]"),
            "“knead” needs “forge”, which is no resource.",
        ),
        (
            spoilt("no-task", "\"to\": \"bake\"", "\"to\": \"serve\""),
            "A link leads from “knead” to “serve”, but “serve” is no task.",
        ),
    ];
    let (missing, whole) = ("no such file.json", Written::new("whole", BAKE));
    let mut cases: Vec<(Vec<&str>, &str)> = vec![
        (vec![missing], "no such file.json can't be read: "),
        (vec![], "Which file? "),
        (
            vec![missing, missing],
            "Only one file is scheduled at a time.",
        ),
        (
            vec![whole.path(), "--seconds", "soon"],
            "--seconds wants a whole number of them.",
        ),
        (vec![whole.path(), "--seconds"], "--seconds wants"),
    ];
    cases.extend(files.iter().map(|(file, said)| (vec![file.path()], *said)));
    for (arguments, expected) in cases {
        let output = asked(&arguments);
        let said = printed(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {said}");
        assert_eq!(printed(&output.stdout), "", "{arguments:?}");
        assert!(said.starts_with(expected), "{arguments:?}: {said}");
        assert!(
            said.ends_with('\n') && said.lines().count() == 1,
            "{arguments:?}: {said:?}"
        );
    }
    // The same file, unspoilt, is answered.
    assert_eq!(answered(&[whole.path()])["makespan"], 40);
}
