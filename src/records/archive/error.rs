//! Why a file is not taken as an archive.

use std::fmt;

use super::MOST_BYTES;
use crate::read::ReadError;

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
