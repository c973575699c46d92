//! Entries for the phone's own calendar, as a file.

use domain::units::Moment;
pub use records::calendar::Event;
use records::calendar::calendar;

use crate::clock;
use crate::files::{SaveOutcome, save};

/// Without its character set some phones take the file for plain text.
const TYPE: &str = "text/calendar;charset=utf-8";

/// Hands a file with entries to the calendar. To be called from a tap.
pub async fn hand_over(file: &str, name: &str, events: &[Event]) -> SaveOutcome {
    let written: Moment = clock::now();
    save(file, TYPE, &calendar(name, events, written)).await
}
