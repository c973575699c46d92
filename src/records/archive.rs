//! The archive file: everything that is kept, as one JSON file.
//!
//! It carries the stored texts themselves, so that leaving and coming back
//! changes nothing, and a record that this program can't read travels along.
//! Restoring is all or nothing: [`Archive::read`] reads the whole file and every
//! record in it before anything is touched.

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
use crate::table::shape;

/// The most bytes an archive may have: ten years of weekly bakes are a fifth of it.
pub const MOST_BYTES: usize = 64 * 1024 * 1024;

/// What the file calls itself.
const FORMAT: &str = "oventide-archive";

/// Everything that is kept.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Archive {
    /// Stored formulas: key and text.
    pub formulas: Vec<(String, String)>,
    /// Stored bakes: their entries' texts, oldest first.
    pub bakes: Vec<(String, Vec<String>)>,
    /// The kitchen's text.
    pub kitchen: Option<String>,
    /// Stored notes: key and text.
    pub notes: Vec<(String, String)>,
    /// Texts that could not be read when they were met, with where they lay.
    pub set_aside: Vec<(String, String)>,
}

/// Why a file is not taken as an archive.
#[derive(Debug, Clone, PartialEq)]
pub enum ArchiveError {
    /// Too large to be one.
    TooLarge {
        /// Its size in bytes.
        bytes: usize,
    },
    /// Not an archive of Oventide at all, or cut off.
    NotAnArchive {
        /// What the parser found.
        cause: String,
    },
    /// A newer Oventide wrote it.
    NewerThanApp {
        /// Its version.
        version: u32,
    },
    /// Its contents don't match the checksum it carries.
    Damaged,
    /// One record in it can't be read.
    Record {
        /// Where it lies: "formulas: my-buns".
        place: String,
        /// What is wrong with it.
        cause: ReadError,
    },
    /// A bake's log doesn't begin with its start.
    BakeWithoutStart {
        /// The bake.
        bake: String,
    },
    /// The same key stands twice.
    Twice {
        /// Where: "formulas: my-buns".
        place: String,
    },
}

impl fmt::Display for ArchiveError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLarge { bytes } => write!(
                f,
                "the file has {} MB, more than the {} MB an archive may have",
                bytes / 1_000_000,
                MOST_BYTES / 1_000_000
            ),
            Self::NotAnArchive { cause } => {
                write!(
                    f,
                    "the file is no Oventide archive, or is cut off ({cause})"
                )
            }
            Self::NewerThanApp { version } => {
                write!(f, "a newer Oventide wrote the file (version {version})")
            }
            Self::Damaged => write!(f, "the file was changed or damaged after it was written"),
            Self::Record { place, cause } => write!(f, "in {place}: {cause}"),
            Self::BakeWithoutStart { bake } => {
                write!(f, "the log of bake {bake} doesn't begin with its start")
            }
            Self::Twice { place } => write!(f, "{place} stands twice"),
        }
    }
}

impl std::error::Error for ArchiveError {}

shape! {
    struct Envelope {
        format: String,
        version: u32,
        written_ms: i64,
        checksum: String,
        contents: Contents,
    }
}

shape! {
    struct Contents {
        formulas: Vec<Kept>,
        bakes: Vec<KeptBake>,
        kitchen: Option<String> = None,
        notes: Vec<Kept>,
        set_aside: Vec<Kept> = Vec::new(),
    }
}

shape! {
    struct Kept {
        key: String,
        text: String,
    }
}

shape! {
    struct KeptBake {
        key: String,
        entries: Vec<String>,
    }
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

/// FNV-1a, 64 bit, over every text with its length: it finds a slipped bit or a
/// cut, and is no protection against somebody who means to deceive.
/// Source of the constants: Fowler, Noll and Vo, as in IETF draft-eastlake-fnv.
fn checksum(contents: &Contents) -> String {
    let mut hash: u64 = 0xcbf2_9ce4_8422_2325;
    let mut take = |text: &str| {
        for byte in (text.len() as u64)
            .to_le_bytes()
            .iter()
            .chain(text.as_bytes())
        {
            hash = (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3);
        }
    };
    for list in [&contents.formulas, &contents.notes, &contents.set_aside] {
        take(&list.len().to_string());
        for kept in list {
            take(&kept.key);
            take(&kept.text);
        }
    }
    for bake in &contents.bakes {
        take(&bake.key);
        take(&bake.entries.len().to_string());
        for entry in &bake.entries {
            take(entry);
        }
    }
    take(contents.kitchen.as_deref().unwrap_or(""));
    format!("{hash:016x}")
}

impl From<&Archive> for Contents {
    fn from(archive: &Archive) -> Self {
        let kept = |list: &[(String, String)]| {
            list.iter()
                .map(|(key, text)| Kept {
                    key: key.clone(),
                    text: text.clone(),
                })
                .collect()
        };
        Self {
            formulas: kept(&archive.formulas),
            bakes: archive
                .bakes
                .iter()
                .map(|(key, entries)| KeptBake {
                    key: key.clone(),
                    entries: entries.clone(),
                })
                .collect(),
            kitchen: archive.kitchen.clone(),
            notes: kept(&archive.notes),
            set_aside: kept(&archive.set_aside),
        }
    }
}

impl From<Contents> for Archive {
    fn from(contents: Contents) -> Self {
        let pairs = |list: Vec<Kept>| list.into_iter().map(|kept| (kept.key, kept.text)).collect();
        Self {
            formulas: pairs(contents.formulas),
            bakes: contents
                .bakes
                .into_iter()
                .map(|bake| (bake.key, bake.entries))
                .collect(),
            kitchen: contents.kitchen,
            notes: pairs(contents.notes),
            set_aside: pairs(contents.set_aside),
        }
    }
}
