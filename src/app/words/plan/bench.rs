//! What the plan says on the Bench.

use domain::units::Moment;
use platform::clock::time_of_day;

/// "Now at Orange braid: Divide", which leads there.
pub(crate) fn now_at(formula: &str, title: &str) -> String {
    format!("Now at {formula}: {title}")
}

/// Says of a rise that was planned to stand in the fridge that it is there, or out again.
pub(crate) fn moved_by_plan(title: &str, goes_in: bool) -> String {
    let there = if goes_in { "in" } else { "out of" };
    format!("{title}: the dough is {there} the fridge now")
}

/// Of work that is left for later on purpose.
pub(crate) fn no_hurry(until: Moment) -> String {
    format!(
        "The plan has it at {}: there is no hurry until then.",
        time_of_day(until)
    )
}
