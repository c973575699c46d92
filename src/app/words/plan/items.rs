//! The items of the plan, in its drawing, its list and their sheet.

use domain::formula::ComponentKind;
use domain::schedule::plan::RetardPart;
use domain::units::{Minutes, Moment};
use platform::clock::{self, day, minute_of_day, time_of_day};

use super::marks::marks;
use crate::state::plan::told::{Entry, Why};
use crate::words::quantity::{between, span};
use crate::words::{of_bread, when};

/// How the plan is shown.
pub(crate) const SHOWN_AS: &str = "Show the plan";
/// The ways to show it.
pub(crate) const SHOWN: [&str; 2] = ["Drawn", "As a list"];
/// The heading of the plan itself.
pub(crate) const HOUR_BY_HOUR: &str = "Hour by hour";
/// What stands for the drawing where it can't be seen.
pub(crate) const DRAWN_PLAN: &str = "The plan, drawn with time going downwards. Each bar is a button, and all of it can be shown as a list.";
/// What the bars are.
pub(crate) const BARS: &str = "Everything that is planned";
/// Opens what the drawing's marks mean.
pub(crate) const HOW_TO_READ: &str = "How to read it";
/// What the drawing's marks mean.
pub(crate) const READING: [&str; 10] = [
    "Time goes downwards, and more slowly where there is much to do. A length behind dots is one with nothing in it.",
    "◆ and a thick edge: a table, or when all is ready, depends on it.",
    "■: you fixed when it starts.",
    "A hatched strip: begun when planned, it may end anywhere there. The band across is when all may be ready.",
    "That no other order is sooner is proven for lengths that are likely, as they are planned here.",
    "A thin line is a part of the bake, with white boxes where your hands are at it.",
    "Dots: it stands in the fridge.",
    "A number stands for a name that has no room: press it, or look it up in the list.",
    "The thick line is now, each dashed one a table.",
    "Bars of a second bake have dashed edges. Press a bar to see why it starts then, or to fix it.",
];
/// The columns.
pub(crate) const HANDS: &str = "Hands";
/// See [`HANDS`].
pub(crate) const OVEN: &str = "Oven";
/// A time at which nobody is there, where room is short.
pub(crate) const AWAY: &str = "Nobody here";
/// Fixes when it starts.
pub(crate) const START_AT: &str = "Start it at";
/// See [`START_AT`].
pub(crate) const FIX: &str = "Fix it there";
/// What that comes to: "Fixed there, it starts at 22:00 today."
pub(crate) fn starts_at(at: Moment, now: Moment) -> String {
    let today = if clock::day(at) == clock::day(now) {
        " today"
    } else {
        ""
    };
    format!("Fixed there, it starts at {}{today}.", when(at, now))
}

/// Lets it start whenever it can again.
pub(crate) const FREE: &str = "Whenever it can";
/// Opens the sheet of a step that was fixed to what has passed.
pub(crate) const ANEW: &str = "Choose another time, or none";
/// Of a time that can't be meant.
pub(crate) const PASSED: &str = "That has passed. Choose a later time.";
/// Of a fold, whose moment follows from its rise.
pub(crate) const FOLLOWS_RISE: &str = "Its moment follows from the rise.";

/// The time in the fridge that a rise is planned to have: its heading, its ends, and what can be done about it.
pub(crate) const COLD: &str = "In the fridge";
/// See [`COLD`].
pub(crate) const INTO_FRIDGE_AT: &str = "Into the fridge at";
/// See [`COLD`].
pub(crate) const OUT_OF_FRIDGE_AT: &str = "Out of the fridge at";
/// See [`COLD`].
pub(crate) const PLAN_COLD: &str = "Plan these times";
/// See [`COLD`].
pub(crate) const NOT_COLD: &str = "Not in the fridge after all";

/// A dough that is put into the fridge in the midst of a rise, or taken out: "First rise: into the fridge".
pub(crate) fn moves(title: &str, part: RetardPart) -> String {
    let out = if part == RetardPart::Out {
        "out of"
    } else {
        "into"
    };
    format!("{title}: {out} the fridge")
}

/// The same where room is short, beside the bar of its rise.
pub(crate) fn moves_in_short(part: RetardPart) -> &'static str {
    if part == RetardPart::Out {
        "Out of fridge"
    } else {
        "Into fridge"
    }
}

