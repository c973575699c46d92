//! The `read` command itself, as it is called: what it prints, and with what it leaves. Whether the answers are right is
//! checked beside this.

use std::collections::BTreeSet;
use std::path::Path;
use std::process::{Command, Output};

use checks::read::answer_to;
use serde_json::Value;

use super::{FOLDERS, texts};

fn asked(arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_read"));
    command.args(arguments).output().expect("it can be started")
}

fn printed(of: &[u8]) -> String {
    String::from_utf8(of.to_vec()).expect("it is text")
}

/// The one line of JSON that is printed for a file that can be opened.
fn answered(path: &Path) -> Value {
    let output = asked(&[path.to_str().expect("it is text")]);
    assert_eq!(printed(&output.stderr), "");
    assert_eq!(output.status.code(), Some(0));
    let text = printed(&output.stdout);
    assert!(
        text.ends_with('\n') && text.lines().count() == 1,
        "{text:?}"
    );
    serde_json::from_str(&text).expect("it is JSON")
}

fn keys(of: &Value) -> BTreeSet<&str> {
    let object = of.as_object().expect("an object");
    object.keys().map(String::as_str).collect()
}

/// Every kind of file is answered as the library answers its bytes.
#[test]
fn a_text_a_page_and_a_file_of_json_are_answered_by_a_line_of_json() {
    let mut endings = BTreeSet::new();
    for text in FOLDERS.into_iter().flat_map(texts) {
        let ending = text
            .path
            .extension()
            .map(|ending| ending.to_string_lossy().into_owned());
        let is_formula = text.expected["kind"] == "formula";
        if !endings.insert((ending, is_formula)) {
            continue;
        }
        let answer = answered(&text.path);
        assert_eq!(answer, answer_to(&text.bytes), "{}", text.name);
        let mut expected = BTreeSet::from(["components", "kind", "questions", "reason", "steps"]);
        if answer["kind"] == "formula" {
            expected.extend(["makes", "name"]);
            assert_eq!(answer["reason"], Value::Null);
        } else {
            assert_eq!(answer["kind"], "rejected");
            assert!(answer["reason"].as_str().is_some_and(|why| why.len() > 20));
            assert_eq!(answer["components"], Value::Array(Vec::new()));
        }
        assert_eq!(keys(&answer), expected, "{}", text.name);
    }
    let formula = |ending: &str| (Some(ending.to_owned()), true);
    for ending in ["txt", "html", "json"] {
        assert!(
            endings.contains(&formula(ending)),
            "no {ending} with a formula"
        );
    }
    assert!(endings.iter().any(|(_, is_formula)| !is_formula));
}

#[test]
fn ingredients_and_steps_have_what_the_command_promises() {
    let text = texts("given").remove(0);
    let answer = answered(&text.path);
    let component = &answer["components"][0];
    assert_eq!(
        keys(component),
        BTreeSet::from(["ingredients", "kind", "kind_is_read", "name"])
    );
    let one = &component["ingredients"][0];
    let fields = ["amount", "basis", "food", "grams", "name", "note", "role"];
    assert_eq!(keys(one), BTreeSet::from(fields));
    assert_eq!(one["name"], "strong white flour");
    assert_eq!(one["amount"], "375 g");
    assert_eq!(one["note"], "plus a little for the worktop");
    let step = &answer["steps"][0];
    assert_eq!(
        keys(step),
        BTreeSet::from(["celsius", "kind", "minutes", "text"])
    );
}

#[test]
fn what_cannot_be_opened_is_said_in_one_plain_sentence() {
    let here = env!("CARGO_MANIFEST_DIR");
    for (arguments, expected) in [
        (vec!["no such file.txt"], "no such file.txt can't be read: "),
        (vec![here], "can't be read: "),
        (vec![], "Which file? "),
        (vec!["one.txt", "another.txt"], "Which file? "),
    ] {
        let output = asked(&arguments);
        let said = printed(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {said}");
        assert_eq!(printed(&output.stdout), "", "{arguments:?}");
        assert!(said.contains(expected), "{arguments:?}: {said}");
        assert!(
            said.ends_with('\n') && said.lines().count() == 1,
            "{arguments:?}: {said:?}"
        );
    }
}
