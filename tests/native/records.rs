//! Stored and exported shapes: nothing is lost on the way out and back, and
//! nothing that isn't whole is taken in.
//!
//! These are properties of our own shapes, so no outside source can give the
//! values. What is outside: JSON itself is read by `serde_json`, a general
//! library, and the checksum's check values come from the IETF's draft (see `archive`).

mod archive;
mod entries;
mod sample;
mod saves;
mod shapes;
