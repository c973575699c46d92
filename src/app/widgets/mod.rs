//! Pieces that several pages use. Their words come from the page or from `words`.

pub(crate) mod amounts;
pub(crate) mod answer;
pub(crate) mod cautions;
pub(crate) mod choices;
pub(crate) mod confirm;
pub(crate) mod course;
pub(crate) mod dialog;
pub(crate) mod lesson;
pub(crate) mod liquid;
pub(crate) mod live;
pub(crate) mod phone;
pub(crate) mod presses;
pub(crate) mod print;
pub(crate) mod sheet;
pub(crate) mod stepper;
pub(crate) mod temperature;
pub(crate) mod text_field;
pub(crate) mod toggle;
pub(crate) mod undo;

use std::sync::atomic::{AtomicU32, Ordering};

/// A name that no other element of the page has, so that a label finds its control.
pub(crate) fn fresh_id(what: &str) -> String {
    static MADE: AtomicU32 = AtomicU32::new(0);
    let number = MADE.fetch_add(1, Ordering::Relaxed);
    format!("{what}-{number}")
}
