//! The overview of what is uncertain, in `domain::estimate`, against the constants themselves.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// Every Rust file below a folder.
fn sources(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).expect("the folder is there");
    let paths = entries.map(|entry| entry.expect("a readable folder").path());
    let all = paths.flat_map(|path| {
        if path.is_dir() {
            sources(&path)
        } else {
            vec![path]
        }
    });
    let mut files: Vec<PathBuf> = all.collect();
    files.retain(|file| file.extension().is_some_and(|extension| extension == "rs"));
    files
}

/// What a line declares, where it is a constant or a function.
fn declared(line: &str) -> Option<&str> {
    let mut words = line.split(|letter: char| !letter.is_alphanumeric() && letter != '_');
    words.find(|&word| word == "const" || word == "fn")?;
    words.find(|word| !word.is_empty() && *word != "fn")
}

/// Whatever is declared with a comment of its own, by name, and whether that says ASSUMPTION.
fn documented() -> BTreeMap<String, bool> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../src/domain");
    let mut found = BTreeMap::new();
    for file in sources(&folder) {
        let text = fs::read_to_string(&file).expect("a readable file");
        let (mut is_assumption, mut is_documented) = (false, false);
        for line in text.lines().map(str::trim) {
            if let Some(comment) = line.strip_prefix("///") {
                is_documented = true;
                is_assumption |= comment.contains("ASSUMPTION");
            } else if !line.starts_with("#[") {
                if let Some(name) = declared(line).filter(|_| is_documented) {
                    *found.entry(name.to_owned()).or_default() |= is_assumption;
                }
                (is_assumption, is_documented) = (false, false);
            }
        }
    }
    found
}

/// The rows of the overview: each name, and what its last column says.
fn overview() -> Vec<(String, String)> {
    let text = include_str!("../../src/domain/estimate.rs");
    let rows = text.lines().filter_map(|line| line.strip_prefix("//! | "));
    let rows = rows.flat_map(|row| {
        let columns: Vec<&str> = row
            .trim_end_matches('|')
            .split('|')
            .map(str::trim)
            .collect();
        let kind = columns.last().copied().unwrap_or_default().to_owned();
        let names = columns[0].split(", ");
        let names = names.filter_map(|name| name.strip_prefix('`')?.strip_suffix('`'));
        names
            .map(|name| (name.to_owned(), kind.clone()))
            .collect::<Vec<_>>()
    });
    rows.collect()
}

#[test]
fn the_overview_says_of_each_whether_it_is_judgement() {
    let documented = documented();
    let overview = overview();
    assert!(overview.len() > 30, "only {} rows", overview.len());
    for (name, kind) in &overview {
        let is_judgement = match kind.as_str() {
            "judgement" => true,
            "published" | "the formula" => false,
            other => panic!("{name} is {other}"),
        };
        let said = documented.get(name);
        assert_eq!(
            said,
            Some(&is_judgement),
            "{name}: the constant's own comment"
        );
    }
}

#[test]
fn no_assumption_is_missing_from_the_overview() {
    let listed: BTreeSet<String> = overview().into_iter().map(|(name, _)| name).collect();
    let documented = documented().into_iter();
    let missing: Vec<String> = documented
        .filter(|(name, is_assumption)| *is_assumption && !listed.contains(name))
        .map(|(name, _)| name)
        .collect();
    assert!(
        missing.is_empty(),
        "`domain::estimate` doesn't list {missing:?}"
    );
}
