//! What the plan says on the Bench.

use domain::units::Moment;
use platform::clock::time_of_day;

use crate::words::Prompt;

/// Begins what could wait, although the hands are wanted elsewhere.
pub(crate) const STAY: &str = "Stay here";

/// "Now at Orange braid: Divide", which leads there.
pub(crate) fn now_at(whose: &str, title: &str) -> String {
    format!("Now at {whose}: {title}")
}

/// The same where nothing is asked here meanwhile.
pub(crate) fn leads_to(whose: &str, title: String) -> Prompt {
    Prompt {
        title: format!("Now at {whose}"),
        instruction: title,
        action: format!("To {whose}"),
    }
}

/// "Next, about 09:13, at Orange braid: Gather", which leads there.
pub(crate) fn next_at(whose: &str, title: &str, at: Moment) -> String {
    format!("Next, about {}, at {whose}: {title}", time_of_day(at))
}

/// Of what isn't asked for meanwhile: "Cook the cream has time until 09:53."
pub(crate) fn has_time(title: &str, until: Moment) -> String {
    format!("Here {title} has time until {}.", time_of_day(until))
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
