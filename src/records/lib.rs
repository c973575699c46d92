//! Stored and exported shapes.
//!
//! Every record is JSON text with its shape's version in the field `version`,
//! plain numbers with the unit in the field name, and words for choices. The
//! same text lies in the browser's database and in the archive file.
//!
//! - A record is never a domain type: it is read with `TryFrom` into the domain
//!   and written with `From` it, so that each can change without the other.
//! - A released shape loads forever: a newer program carries it forward by the
//!   named migrations in [`migrate`], which are never edited after release.
//! - What can't be read is a [`ReadError`]; the caller keeps the text as it was.
//! - Text in records is text: nothing here interprets it.

pub mod archive;
pub mod bake;
pub mod calendar;
mod choice;
pub mod formula;
pub mod interchange;
pub mod kitchen;
pub mod manuscript;
pub mod migrate;
pub mod notebook;
pub mod promises;
mod read;
pub mod shape;
pub mod starters;
mod table;

pub use read::{Kind, ReadError, Record};
