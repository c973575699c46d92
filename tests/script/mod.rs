//! Whole bakes as scripts: `tests/bakes/*.txt`, readable by a baker. What stands in them is told in `native/bakes.rs`.

mod act;
mod day;
mod expect;
mod plan;
mod says;

use std::fs;
use std::path::{Path, PathBuf};

use domain::schedule::plan::Moved;

use day::Day;
pub use says::says;

/// The folder of all scripts.
#[must_use]
pub fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("bakes")
}

/// The text of a script.
///
/// # Panics
/// When there is none of that name.
#[must_use]
pub fn read(name: &str) -> String {
    fs::read_to_string(folder().join(name)).expect("the script is there")
}

/// Goes through a script and tells every line that didn't hold.
#[must_use]
pub fn run(text: &str, crash_after_every_line: bool) -> Vec<String> {
    Day::run(text, crash_after_every_line).wrong
}

/// What a plan told at a line of a script, and the sentence that is expected of it.
#[derive(Debug, Clone)]
pub struct Told {
    /// The script.
    pub script: String,
    /// The line, from 1.
    pub line: usize,
    /// What moved, if anything was told.
    pub moved: Option<Moved>,
    /// The sentence, with `~` before how far a number may be off.
    pub sentence: String,
}

/// Everything that all scripts expect to be said: sentences belong to the app, whose tests judge them.
///
/// # Panics
/// When the scripts can't be read.
#[must_use]
pub fn told() -> Vec<Told> {
    let files = fs::read_dir(folder()).expect("the folder of scripts is there");
    let mut names: Vec<String> = files
        .map(|file| file.expect("a readable folder").file_name())
        .map(|name| name.to_string_lossy().into_owned())
        .collect();
    names.sort();
    let mut all = Vec::new();
    for name in names {
        let said = Day::run(&read(&name), false).said.into_iter();
        all.extend(said.map(|(line, moved, sentence)| Told {
            script: name.clone(),
            line,
            moved,
            sentence,
        }));
    }
    all
}
