//! From bare texts to what they mean, and from an archive back to bare texts.
//!
//! Nothing is lost on the way: every text ends up in the archive, either among
//! its kind or, when it can't be read, among what was set aside.

#[cfg(test)]
mod tests;

use domain::bake::{Bake, BakeId, Entry};
use domain::formula::Formula;
use domain::notebook::Note;
use domain::sorted::{Map, Set};
use records::archive::Archive;
use records::bake::EntryRecord;
use records::formula::FormulaRecord;
use records::kitchen::KitchenRecord;
use records::notebook::NoteRecord;
use records::{ReadError, Record as _};

use super::shelves::{KITCHEN_KEY, Kept, Shelf, entry_key, free_key, of_entry_key};
use super::{Contents, SetAside, Settings};

/// Everything that is kept, as what it means and as what is exported.
#[derive(Default)]
pub(super) struct Sorted {
    pub(super) contents: Contents,
    pub(super) archive: Archive,
}

/// Sorts everything that is kept.
pub(super) fn sort(kept: Kept) -> Sorted {
    let mut sorted = Sorted::default();
    let mut logs: Map<String, Map<u32, String>> = Map::new();
    for ((shelf, key), text) in kept {
        match shelf {
            Shelf::Bakes => match of_entry_key(&key) {
                Some((bake, place)) => {
                    logs.or_default(bake.to_owned()).insert(place, text);
                }
                None => {
                    sorted.set_aside(shelf, key, text, "its key is that of no entry".to_owned())
                }
            },
            Shelf::SetAside => {
                let cause = why_set_aside(&key, &text);
                sorted.set_aside(shelf, key, text, cause);
            }
            // No archive has it: what it promised was promised on this phone.
            Shelf::Plan => sorted.contents.promises = Some(text),
            // Whether it can be read shows where it is written on.
            Shelf::Manuscripts => {
                sorted.archive.manuscripts.push((key.clone(), text.clone()));
                sorted.contents.manuscripts.push((key, text));
            }
            _ => sorted.take(shelf, key, text),
        }
    }
    for (bake, log) in logs {
        sorted.take_log(bake, log);
    }
    sorted
}

/// Whether a text can be read where it lies.
pub(super) fn readable(shelf: Shelf, text: &str) -> Result<(), ReadError> {
    match shelf {
        Shelf::Formulas => formula(text).map(drop),
        Shelf::Bakes => entry(text).map(drop),
        Shelf::Kitchen => settings(text).map(drop),
        Shelf::Notebook => note(text).map(drop),
        // What can't be read of a plan is made anew, and kept for nobody; nothing is written over a manuscript that
        // wasn't read.
        Shelf::Plan | Shelf::Manuscripts | Shelf::SetAside => Ok(()),
    }
}

fn formula(text: &str) -> Result<Formula, ReadError> {
    FormulaRecord::read(text).and_then(Formula::try_from)
}

fn entry(text: &str) -> Result<Entry, ReadError> {
    EntryRecord::read(text).and_then(Entry::try_from)
}

fn settings(text: &str) -> Result<Settings, ReadError> {
    KitchenRecord::read(text).and_then(|record| Settings::try_from(&record))
}

fn note(text: &str) -> Result<Note, ReadError> {
    NoteRecord::read(text).map(Note::from)
}

fn why_set_aside(place: &str, text: &str) -> String {
    let now = Shelf::of_place(place).map(|(shelf, _)| readable(shelf, text));
    match now {
        Some(Err(cause)) => cause.to_string(),
        _ => "it made room for something newer".to_owned(),
    }
}

impl Sorted {
    fn take(&mut self, shelf: Shelf, key: String, text: String) {
        let contents = &mut self.contents;
        let read = match shelf {
            Shelf::Formulas => formula(&text).map(|formula| contents.formulas.push(formula)),
            Shelf::Notebook => note(&text).map(|note| contents.notes.push(note)),
            Shelf::Kitchen if key == KITCHEN_KEY => {
                settings(&text).map(|settings| contents.settings = Some(settings))
            }
            _ => return self.set_aside(shelf, key, text, "its key is not known here".to_owned()),
        };
        match (read, shelf) {
            (Err(cause), _) => self.set_aside(shelf, key, text, cause.to_string()),
            (Ok(()), Shelf::Formulas) => self.archive.formulas.push((key, text)),
            (Ok(()), Shelf::Kitchen) => self.archive.kitchen = Some(text),
            (Ok(()), _) => self.archive.notes.push((key, text)),
        }
    }

    fn set_aside(&mut self, shelf: Shelf, key: String, text: String, cause: String) {
        let archived = shelf.place(&key);
        let place = match shelf {
            Shelf::SetAside => key,
            _ => archived.clone(),
        };
        self.archive.set_aside.push((archived, text.clone()));
        self.contents
            .set_aside
            .push(SetAside { place, text, cause });
    }

