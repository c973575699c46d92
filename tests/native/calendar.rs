//! A plan as a calendar file, against RFC 5545; `oracle/calendars.py` reads such files with a library.

use domain::units::Moment;
use records::calendar::{Event, calendar};

/// 2026-11-26T08:45:07Z, by `date -u -d @1795682707`.
const WRITTEN: Moment = Moment::from_epoch_ms(1_795_682_707_890);

fn one(event: Event) -> String {
    calendar("Saturday’s buns", &[event], WRITTEN)
}

fn event(title: &str, note: &str) -> Event {
    Event {
        id: "buns-7@oventide".to_owned(),
        start: Moment::from_epoch_ms(1_795_690_800_000),
        end: Moment::from_epoch_ms(1_795_692_600_000),
        title: title.to_owned(),
        note: note.to_owned(),
    }
}

/// One that is over as it begins, so many seconds after 1970 began.
fn look_at(seconds: i64) -> Event {
    let start = Moment::from_epoch_ms(seconds * 1000);
    Event {
        start,
        end: start,
        ..event("Look", "")
    }
}

#[test]
fn an_event_has_all_that_it_needs_and_its_alarms_last() {
    let expected = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Oventide//Oventide//EN",
        "CALSCALE:GREGORIAN",
        "X-WR-CALNAME:Saturday’s buns",
        "BEGIN:VEVENT",
        "UID:buns-7@oventide",
        "DTSTAMP:20261126T084507Z",
        "DTSTART:20261126T110000Z",
        "DTEND:20261126T113000Z",
        "SUMMARY:Fold the dough",
        "DESCRIPTION:Between 12:00 and 12:20.",
        "BEGIN:VALARM",
        "ACTION:DISPLAY",
        "DESCRIPTION:Fold the dough",
        "TRIGGER:-PT1M",
        "END:VALARM",
        "BEGIN:VALARM",
        "ACTION:DISPLAY",
        "DESCRIPTION:Fold the dough",
        "TRIGGER:-PT0M",
        "END:VALARM",
        "END:VEVENT",
        "END:VCALENDAR",
        "",
    ];
    let file = one(event("Fold the dough", "Between 12:00 and 12:20."));
    assert_eq!(file, expected.join("\r\n"));
}

/// § 3.3.11: its own example has a line break as `\n`; backslash, semicolon and comma are escaped.
#[test]
fn text_is_escaped() {
    let note = "Project XYZ Final Review\nConference Room - 3B\r\nCome Prepared.";
    let file = one(event("a, b; c\\d: e", note));
    assert!(file.contains("SUMMARY:a\\, b\\; c\\\\d: e\r\n"));
    let unfolded = file.replace("\r\n ", "");
    let wanted = "DESCRIPTION:Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.\r\n";
    assert!(unfolded.contains(wanted));
    // What no line may hold is left out, and nothing else.
    assert!(one(event("a\u{7}b\u{0}c\tc", "")).contains("SUMMARY:abc\tc\r\n"));
}

/// § 3.1: lines of at most 75 octets, and a letter of several octets is never taken apart.
#[test]
fn long_lines_are_folded_between_letters() {
    for letter in ["a", "ß", "面", "🥐"] {
        let title = letter.repeat(90);
        let file = one(event(&title, ""));
        let lines = || file.split("\r\n");
        assert!(lines().all(|line| line.len() <= 75));
        let unfolded = file.replace("\r\n ", "");
        assert!(unfolded.contains(&format!("SUMMARY:{title}\r\n")));
        // No line is shorter than it need be.
        let first = lines()
            .find(|line| line.starts_with("SUMMARY"))
            .expect("it is there");
        assert!(first.len() > 75 - letter.len());
    }
}

/// Moments by `date -u -d @SECONDS`; of the first day, of leap days and of the turn of a century without one.
#[test]
fn dates_are_those_of_the_gregorian_calendar() {
    for (seconds, wanted) in [
        (0, "19700101T000000Z"),
        (951_782_399, "20000228T235959Z"),
        (951_782_400, "20000229T000000Z"),
        (1_709_164_800, "20240229T000000Z"),
        (1_774_746_000, "20260329T010000Z"),
        (4_107_542_399, "21000228T235959Z"),
        (4_107_542_400, "21000301T000000Z"),
        (-1, "19691231T235959Z"),
    ] {
        let file = one(look_at(seconds));
        assert!(file.contains(&format!("DTSTART:{wanted}\r\n")), "{file}");
        assert!(!file.contains("DTEND"));
    }
}

