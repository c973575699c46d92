//! Reckons published figures anew with the model, and says where the two differ.
//!
//! An item has an `id`, a `topic` in words, `inputs`, what is `expected` of them, a `unit` and a
//! `tolerance` in that unit. What is computed follows from topic and inputs alone, so that any file of these
//! topics can be reckoned: an id is only ever printed, and `expected` only compared with.
//! Items without inputs are answered from numbers in their topic, or with the constant that
//! the model itself rests on. What the model has no part in is skipped, with the reason.

mod item;
mod judge;
mod published;
mod text;
mod topics;

use std::fmt;
use std::path::{Path, PathBuf};

use item::Item;
pub use judge::Verdict;
use published::Published;

/// What became of one item.
#[derive(Debug, Clone)]
pub struct Line {
    /// The item's own id.
    pub id: String,
    /// Whether it passed.
    pub verdict: Verdict,
    /// What the model has, or "-".
    pub got: String,
    /// What was expected.
    pub expected: String,
    /// Which part of the model it comes from, how far off it is, or why it was skipped.
    pub reason: String,
}

impl fmt::Display for Line {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            id,
            verdict,
            got,
            expected,
            reason,
        } = self;
        write!(f, "{id} {verdict} {got} {expected} {reason}")
    }
}

/// All lines, in the order of the items.
#[derive(Debug, Clone)]
pub struct Report {
    /// One line an item.
    pub lines: Vec<Line>,
}

impl Report {
    /// How many items ended so.
    #[must_use]
    pub fn count(&self, verdict: Verdict) -> usize {
        let of_that = |line: &&Line| line.verdict == verdict;
        self.lines.iter().filter(of_that).count()
    }
}

impl fmt::Display for Report {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for line in &self.lines {
            writeln!(f, "{line}")?;
        }
        let [passed, failed, skipped] =
            [Verdict::Pass, Verdict::Fail, Verdict::Skip].map(|verdict| self.count(verdict));
        write!(f, "{passed} passed, {failed} failed, {skipped} skipped")
    }
}

/// What an answer may need besides its own item.
pub(crate) struct Context {
    /// The nearest formula before the item, or the file's first, for topics that speak of "the formula above".
    pub(crate) formula: Option<Item>,
    /// Published tables of foods that the model doesn't carry.
    pub(crate) published: Published,
}

/// Reckons the items of a file. `tables` is a folder with the published tables of foods, if there is one.
///
/// # Errors
/// One plain sentence, when the file can't be read or holds no such items.
pub fn reckon_file(path: &Path, tables: Option<PathBuf>) -> Result<Report, String> {
    let name = path.display();
    let text =
        std::fs::read_to_string(path).map_err(|why| format!("{name} can't be read: {why}."))?;
    let folder = tables.or_else(|| path.parent().map(Path::to_owned));
    reckon(&text, folder).map_err(|why| format!("{name} {why}"))
}

/// Reckons the items of a JSON array.
///
/// # Errors
/// The rest of a sentence that begins with what was read, when it holds no such items.
pub fn reckon(text: &str, tables: Option<PathBuf>) -> Result<Report, String> {
    let items: Vec<Item> =
        serde_json::from_str(text).map_err(|why| format!("is no list of items: {why}."))?;
    let is_formula = |item: &&Item| item.inputs.contains_key(topics::INGREDIENTS);
    let mut context = Context {
        formula: items.iter().find(is_formula).cloned(),
        published: Published::in_folder(tables),
    };
    let mut lines = Vec::new();
    for item in items {
        lines.push(line(&item, &context));
        if is_formula(&&item) {
            context.formula = Some(item);
        }
    }
    Ok(Report { lines })
}

fn line(item: &Item, context: &Context) -> Line {
    let expected = judge::shown(&item.expected);
    let (verdict, got, reason) = match topics::answer(item, context) {
        Ok(answer) => {
            let got = judge::shown(&answer.value);
            match judge::difference(&answer.value, &item.expected, &item.tolerance) {
                None => (Verdict::Pass, got, format!("by {}", answer.by)),
                Some(off) => (Verdict::Fail, got, format!("{off}, by {}", answer.by)),
            }
        }
        Err(why) => (Verdict::Skip, "-".to_owned(), why),
    };
    Line {
        id: item.id.clone(),
        verdict,
        got,
        expected,
        reason,
    }
}
