//! What there is to know of an item of the plan beside its times.

use domain::units::{Minutes, Moment};
use platform::clock::{day, time_of_day};

use super::item;
use crate::state::plan::told::{Entry, Lane};
use crate::words::letters::listed;
use crate::words::places::on_day;
use crate::words::quantity::span;
use crate::words::when;

/// The mark of what the table depends on, in words.
const TABLE_DEPENDS: &str = "◆ the table depends on it";
/// The same where no table is wished.
const END_DEPENDS: &str = "◆ the end depends on it";

/// What there is to know of an item beside its times, a part each.
pub(crate) fn marks(entry: &Entry) -> Vec<String> {
    let mut marks = Vec::new();
    if entry.hangs {
        marks.push(match &entry.tables[..] {
            [] if entry.for_table => TABLE_DEPENDS.to_owned(),
            [] => END_DEPENDS.to_owned(),
            tables => depend(tables, &|table| on_its_day(table, entry.start)),
        });
    }
    if let Some(at) = entry.pinned {
        marks.push(fixed(at));
    }
    if let Some(at) = entry.passed {
        let at = time_of_day(at);
        marks.push(format!("was fixed to {at}, and that has passed"));
    }
    // That it goes in, stands there and comes out are items of their own.
    if let Some(stay) = entry
        .cold
        .filter(|_| entry.lane != Lane::Hands && !entry.is_cold)
    {
        let (from, to) = (time_of_day(stay.from), time_of_day(stay.to));
        marks.push(format!("in the fridge {from} to {to}"));
    }
    if let Some(by) = entry.too_late_by {
        marks.push(late_by(entry, by));
    }
    marks
}

/// Which of several tables hang on it: "◆ the table at 17:00 depends on it".
fn depend(tables: &[Moment], time: &dyn Fn(Moment) -> String) -> String {
    let times: Vec<String> = tables.iter().map(|&table| time(table)).collect();
    let [what, depends] = if times.len() == 1 {
        ["table", "depends"]
    } else {
        ["tables", "depend"]
    };
    format!("◆ the {what} at {} {depends} on it", listed(&times))
}

/// A time, with its day where that isn't the one of something else.
fn on_its_day(at: Moment, of: Moment) -> String {
    if day(at) == day(of) {
        time_of_day(at)
    } else {
        on_day(at)
    }
}

/// How late something comes: "12 min later than is good for it", or than it was fixed to.
fn late_by(entry: &Entry, by: Minutes) -> String {
    let is_fixed = entry.pinned.is_some_and(|pin| entry.start - pin == by);
    let than = if is_fixed {
        "you fixed it"
    } else {
        "is good for it"
    };
    format!("{} later than {than}", span(by))
}

/// That something comes too late: "Divide: 12 min later than is good for it."
pub(crate) fn too_late(entry: &Entry) -> Option<String> {
    let late = late_by(entry, entry.too_late_by?);
    Some(format!("{}: {late}.", item(entry)))
}

/// Of a step that is fixed no longer: "Divide was fixed to 14:00, and that has passed."
pub(crate) fn passed(entry: &Entry, now: Moment) -> Option<String> {
    let at = when(entry.passed?, now);
    let what = item(entry);
    Some(format!("{what} was fixed to {at}, and that has passed."))
}

fn fixed(at: Moment) -> String {
    format!("■ fixed to {}", time_of_day(at))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_several_tables_those_are_told_that_hang_on_it() {
        let hour = |table: Moment| format!("{:02}:00", table.epoch_ms() / 3_600_000);
        let at = |hour: i64| Moment::from_epoch_ms(hour * 3_600_000);
        assert_eq!(
            depend(&[at(17)], &hour),
            "◆ the table at 17:00 depends on it"
        );
        assert_eq!(
            depend(&[at(9), at(17)], &hour),
            "◆ the tables at 09:00 and 17:00 depend on it"
        );
    }
}
