//! Words of the page Today.

use domain::estimate::Estimate;
use domain::schedule::Running;
use domain::units::Moment;
use platform::clock::time_of_day;

use super::quantity::span;

/// Changes to the version that waits.
pub(crate) const UPDATE: &str = "Update to the new version";
/// Leads to the Bench.
pub(crate) const TO_BENCH: &str = "To the Bench";
/// When nothing is baking.
pub(crate) const WHAT_TO_BAKE: &str = "What shall it be?";
/// The heading of what the baker wanted to do differently.
pub(crate) const NEXT_TIME: &str = "Next time, you wrote";
/// The heading of what this phone can do.
pub(crate) const THIS_PHONE: &str = "This phone";
/// Leads to the set-aside records.
pub(crate) const SEE_SET_ASIDE: &str = "See them in Kitchen";

/// "3 records on this phone can't be read. Nothing was thrown away."
pub(crate) fn set_aside_count(count: usize) -> String {
    let what = if count == 1 {
        "1 record".to_owned()
    } else {
        format!("{count} records")
    };
    format!("{what} on this phone can't be read. Nothing was thrown away.")
}

/// Leads to the Bench of one bake of several.
pub(crate) fn to_bench_of(name: &str) -> String {
    format!("{TO_BENCH}: {name}")
}

/// The next thing to look at: "First rise: look in 25 min, at 14:05." A dough that `goes_in`, into the fridge
/// from when to when, is next looked at then.
pub(crate) fn next_look(
    title: &str,
    running: &Running,
    goes_in: Option<(Moment, Moment)>,
    now: Moment,
) -> String {
    let at = time_of_day(running.look);
    let is_cold = running.out_by.is_some();
    let is_next = |&(from, to): &(Moment, Moment)| now < to && (from <= now || from < running.look);
    if let Some((from, _)) = goes_in.filter(is_next) {
        if from <= now {
            let at = time_of_day(from);
            format!("{title}: into the fridge now, due since {at}.")
        } else {
            format!("{title}: into the fridge at {}.", super::when(from, now))
        }
    } else if running.look <= now {
        let what = if is_cold { "out of the fridge" } else { "look" };
        format!("{title}: {what} now, due since {at}.")
    } else if is_cold {
        format!(
            "{title}: in the fridge until {}.",
            super::when(running.look, now)
        )
    } else {
        format!("{title}: look in {}, at {at}.", span(running.look - now))
    }
}

/// The formula and the step before what is written about them.
pub(crate) fn lesson_of(formula: &str, step: &str) -> String {
    format!("{formula}, {}:", super::letters::lower_first(step))
}

/// A step's name before what is written about it.
pub(crate) fn at_step(title: &str) -> String {
    format!("{title}:")
}

/// Of a bake that waits for its beginning: "Begins at 09:40".
pub(crate) fn begins_at(at: Moment, has_begun: bool, now: Moment) -> String {
    let begins = if has_begun { "Goes on" } else { "Begins" };
    format!("{begins} at {}", super::when(at, now))
}

/// When a bread is on the table, after the table it is for: "For the table at 16:00 on Sunday. On the table on Sunday
/// 29 November between 15:30 and 16:20, likely 15:50."
pub(crate) fn its_table(wished: Option<Moment>, ready: &Estimate<Moment>, now: Moment) -> String {
    let window = super::table_window(ready, now);
    match wished {
        Some(wished) => format!("For the table at {}. {window}", super::when(wished, now)),
        None => window,
    }
}

/// What stands above that.
pub(crate) const PLANNED: &str = "Planned";
