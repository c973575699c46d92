//! The rows of the pantry, by NDB number: see [`super`].

mod high;
mod low;

use super::Row;

/// All of them, in two halves in the order of the numbers.
pub(super) static ROWS: [&[Row]; 2] = [low::ROWS, high::ROWS];