    /// A log with one unreadable entry says something else than was meant, so none of it is used.
    fn take_log(&mut self, bake: String, log: Map<u32, String>) {
        match read_log(&bake, &log) {
            Ok(read) => {
                self.contents.bakes.push(read);
                self.archive
                    .bakes
                    .push((bake, log.into_iter().map(|(_, value)| value).collect()));
            }
            Err((place, cause)) => {
                let lines: Vec<&str> = log.values().map(String::as_str).collect();
                self.contents.set_aside.push(SetAside {
                    place: Shelf::Bakes.place(&entry_key(&bake, place)),
                    text: lines.join("\n"),
                    cause,
                });
                let entries = log.into_iter();
                self.archive.set_aside.extend(
                    entries
                        .map(|(place, text)| (Shelf::Bakes.place(&entry_key(&bake, place)), text)),
                );
            }
        }
    }
}

/// The bake, or the place in its log that spoils it and why.
fn read_log(bake: &str, log: &Map<u32, String>) -> Result<Bake, (u32, String)> {
    let mut entries = Vec::with_capacity(log.len());
    for (expected, (&place, text)) in (0_u32..).zip(log.iter()) {
        if place != expected {
            return Err((expected, "this entry is missing".to_owned()));
        }
        let entry = entry(text).map_err(|cause| (place, cause.to_string()))?;
        entries.push(entry);
    }
    Bake::from_log(BakeId(bake.to_owned()), entries).ok_or_else(|| {
        (
            0,
            "the log doesn't begin with the start of a bake".to_owned(),
        )
    })
}

/// Puts what the app knows and could not keep yet over what is kept.
///
/// Entries that are kept stay as they are; an unreadable text makes room as it
/// does when something is written in its place.
pub(super) fn lay_over(kept: &mut Kept, known: &Contents) {
    for formula in &known.formulas {
        let text = FormulaRecord::from(formula).write();
        lay(kept, Shelf::Formulas, &formula.id.0, text);
    }
    for (key, text) in &known.manuscripts {
        lay(kept, Shelf::Manuscripts, key, text.clone());
    }
    for bake in &known.bakes {
        for (place, entry) in (0_u32..).zip(bake.log()) {
            let key = (Shelf::Bakes, entry_key(&bake.id.0, place));
            let before = kept.get(&key).cloned();
            let text = before.unwrap_or_else(|| EntryRecord::from(entry).write());
            kept.insert(key, text);
        }
    }
    for note in &known.notes {
        let text = NoteRecord::from(note).write();
        lay(kept, Shelf::Notebook, &note.bake.0, text);
    }
    if let Some(settings) = &known.settings {
        let text = KitchenRecord::from(settings).write();
        lay(kept, Shelf::Kitchen, KITCHEN_KEY, text);
    }
}

fn lay(kept: &mut Kept, shelf: Shelf, key: &str, text: String) {
    let before = kept.insert((shelf, key.to_owned()), text);
    if let Some(before) = before.filter(|before| readable(shelf, before).is_err()) {
        let taken = |key: &str| kept.contains_key(&(Shelf::SetAside, key.to_owned()));
        let aside = free_key(&shelf.place(key), taken);
        kept.insert((Shelf::SetAside, aside), before);
    }
}

/// Where everything in an archive belongs.
///
/// What was set aside goes back to where it lay, so that writing an archive and
/// restoring it changes nothing; where the place is taken it stays set aside.
pub(super) fn shelve(archive: Archive) -> Kept {
    let mut kept = Kept::new();
    for (key, text) in archive.formulas {
        kept.insert((Shelf::Formulas, key), text);
    }
    for (key, text) in archive.manuscripts {
        kept.insert((Shelf::Manuscripts, key), text);
    }
    for (key, text) in archive.notes {
        kept.insert((Shelf::Notebook, key), text);
    }
    if let Some(text) = archive.kitchen {
        kept.insert((Shelf::Kitchen, KITCHEN_KEY.to_owned()), text);
    }
    let mut bakes = Set::new();
    for (bake, entries) in archive.bakes {
        for (place, text) in (0_u32..).zip(entries) {
            kept.insert((Shelf::Bakes, entry_key(&bake, place)), text);
        }
        bakes.insert(bake);
    }
    for (place, text) in archive.set_aside {
        let home = Shelf::of_place(&place).filter(|&(shelf, key)| {
            // A readable bake must not get entries from a log that was set aside.
            let of_bake = of_entry_key(key).is_some_and(|(bake, _)| bakes.contains(bake));
            let taken = kept.contains_key(&(shelf, key.to_owned()));
            let intrudes = shelf == Shelf::Bakes && of_bake;
            !taken && !intrudes
        });
        let home = match home {
            Some((shelf, key)) => (shelf, key.to_owned()),
            None => {
                let taken = |key: &str| kept.contains_key(&(Shelf::SetAside, key.to_owned()));
                (Shelf::SetAside, free_key(&place, taken))
            }
        };
        kept.insert(home, text);
    }
    kept
}
