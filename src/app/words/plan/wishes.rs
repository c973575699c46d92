//! What is wished of the time.

use domain::units::Moment;
use platform::clock::{self, time_of_day};

use crate::words::when;

/// The heading of the wishes.
pub(crate) const WISHES: &str = "What you wish";
/// Opens what can be wished of the table; on a formula it starts the bake for it.
pub(crate) const ON_THE_TABLE_AT: &str = "On the table at…";
/// Which of several bakes a table is wished for.
pub(crate) const FOR: &str = "Which bread?";
/// All of them.
pub(crate) const ALL_OF_IT: &str = "All of them";
/// Takes a table's wish away.
pub(crate) const AS_SOON_AS: &str = "As soon as possible";
/// Everything a quarter of an hour sooner or later.
pub(crate) const EARLIER: &str = "15\u{a0}min earlier";
/// See [`EARLIER`].
pub(crate) const LATER: &str = "15\u{a0}min later";
/// Opens the times at which nobody is there.
pub(crate) const AWAY_AND_ASLEEP: &str = "Away, asleep";
/// A day.
pub(crate) const DAY: &str = "Day";
/// A time of day.
pub(crate) const TIME: &str = "Time";
/// Wishes that table.
pub(crate) const WISH_TABLE: &str = "Plan for then";
/// Starts a bake for that table.
pub(crate) const START_FOR: &str = "Start, planned for then";
/// What choosing a table does on a formula.
pub(crate) const TABLE_NOTE: &str = "It begins only as early as that needs, and calls you then.";
/// Another time than those offered.
pub(crate) const ANOTHER_TIME: &str = "Another time";
/// The heading of the earliest beginning.
pub(crate) const NOT_BEFORE: &str = "Begin nothing before";
/// Wishes that beginning.
pub(crate) const WISH_NOT_BEFORE: &str = "Not before then";
/// Takes that wish away.
pub(crate) const ANY_TIME: &str = "At any time";
/// A time at which nobody is there, and the heading of those times.
pub(crate) const NOBODY: &str = "Nobody in the kitchen";
/// What that means.
pub(crate) const NOBODY_NOTE: &str =
    "Nothing is planned for your hands then. What goes on by itself goes on.";
/// From when nobody is there, and until when.
pub(crate) const FROM: &str = "From";
/// See [`FROM`].
pub(crate) const TO: &str = "To";
/// Adds such a time.
pub(crate) const ADD_AWAY: &str = "Add this time";
/// The heading of the nights.
pub(crate) const ASLEEP: &str = "Asleep";

/// Adds the nights.
pub(crate) fn add_nights(tables: usize) -> &'static str {
    if tables > 1 {
        "Add the nights until the last table"
    } else {
        "Add the nights until the table"
    }
}

/// "12:00 to 13:30", with the day where it isn't today.
pub(crate) fn away(from: Moment, to: Moment, now: Moment) -> String {
    format!("{} to {}", when(from, now), time_of_day(to))
}

/// Takes a time away: "Remove 12:00 to 13:30".
pub(crate) fn remove(away: &str) -> String {
    format!("Remove {away}")
}

/// A table that another bake has: "16:00, with Buns".
pub(crate) fn table_with(table: Moment, now: Moment, others: &str) -> String {
    format!("{}, with {others}", when(table, now))
}

/// "Today", "Tomorrow", "Monday".
pub(crate) fn day_ahead(days: usize, now: Moment) -> String {
    match days {
        0 => "Today".to_owned(),
        1 => "Tomorrow".to_owned(),
        _ => crate::words::weekday(clock::days_later(now, days)).to_owned(),
    }
}
