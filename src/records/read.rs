//! How a record is read, and what is said when it can't be.

use std::fmt;

use serde_json::Value;

use crate::migrate;
use crate::shape::{self, Flaw, Flaws, Shape};
use crate::table::Fields;

/// What a record is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// A formula.
    Formula,
    /// A formula that its baker is still writing.
    Manuscript,
    /// One entry of a bake's event log.
    BakeEntry,
    /// The kitchen: temperatures, equipment, units, sounds.
    Kitchen,
    /// What the baker wrote about a finished bake.
    Note,
    /// What plans promised.
    Promises,
    /// A whole archive file.
    Archive,
}

impl Kind {
    /// What it is called in a sentence.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Formula => "formula",
            Self::Manuscript => "unfinished formula",
            Self::BakeEntry => "bake entry",
            Self::Kitchen => "kitchen",
            Self::Note => "note",
            Self::Promises => "plan",
            Self::Archive => "archive",
        }
    }
}

/// Why a record can't be read.
#[derive(Debug, Clone, PartialEq)]
pub enum ReadError {
    /// It isn't JSON, or not of the shape.
    Malformed {
        /// What it should have been.
        kind: Kind,
        /// What the parser found.
        cause: String,
    },
    /// A newer Oventide wrote it.
    NewerThanApp {
        /// What it is.
        kind: Kind,
        /// Its version.
        version: u32,
        /// The newest version this program knows.
        newest: u32,
    },
    /// It is of the shape, but what it says can't be.
    Impossible {
        /// What it should have been.
        kind: Kind,
        /// What is wrong with it.
        cause: String,
    },
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Malformed { kind, cause } => {
                write!(f, "this {} can't be read: {cause}", kind.name())
            }
            Self::NewerThanApp {
                kind,
                version,
                newest,
            } => write!(
                f,
                "this {} was written by a newer Oventide (version {version}, this one knows {newest})",
                kind.name()
            ),
            Self::Impossible { kind, cause } => {
                write!(f, "this {} doesn't make sense: {cause}", kind.name())
            }
        }
    }
}

impl std::error::Error for ReadError {}

/// A stored shape with a version, in its newest one.
pub trait Record: Shape {
    /// What it is.
    const KIND: Kind;

    /// Reads stored text of any released version.
    ///
    /// # Errors
    /// [`ReadError`]; the text itself stays with the caller.
    fn read(text: &str) -> Result<Self, ReadError> {
        let json = newest(Self::KIND, text)?;
        shape::read(&json).map_err(|flaw| malformed(Self::KIND, &flaw))
    }

    /// The text to store.
    fn write(&self) -> String {
        let mut text = String::new();
        self.write_json(&mut text);
        text
    }
}

/// A record's JSON, carried to the newest version.
fn newest(kind: Kind, text: &str) -> Result<Value, ReadError> {
    let json = parse(text).map_err(|cause| malformed(kind, &cause))?;
    let version = version(&json).map_err(|flaw| malformed(kind, &flaw))?;
    let newest = migrate::newest(kind);
    if version > newest {
        return Err(ReadError::NewerThanApp {
            kind,
            version,
            newest,
        });
    }
    Ok(migrate::forward(kind, version, json))
}

/// The one place where text becomes JSON, so that the parser is compiled once.
pub(crate) fn parse(text: &str) -> serde_json::Result<Value> {
    serde_json::from_str(text)
}

/// The version a record or an archive says it has.
pub(crate) fn version(json: &Value) -> Result<u32, Flaw> {
    field(json, "version")
}

/// One field of an object that may be of no known shape.
pub(crate) fn field<T: Shape>(json: &Value, name: &'static str) -> Result<T, Flaw> {
    let flaws = Flaws::default();
    let read = Fields::of(json, &flaws).required(name);
    flaws.verdict(read)
}

fn malformed(kind: Kind, cause: &dyn fmt::Display) -> ReadError {
    let cause = cause.to_string();
    ReadError::Malformed { kind, cause }
}

/// A value that is of the right type but can't be.
pub(crate) fn impossible(kind: Kind, cause: &dyn fmt::Display) -> ReadError {
    let cause = cause.to_string();
    ReadError::Impossible { kind, cause }
}
