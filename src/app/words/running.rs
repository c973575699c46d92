//! Words of the strip of what goes on meanwhile.

use domain::bake::{Reason, State};
use domain::units::{Minutes, Moment};
use platform::clock::time_of_day;

/// What a card of the running strip says to whoever can't see it; `whose` is the bake's name, where several run.
pub(crate) fn running_label(
    title: &str,
    whose: Option<&str>,
    left: Option<Minutes>,
    window: &str,
) -> String {
    let whose = whose.map_or_else(String::new, |whose| format!(", {whose}"));
    let look = match left {
        None => String::new(),
        Some(left) if left.get() < 0.0 => {
            format!("look now, due {} ago. ", super::span(left))
        }
        Some(left) => format!("look in {}. ", super::span(left)),
    };
    format!("{title}{whose}: {look}{window}")
}

/// On the clock of what is never ready.
pub(crate) const NEVER: &str = "–";

/// Instead of a window, of what is too cold ever to rise or too warm ever to be cold.
pub(crate) fn stalls(reason: Reason) -> &'static str {
    match reason {
        Reason::Cooling { .. } => "never cold enough there",
        _ => "never ready there",
    }
}

/// The name of a formula's bake with its start, where two run.
pub(crate) fn whose(name: &str, started: Moment) -> String {
    format!("{name}, since {}", time_of_day(started))
}

/// The same where room is short: "Buns, since 09:00".
pub(crate) fn short_whose(state: &State) -> String {
    let since = time_of_day(state.started);
    format!("{}, since\u{a0}{since}", short_name(state))
}

/// What a bake makes, where its whole name has no room: "Buns".
pub(crate) fn short_name(state: &State) -> String {
    let pieces = &state.formula.pieces;
    super::capital(if pieces.count == 1 {
        &pieces.noun
    } else {
        &pieces.plural
    })
}

/// What each of some bakes is called where room is short: "Buns", and since when, where two make the same.
pub(crate) fn distinct_names(bakes: &[&State]) -> Vec<String> {
    let name = |state: &&State| {
        let name = short_name(state);
        let alike = bakes.iter().filter(|other| short_name(other) == name);
        if alike.count() > 1 {
            short_whose(state)
        } else {
            name
        }
    };
    bakes.iter().map(name).collect()
}

/// A dough's card while a fold comes first.
pub(crate) fn fold_in(title: &str) -> String {
    format!("{title}: fold")
}

/// A timer's card.
pub(crate) fn timer_name(name: &str) -> String {
    if name.trim().is_empty() {
        "Timer".to_owned()
    } else {
        name.to_owned()
    }
}