/// The text of a value as a calendar shows it: unfolded (§ 3.1), then unescaped (§ 3.3.11).
fn shown(file: &str, name: &str) -> String {
    let unfolded = file.replace("\r\n ", "");
    let mut lines = unfolded.split("\r\n");
    let line = lines.find_map(|line| line.strip_prefix(&format!("{name}:")));
    let mut text = String::new();
    let mut letters = line.expect("it is there").chars();
    while let Some(letter) = letters.next() {
        match letter {
            '\\' => match letters.next().expect("something is escaped") {
                'n' => text.push('\n'),
                escaped => text.push(escaped),
            },
            _ => text.push(letter),
        }
    }
    text
}

#[test]
fn a_long_title_with_letters_of_every_length_and_all_that_is_escaped_comes_back() {
    // Every length of what stands before it moves the folds by an octet.
    for before in 0..12 {
        let title = format!(
            "{}First rise: look, then Divide; Brötchen mit Nüssen \\ “crème”, 面包 und 🥐, {}",
            "x".repeat(before),
            "für jeden Gast: ½, ".repeat(6)
        );
        let note = format!("{title}\n\n{title};\nReady when it’s puffy.");
        let file = one(event(&title, &note));
        assert!(file.split("\r\n").all(|line| line.len() <= 75));
        assert_eq!(shown(&file, "SUMMARY"), title);
        assert_eq!(shown(&file, "DESCRIPTION"), note);
        // A display alarm has a text (§ 3.6.6), and it is that of its event.
        let alarms = file.split("BEGIN:VALARM").skip(1);
        for alarm in alarms {
            assert_eq!(shown(alarm, "DESCRIPTION"), title);
        }
    }
}

/// § 3.6: a calendar has its identifier and version; § 3.6.1: an event has its name and stamp, and no name is used twice.
#[test]
fn every_event_has_what_is_required_and_a_name_of_its_own() {
    let events: Vec<Event> = (0..30)
        .map(|nth| Event {
            id: format!("b{}-{nth}@oventide", nth % 2),
            ..event(&format!("Step {nth}"), "Look.")
        })
        .collect();
    let file = calendar("Oventide", &events, WRITTEN);
    let head: Vec<&str> = file.split("\r\n").take(3).collect();
    assert_eq!(
        head,
        [
            "BEGIN:VCALENDAR",
            "VERSION:2.0",
            "PRODID:-//Oventide//Oventide//EN"
        ]
    );
    let mut names = Vec::new();
    for part in file.split("BEGIN:VEVENT\r\n").skip(1) {
        for required in ["UID:", "DTSTAMP:", "DTSTART:", "SUMMARY:"] {
            let lines = part.split("\r\n").filter(|line| line.starts_with(required));
            assert_eq!(lines.count(), 1, "{required}");
        }
        names.push(shown(part, "UID"));
    }
    names.sort();
    names.dedup();
    assert_eq!(names.len(), events.len());
}

/// Moments are absolute, so the night of 2027-03-28 in Europe, an hour shorter by the clocks there, is as long as it is,
/// and so is that of 2027-10-31, an hour longer, in which half past two comes twice. By `date -u -d @SECONDS`; summer time
/// begins and ends at 01:00 UTC.
#[test]
fn a_change_of_summer_time_is_left_to_the_calendar() {
    for (seconds, wanted) in [
        (1_824_942_600, "20271031T003000Z"),
        (1_824_944_400, "20271031T010000Z"),
        (1_824_946_200, "20271031T013000Z"),
        (1_806_195_300, "20270328T005500Z"),
        (1_806_195_600, "20270328T010000Z"),
        (1_806_196_200, "20270328T011000Z"),
    ] {
        let file = one(look_at(seconds));
        assert!(file.contains(&format!("DTSTART:{wanted}\r\n")), "{file}");
        assert!(!file.contains("TZID") && !file.contains("VTIMEZONE"));
    }
}
