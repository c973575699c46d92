//! Texts that people could have written, read and examined.
//!
//! Source: ourselves; `tests/texts/README.md` says who wrote them, and where the household weights are from.

mod binary;
mod examiner;

use std::fs;
use std::path::{Path, PathBuf};

use checks::read::answer_to;
use checks::read::examine::findings;
use serde_json::Value;

/// The folders with texts.
pub(crate) const FOLDERS: [&str; 4] = ["given", "practice", "examined", "examined-again"];

/// A text, and what has to come of it.
pub(crate) struct Text {
    pub(crate) name: String,
    pub(crate) path: PathBuf,
    pub(crate) bytes: Vec<u8>,
    pub(crate) expected: Value,
}

/// All texts of a folder, in the order of their names.
pub(crate) fn texts(folder: &str) -> Vec<Text> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("texts")
        .join(folder);
    let files = fs::read_dir(&folder).expect("the folder is there");
    let mut paths: Vec<PathBuf> = files.map(|file| file.expect("a file").path()).collect();
    paths.sort();
    let is_expectation = |path: &PathBuf| path.to_string_lossy().ends_with(".expected.json");
    let (expectations, paths): (Vec<_>, Vec<_>) = paths.into_iter().partition(is_expectation);
    assert_eq!(
        expectations.len(),
        paths.len(),
        "every text has its expectation, and the other way round"
    );
    paths.into_iter().map(text).collect()
}

fn text(path: PathBuf) -> Text {
    let expected = fs::read(path.with_extension("expected.json")).expect("its expectation");
    Text {
        name: path
            .file_name()
            .map_or_else(String::new, |name| name.to_string_lossy().into_owned()),
        bytes: fs::read(&path).expect("a text"),
        expected: serde_json::from_slice(&expected).expect("an expectation is JSON"),
        path,
    }
}

/// Reads all texts of a folder, and tells of every one what is wrong with it.
fn all_are_right(folder: &str, least: usize) {
    let texts = texts(folder);
    assert!(texts.len() >= least, "{folder} has {} texts", texts.len());
    let mut wrong = String::new();
    for text in &texts {
        for finding in findings(&answer_to(&text.bytes), &text.expected) {
            wrong.push_str(&format!("{folder}/{}: {finding}\n", text.name));
        }
    }
    assert!(wrong.is_empty(), "\n{wrong}");
}

#[test]
fn the_given_texts_are_read() {
    all_are_right("given", 6);
}

#[test]
fn the_texts_for_practice_are_read() {
    all_are_right("practice", 34);
}

#[test]
fn the_texts_of_the_examination_are_read() {
    all_are_right("examined", 24);
}

#[test]
fn the_texts_of_the_second_examination_are_read() {
    all_are_right("examined-again", 24);
}
