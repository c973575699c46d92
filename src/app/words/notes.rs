//! Words of the Notebook and of one bake in it.

use domain::bake::{Ended, How, State, Status};
use domain::notebook::{Masses, Row};
use domain::units::{Celsius, Minutes, Moment};
use platform::clock::time_of_day;

use platform::store::Degrees;

use super::quantity::{mass, span, temperature};

/// When the notebook is empty.
pub(crate) const NO_NOTES: &str =
    "Nothing here yet. Every bake you finish comes here, with what was planned and what happened.";
/// There is no such bake.
pub(crate) const NO_NOTE: &str = "That bake isn't on this phone.";
/// Leads back to the notebook.
pub(crate) const ALL_NOTES: &str = "All bakes";
/// The heading of the baker's words.
pub(crate) const YOUR_NOTE: &str = "Your note";
/// Asks for the baker's words.
pub(crate) const HOW_WAS_IT: &str = "How was it?";
/// The heading of what to change.
pub(crate) const DIFFERENTLY: &str = "What I'd do differently";
/// What becomes of it.
pub(crate) const DIFFERENTLY_NOTE: &str =
    "Choose a step and write. Next time you bake this, it stands at that step.";
/// Which step.
pub(crate) const AT_STEP: &str = "At which step";
/// What to do there.
pub(crate) const DO_WHAT: &str = "What to do there";
/// The heading of the steps.
pub(crate) const HOW_IT_WENT: &str = "How it went";
/// The heading of the readings.
pub(crate) const MEASURED: &str = "What was measured";
/// Whose temperature it was.
pub(crate) const THE_KITCHEN: &str = "kitchen";
/// When nothing was measured.
pub(crate) const NOTHING_MEASURED: &str = "No temperatures or masses were taken.";
/// Bakes it again.
pub(crate) const BAKE_AGAIN: &str = "Bake it again";
/// Words that are stored.
pub(crate) const KEPT: &str = "Kept.";
/// Words that could not be stored.
pub(crate) const NOT_KEPT: &str = "Not kept yet: see the warning on this page.";
/// Words that aren't stored yet.
pub(crate) const NOT_KEPT_YET: &str = "Kept as soon as you pause.";

/// How a bake ended and when: "On the table at 16:40".
pub(crate) fn ended(state: &State) -> String {
    match state.status {
        Status::Finished { at } => {
            let at = state.ready_at().unwrap_or(at);
            format!("On the table at {}", time_of_day(at))
        }
        Status::Abandoned { at } => format!("Given up at {}", time_of_day(at)),
        Status::Running | Status::Paused { .. } => "Still going on".to_owned(),
    }
}

/// The day of a bake.
pub(crate) fn bake_day(state: &State) -> String {
    super::day(state.started)
}

/// Less than this is on time.
const ON_TIME: f64 = 2.5;

/// "12 min later than planned".
pub(crate) fn against_plan(late: Minutes) -> String {
    against(
        late,
        "as planned",
        ["earlier than planned", "later than planned"],
    )
}

/// "12 min before its table".
pub(crate) fn against_table(late: Minutes) -> String {
    against(
        late,
        "in time for its table",
        ["before its table", "after its table"],
    )
}

fn against(late: Minutes, on_time: &str, [sooner, later]: [&str; 2]) -> String {
    if late.get().abs() < ON_TIME {
        return on_time.to_owned();
    }
    let by = if late.get() > 0.0 { later } else { sooner };
    format!("{} {by}", span(late))
}

/// The same where room is short, after both moments: ", 12 min late", and nothing when it was on time.
fn off_plan(late: Minutes) -> String {
    if late.get().abs() < ON_TIME {
        return String::new();
    }
    let word = if late.get() > 0.0 { "late" } else { "early" };
    format!(", {} {word}", span(late))
}

/// What became of a step: "planned 14:05, ended 14:20, 15 min late".
pub(crate) fn row(row: &Row) -> String {
    let mut said = ended_of(row);
    for fold in &row.folds {
        said += &match fold.how {
            How::Done => format!(", folded {}", time_of_day(fold.at)),
            How::Skipped => ", a fold left out".to_owned(),
        };
    }
    match row.not_yet {
        0 => {}
        1 => said += ", put off once",
        times => said += &format!(", put off {times} times"),
    }
    said
}

fn ended_of(row: &Row) -> String {
    let planned = row.planned.map(time_of_day);
    match (row.ended, planned) {
        (
            Some(Ended {
                how: How::Skipped, ..
            }),
            _,
        ) => "skipped".to_owned(),
        (Some(ended), Some(planned)) => {
            let against = row.late_by().map(off_plan).unwrap_or_default();
            format!(
                "planned {planned}, ended {}{against}",
                time_of_day(ended.at)
            )
        }
        (Some(ended), None) => format!("ended {}", time_of_day(ended.at)),
        (None, Some(planned)) => format!("planned {planned}, left open"),
        (None, None) => "left open".to_owned(),
    }
}

/// A temperature that was taken: "Sweet bun dough: 24.5 °C at 10:20".
pub(crate) fn taken(
    what: &str,
    at: Moment,
    found: Celsius,
    target: Option<Celsius>,
    degrees: Degrees,
) -> String {
    let what = super::capital(what);
    let (found, at) = (temperature(found, degrees), time_of_day(at));
    match target {
        Some(target) => {
            let target = temperature(target, degrees);
            format!("{what}: {found} at {at}, {target} wanted.")
        }
        None => format!("{what}: {found} at {at}."),
    }
}

/// Masses that were taken: "8 weighed: 83 g to 88 g, on average 85 g."
pub(crate) fn masses(masses: &Masses) -> String {
    format!(
        "{} weighed: {} to {}, on average {}.",
        masses.weighed,
        mass(masses.least),
        mass(masses.most),
        mass(masses.mean)
    )
}