/// What stands in the fridge, likewise.
pub(crate) const STANDS: &str = "Cold";

/// A rise, or a part of the bake, that stands in the fridge: "First rise: in the fridge".
pub(crate) fn stands(what: &str) -> String {
    format!("{what}: in the fridge")
}

/// What a part of a bake is.
pub(crate) fn part(kind: ComponentKind) -> &'static str {
    match kind {
        ComponentKind::Preferment => "Starter",
        ComponentKind::Dough => "Dough",
        ComponentKind::Filling => "Filling",
        ComponentKind::Wash => "Wash",
        ComponentKind::Glaze => "Glaze",
        ComponentKind::Coating => "Coating",
    }
}

/// The same, where several bakes run: "Dough: buns".
pub(crate) fn part_of(part: &str, whose: &str) -> String {
    format!("{part}, {}", crate::words::letters::lower_first(whose))
}

/// How long nothing goes on: "… 3 h 10 min".
pub(crate) fn idle(length: Minutes) -> String {
    format!("… {}", span(length))
}

/// A full hour beside the drawing: "14:00", or "2 pm".
pub(crate) fn hour(at: Moment) -> String {
    let time = time_of_day(at);
    let short = time.replacen(":00 ", "\u{a0}", 1);
    // Midnight begins another day.
    if minute_of_day(at) == 0 {
        return crate::words::weekday(at)
            .chars()
            .take(3)
            .collect::<String>()
            + "\u{a0}0";
    }
    short
}

/// The name of an item, and whose it is: "First rise (Buns)".
pub(crate) fn item(entry: &Entry) -> String {
    of_bread(&entry.title, entry.whose.as_deref())
}

/// From when to when: "10:05 to 11:35", or of what may end at another time than likely
/// "10:05 to about 11:35, between 11:15 and 12:00". A day is said where it is another than today, or than its start's:
/// "22:00 to 06:30 tomorrow".
pub(crate) fn from_to(entry: &Entry, now: Moment) -> String {
    until_end(&[&when(entry.start, now), " to "], entry, now)
}

/// The same behind its start: "until 11:35".
pub(crate) fn until(entry: &Entry, now: Moment) -> String {
    until_end(&["until "], entry, now)
}

fn until_end(before: &[&str], entry: &Entry, now: Moment) -> String {
    let end = if day(entry.end) == day(entry.start) {
        time_of_day(entry.end)
    } else {
        when(entry.end, now)
    };
    let before = before.concat();
    match entry.window.as_ref().and_then(between) {
        Some(between) => format!("{before}about {end}, {between}"),
        None => before + &end,
    }
}

/// A bar, for whoever listens.
pub(crate) fn bar(entry: &Entry, now: Moment) -> String {
    let mut said = format!("{}: {}", item(entry), from_to(entry, now));
    for mark in marks(entry) {
        said += ", ";
        said += mark.trim_start_matches(['◆', '■', ' ']);
    }
    said
}

/// Why it starts then.
pub(crate) fn why(entry: &Entry, now: Moment) -> String {
    match &entry.why {
        Why::GoesOn => format!("It has been going on since {}.", when(entry.start, now)),
        Why::Fixed => "It starts then because you fixed it.".to_owned(),
        Why::Planned => "It was planned for then.".to_owned(),
        Why::After(other) => format!("It waits for: {other}."),
        Why::Nobody => "It waits until somebody is in the kitchen.".to_owned(),
        Why::Before(other) => format!("It waits so that {other} needn't."),
        Why::InTimeFor(other) => format!("It is timed so that the oven is hot as {other} ends."),
        Why::NotSooner => "It could start sooner, but what it makes would only wait.".to_owned(),
        Why::Free => "It waits for nothing else.".to_owned(),
    }
}

/// The same in a list: "waits for Knead".
pub(crate) fn waits(entry: &Entry) -> Option<String> {
    match &entry.why {
        Why::GoesOn => Some("going on".to_owned()),
        Why::After(other) => Some(format!("waits for {other}")),
        Why::Nobody => Some("waits until somebody is here".to_owned()),
        Why::Before(other) => Some(format!("waits to keep {other} from waiting")),
        Why::InTimeFor(other) => Some(format!("timed for the end of {other}")),
        Why::Fixed | Why::Planned | Why::NotSooner | Why::Free => None,
    }
}
