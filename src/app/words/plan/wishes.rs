//! What is wished of the time.

use domain::bake::Wishes;
use domain::units::Moment;
use platform::clock::{self, time_of_day};
use platform::store::Asleep;

use crate::state::plan::WishedOf;
use crate::words::wish::clock_field;
use crate::words::{capital, listed, weekday, when};

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
/// How far ahead a table can be wished, which is as far as days are offered.
pub(crate) const DAYS_AHEAD: &str = "A table can be up to three days ahead: how warm your kitchen will be later than that nobody knows.";
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
pub(crate) const NOBODY_NOTE: &str = "Nothing is planned for your hands then. What goes on by itself goes on. An oven that is on, food that could spoil and your own timers ring all the same; the rest calls once, at the end.";
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
    match tables {
        0 => "Add the nights until all is ready",
        1 => "Add the nights until the table",
        _ => "Add the nights until the last table",
    }
}

/// What is remembered of the baker's sleep: "You sleep from 23:00 to 06:30: that counts for every plan with a table."
pub(crate) fn habit(asleep: Asleep) -> String {
    let (bed, up) = (clock_field(asleep.bed), clock_field(asleep.up));
    format!("You sleep from {bed} to {up}: that counts for every plan with a table.")
}

/// Forgets it.
pub(crate) const NO_HABIT: &str = "Not in later plans";

/// Remembers it, and counts the nights of what is planned: "Nobody here from 23:00 to 06:30".
pub(crate) fn plan_sleep(asleep: Asleep) -> String {
    let (bed, up) = (clock_field(asleep.bed), clock_field(asleep.up));
    format!("Add the nights, {bed} to {up}")
}

/// Below a table that a baker can be ready for only by night work, as far as is seen before it is planned.
pub(crate) const NEEDS_NIGHT: &str = "Your hands are needed at night for that.";

/// Of a table that can't be kept by who sleeps: "Not before about 11:10 tomorrow with your nights."
pub(crate) fn not_before(ready: Moment, now: Moment) -> String {
    format!("Not before about {} with your nights.", when(ready, now))
}

/// That hands are planned at night: "Your hands are planned at night: from 00:31 tomorrow to 05:43."
pub(crate) fn hands_at_night(from: Moment, to: Moment, now: Moment) -> String {
    format!(
        "Your hands are planned at night: from {} to {}.",
        when(from, now),
        time_of_day(to)
    )
}

/// "12:00 to 13:30", with the day where it isn't today, and of a night that one to which it leads:
/// "23:00 to 06:30 in the night to Sunday".
pub(crate) fn away(from: Moment, to: Moment, now: Moment) -> String {
    if is_night(from, to) {
        return nights(from, to, &[weekday(to).to_owned()]);
    }
    format!("{} to {}", when(from, now), time_of_day(to))
}

/// When nobody is there, a sentence for each time; nights alike are one: "Nobody here from 23:00 to 06:30 in the nights
/// to Sunday and Monday."
pub(crate) fn nobody_here(away: &[(Moment, Moment)], now: Moment) -> Vec<String> {
    let mut said = Vec::new();
    let mut left: Vec<(Moment, Moment)> =
        away.iter().filter(|&&(_, to)| to > now).copied().collect();
    while let Some(&(from, to)) = left.first() {
        let clocks = |from, to| [from, to].map(clock::minute_of_day);
        let is_same = |&(other, until): &(Moment, Moment)| {
            is_night(from, to) && is_night(other, until) && clocks(other, until) == clocks(from, to)
        };
        let (same, others): (Vec<_>, Vec<_>) = left.iter().copied().partition(is_same);
        let times = if same.len() > 1 {
            let days: Vec<String> = same.iter().map(|&(_, to)| weekday(to).to_owned()).collect();
            nights(from, to, &days)
        } else {
            super::away(from, to, now)
        };
        said.push(format!("Nobody here from {times}."));
        left = if same.is_empty() {
            left.split_off(1)
        } else {
            others
        };
    }
    said
}

fn is_night(from: Moment, to: Moment) -> bool {
    clock::day(from) != clock::day(to)
}

fn nights(from: Moment, to: Moment, days: &[String]) -> String {
    let s = if days.len() > 1 { "s" } else { "" };
    format!(
        "{} to {} in the night{s} to {}",
        time_of_day(from),
        time_of_day(to),
        listed(days)
    )
}

/// Of a moment at which a step can't start: "Bake can't be at 09:00; the soonest is 12:50."
pub(crate) fn cant_be_at(item: &str, at: Moment, soonest: Moment, now: Moment) -> String {
    let [at, soonest] = [at, soonest].map(|moment| when(moment, now));
    format!("{item} can't be at {at}; the soonest is {soonest}.")
}

/// Fixes it there: "Fix it at 12:50".
pub(crate) fn fix_at(at: Moment, now: Moment) -> String {
    format!("Fix it at {}", when(at, now))
}

/// Takes a time away: "Remove 12:00 to 13:30".
pub(crate) fn remove(away: &str) -> String {
    format!("Remove {away}")
}

/// A table that another bake has: "16:00, with Buns".
pub(crate) fn table_with(table: Moment, now: Moment, others: &str) -> String {
    format!("{}, with {others}", when(table, now))
}

/// Of one that can't be kept beside that: "16:00, with Buns, can't be kept: not before about 16:20."
pub(crate) fn with_not_before(table: &str, ready: Moment, now: Moment) -> String {
    let ready = when(ready, now);
    format!("{table}, can't be kept: not before about {ready}.")
}

/// "Today", "Tomorrow", "Monday".
pub(crate) fn day_ahead(days: usize, now: Moment) -> String {
    match days {
        0 => "Today".to_owned(),
        1 => "Tomorrow".to_owned(),
        _ => crate::words::weekday(clock::days_later(now, days)).to_owned(),
    }
}

/// What is wished: "On the table at 16:00. Nothing before 09:00. Nobody here from 12:00 to 13:30.", and of breads for
/// several tables "Buns on the table at 16:00. Orange braid on the table as soon as possible."
pub(crate) fn wished(of: &[WishedOf], away: &[(Moment, Moment)], now: Moment) -> String {
    let mut apart: Vec<(Vec<String>, &Wishes)> = Vec::new();
    for wished in of {
        let is_same = |other: &Wishes| {
            (other.table, other.not_before) == (wished.wishes.table, wished.wishes.not_before)
        };
        match apart.iter_mut().find(|(_, other)| is_same(other)) {
            Some((names, _)) => names.push(wished.name.clone()),
            None => apart.push((vec![wished.name.clone()], &wished.wishes)),
        }
    }
    let several = apart.len() > 1;
    let mut said: Vec<String> = Vec::new();
    for (names, wishes) in apart {
        let table = match wishes.table {
            Some(table) => format!("on the table at {}", when(table, now)),
            None => "on the table as soon as possible".to_owned(),
        };
        let begin = wishes.not_before;
        let begin = begin.map(|from| format!("nothing before {}", when(from, now)));
        if several {
            let begin = begin.map_or_else(String::new, |begin| format!(", {begin}"));
            said.push(format!("{} {table}{begin}.", listed(&names)));
        } else {
            said.push(format!("{}.", capital(&table)));
            said.extend(begin.map(|begin| format!("{}.", capital(&begin))));
        }
    }
    said.extend(nobody_here(away, now));
    said.join(" ")
}
