//! The archive file: everything that is kept, as one JSON file.
//!
//! It carries the stored texts themselves, so that leaving and coming back
//! changes nothing, and a record that this program can't read travels along.
//! Restoring is all or nothing: [`Archive::read`] reads the whole file and every
//! record in it before anything is touched.

mod error;
mod file;

use std::fmt;

use domain::bake::{Bake, BakeId, Entry};
use domain::formula::Formula;
use domain::kitchen::Kitchen;

use crate::bake::EntryRecord;
use crate::formula::FormulaRecord;
use crate::kitchen::KitchenRecord;
use crate::notebook::NoteRecord;
use crate::read::{ReadError, Record, field, parse, version};
use crate::shape::{self, Shape as _};

pub use self::error::ArchiveError;
use self::file::{Contents, Envelope, checksum};

/// The most bytes an archive may have: ten years of weekly bakes are a fifth of it.
pub const MOST_BYTES: usize = 64 * 1024 * 1024;

/// What the file calls itself.
const FORMAT: &str = "oventide-archive";

/// Everything that is kept.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Archive {
    /// Stored formulas: key and text.
    pub formulas: Vec<(String, String)>,
    /// Formulas that are still being written: key and text.
    pub manuscripts: Vec<(String, String)>,
    /// Stored bakes: their entries' texts, oldest first.
    pub bakes: Vec<(String, Vec<String>)>,
    /// The kitchen's text.
    pub kitchen: Option<String>,
    /// Stored notes: key and text.
    pub notes: Vec<(String, String)>,
    /// Texts that could not be read when they were met, with where they lay.
    pub set_aside: Vec<(String, String)>,
}

impl Archive {
    /// The file's text.
    #[must_use]
    pub fn write(&self, written_ms: i64) -> String {
        let contents = Contents::from(self);
        let envelope = Envelope {
            format: FORMAT.to_owned(),
            version: 1,
            written_ms,
            checksum: checksum(&contents),
            contents,
        };
        let mut text = String::new();
        envelope.write_json(&mut text);
        text
    }

    /// Reads a file's text and every record in it.
    ///
    /// # Errors
    /// The first thing wrong with it. Nothing has been touched then.
    pub fn read(text: &str) -> Result<Self, ArchiveError> {
        if text.len() > MOST_BYTES {
            return Err(ArchiveError::TooLarge { bytes: text.len() });
        }
        let json = parse(text).map_err(|cause| not_an_archive(&cause))?;
        let format: String = field(&json, "format").map_err(|flaw| not_an_archive(&flaw))?;
        if format != FORMAT {
            return Err(not_an_archive(&"it calls itself something else"));
        }
        let version = version(&json).map_err(|flaw| not_an_archive(&flaw))?;
        if version > 1 {
            return Err(ArchiveError::NewerThanApp { version });
        }
        let envelope = shape::read::<Envelope>(&json).map_err(|flaw| not_an_archive(&flaw))?;
        if checksum(&envelope.contents) != envelope.checksum {
            return Err(ArchiveError::Damaged);
        }
        let archive = Self::from(envelope.contents);
        archive.check()?;
        Ok(archive)
    }

    fn check(&self) -> Result<(), ArchiveError> {
        for (key, text) in &self.formulas {
            let formula = FormulaRecord::read(text).and_then(Formula::try_from);
            formula.map_err(|cause| at("formulas", key, cause))?;
        }
        for (key, texts) in &self.bakes {
            let log = texts
                .iter()
                .map(|text| EntryRecord::read(text).and_then(Entry::try_from))
                .collect::<Result<Vec<_>, _>>()
                .map_err(|cause| at("bakes", key, cause))?;
            if Bake::from_log(BakeId(key.clone()), log).is_none() {
                let bake = key.clone();
                return Err(ArchiveError::BakeWithoutStart { bake });
            }
        }
        for (key, text) in &self.notes {
            NoteRecord::read(text).map_err(|cause| at("notebook", key, cause))?;
        }
        if let Some(text) = &self.kitchen {
            let kitchen = KitchenRecord::read(text);
            kitchen
                .and_then(|record| Kitchen::try_from(&record.facts))
                .map_err(|cause| at("kitchen", "kitchen", cause))?;
        }
        only_once("formulas", self.formulas.iter().map(|(key, _)| key))?;
        only_once("manuscripts", self.manuscripts.iter().map(|(key, _)| key))?;
        only_once("bakes", self.bakes.iter().map(|(key, _)| key))?;
        only_once("notebook", self.notes.iter().map(|(key, _)| key))
    }
}

fn only_once<'a>(place: &str, keys: impl Iterator<Item = &'a String>) -> Result<(), ArchiveError> {
    let mut seen = domain::sorted::Set::new();
    for key in keys {
        if !seen.insert(key) {
            let place = format!("{place}: {key}");
            return Err(ArchiveError::Twice { place });
        }
    }
    Ok(())
}

fn at(place: &str, key: &str, cause: ReadError) -> ArchiveError {
    let place = format!("{place}: {key}");
    ArchiveError::Record { place, cause }
}

fn not_an_archive(cause: &dyn fmt::Display) -> ArchiveError {
    let cause = cause.to_string();
    ArchiveError::NotAnArchive { cause }
}
