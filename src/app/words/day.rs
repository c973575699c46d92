//! Days in words.

use domain::units::Moment;
use platform::clock::{self, Day};

const WEEKDAYS: [&str; 7] = [
    "Sunday",
    "Monday",
    "Tuesday",
    "Wednesday",
    "Thursday",
    "Friday",
    "Saturday",
];
const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// "Saturday 28 November".
pub(crate) fn day(moment: Moment) -> String {
    written_out(clock::day(moment))
}

/// "Saturday".
pub(crate) fn weekday(moment: Moment) -> &'static str {
    name_of(clock::day(moment))
}

/// "16:00", "16:00 tomorrow", "16:00 on Monday": a moment on its day, seen from another.
pub(crate) fn when(moment: Moment, now: Moment) -> String {
    let time = clock::time_of_day(moment);
    let day = clock::day(moment);
    if day == clock::day(now) {
        time
    } else if day == clock::day(clock::days_later(now, 1)) {
        format!("{time} tomorrow")
    } else {
        format!("{time} on {}", name_of(day))
    }
}

fn name_of(day: Day) -> &'static str {
    WEEKDAYS.get(day.weekday as usize).copied().unwrap_or("")
}

fn written_out(day: Day) -> String {
    let weekday = name_of(day);
    let month = MONTHS.get(day.month as usize - 1).unwrap_or(&"");
    format!("{weekday} {} {month}", day.day)
}

/// "2026-11-28", for the names of files (ISO 8601).
pub(crate) fn iso_date(moment: Moment) -> String {
    let Day {
        year, month, day, ..
    } = clock::day(moment);
    format!("{year:04}-{month:02}-{day:02}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_is_written_out() {
        let day = Day {
            year: 2026,
            month: 11,
            day: 28,
            weekday: 6,
        };
        assert_eq!(written_out(day), "Saturday 28 November");
    }
}
