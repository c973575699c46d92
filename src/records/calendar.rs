//! A plan as a calendar file, for phones that remind of calendar entries.
//!
//! iCalendar after RFC 5545: one `VEVENT` for each thing to do, every moment in UTC so that the
//! calendar itself turns it into wall-clock time, summer time included. Two alarms each, because
//! some calendars only know reminders of a minute or more before, and an alarm at the moment
//! itself is what was asked for. They stand behind everything else in their event: there are
//! calendars that stop reading an event at its first alarm.
//!
//! Reading the same plan in again replaces its events, because their `UID`s follow from what they
//! are about; a later `DTSTAMP` says which is newer.

use std::fmt::Write as _;

use domain::units::{Minutes, Moment, minutes};

/// The most bytes in a line, its end not counted (RFC 5545, § 3.1).
const LONGEST_LINE: usize = 75;

/// An event that reminds at its start.
#[derive(Debug, Clone, PartialEq)]
pub struct Event {
    /// Which one it is, the same whenever the same thing is written again.
    pub id: String,
    /// When it starts.
    pub start: Moment,
    /// When it ends; no earlier than its start.
    pub end: Moment,
    /// What is to be done, in a line.
    pub title: String,
    /// More about it; may have several lines.
    pub note: String,
}

/// How long before an event it is reminded of, in minutes.
const AHEAD: [Minutes; 2] = [minutes(1.0), minutes(0.0)];

/// The file's text: `written` is when it was made, `name` what the calendar shows as its name.
#[must_use]
pub fn calendar(name: &str, events: &[Event], written: Moment) -> String {
    let mut file = File(String::with_capacity(1024 * (events.len() + 1)));
    file.line("BEGIN", "VCALENDAR");
    file.line("VERSION", "2.0");
    file.line("PRODID", "-//Oventide//Oventide//EN");
    file.line("CALSCALE", "GREGORIAN");
    file.text("X-WR-CALNAME", name);
    for event in events {
        file.event(event, written);
    }
    file.line("END", "VCALENDAR");
    file.0
}

struct File(String);

impl File {
    fn event(&mut self, event: &Event, written: Moment) {
        self.line("BEGIN", "VEVENT");
        self.text("UID", &event.id);
        self.line("DTSTAMP", &utc(written));
        self.line("DTSTART", &utc(event.start));
        // An event without a length has no end of its own (§ 3.6.1: later than its start).
        if event.end.epoch_ms() / 1000 > event.start.epoch_ms() / 1000 {
            self.line("DTEND", &utc(event.end));
        }
        self.text("SUMMARY", &event.title);
        if !event.note.is_empty() {
            self.text("DESCRIPTION", &event.note);
        }
        for ahead in AHEAD {
            self.line("BEGIN", "VALARM");
            self.line("ACTION", "DISPLAY");
            self.text("DESCRIPTION", &event.title);
            self.line("TRIGGER", &format!("-PT{}M", ahead.get().round() as i64));
            self.line("END", "VALARM");
        }
        self.line("END", "VEVENT");
    }

    /// A line of a value that is written as text, with what has a meaning escaped (§ 3.3.11).
    fn text(&mut self, name: &str, text: &str) {
        let mut value = String::with_capacity(text.len());
        // Line ends of every kind become one.
        for letter in text.replace("\r\n", "\n").chars() {
            match letter {
                '\\' | ';' | ',' => value.extend(['\\', letter]),
                '\n' | '\r' => value.push_str("\\n"),
                _ if letter.is_control() && letter != '\t' => {}
                _ => value.push(letter),
            }
        }
        self.line(name, &value);
    }

    /// A line, folded where it is too long, never within a letter.
    fn line(&mut self, name: &str, value: &str) {
        let mut used = 0;
        for part in [name, ":", value] {
            for letter in part.chars() {
                if used + letter.len_utf8() > LONGEST_LINE {
                    self.0.push_str("\r\n ");
                    used = 1;
                }
                self.0.push(letter);
                used += letter.len_utf8();
            }
        }
        self.0.push_str("\r\n");
    }
}

/// `20261126T084500Z`, to the second.
fn utc(moment: Moment) -> String {
    let seconds = moment.epoch_ms().div_euclid(1000);
    let (days, in_day) = (seconds.div_euclid(86_400), seconds.rem_euclid(86_400));
    let (year, month, day) = civil(days);
    let (hour, minute, second) = (in_day / 3600, in_day / 60 % 60, in_day % 60);
    let mut text = String::with_capacity(16);
    let parts = [
        (year, 4),
        (month, 2),
        (day, 2),
        (hour, 2),
        (minute, 2),
        (second, 2),
    ];
    for (place, (number, width)) in parts.into_iter().enumerate() {
        if place == 3 {
            text.push('T');
        }
        // Writing to a string never fails.
        let _ = write!(text, "{number:0width$}");
    }
    text.push('Z');
    text
}

/// Year, month and day of a number of days since 1970-01-01, in the Gregorian calendar.
///
/// Counted in eras of 400 years from 1 March, so that the day of a leap year comes last.
/// Source: H. Hinnant, *chrono-Compatible Low-Level Date Algorithms*, `civil_from_days`.
fn civil(days: i64) -> (i64, i64, i64) {
    let days = days + 719_468;
    let (era, day) = (days.div_euclid(146_097), days.rem_euclid(146_097));
    let year = (day - day / 1460 + day / 36_524 - day / 146_096) / 365;
    let day = day - (365 * year + year / 4 - year / 100);
    let month = (5 * day + 2) / 153;
    let day = day - (153 * month + 2) / 5 + 1;
    let month = if month < 10 { month + 3 } else { month - 9 };
    (year + era * 400 + i64::from(month <= 2), month, day)
}
