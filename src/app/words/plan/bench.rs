//! What the plan says on the Bench.

use domain::units::Moment;
use platform::clock::time_of_day;

/// "Now at Orange braid: Divide", which leads there.
pub(crate) fn now_at(formula: &str, title: &str) -> String {
    format!("Now at {formula}: {title}")
}

/// Of work that is left for later on purpose.
pub(crate) fn no_hurry(until: Moment) -> String {
    format!(
        "The plan has it at {}: there is no hurry until then.",
        time_of_day(until)
    )
}
