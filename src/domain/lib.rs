//! The model of a bake: what a formula is, what heat and yeast do to it, what
//! has happened so far and what comes next.
//!
//! Invariants, held by this crate's manifest and `clippy.toml`:
//!
//! - It never reads a clock, draws a random number, or does I/O: `now` is an argument everywhere.
//! - It never panics on data; literals in source code may.
//! - No forecast leaves it as a bare number, only as an [`estimate::Estimate`].
//! - It knows nothing of storage or of the browser, so it has no serde and no web types.
//!
//! Reading order: the modules below, from the ground up.

pub mod decimal;

pub mod sorted;

pub mod trig;

pub mod units;

pub mod estimate;

pub mod food;

pub mod thermal;

pub mod yeast;

pub mod formula;

pub mod kitchen;

pub mod bake;

pub mod schedule;

pub mod notebook;
