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

/// The name of a formula's bake, told from any other of it, where two run.
pub(crate) fn whose(state: &State) -> String {
    told_apart(&state.formula.name, ' ', state, &time_of_day)
}

/// The same where room is short: "Buns, since 09:00".
pub(crate) fn short_whose(state: &State) -> String {
    told_apart(&short_name(state), '\u{a0}', state, &time_of_day)
}

/// Since when it is baked. As long as nothing of it was begun it isn't, and is known by the table it is for, which
/// doesn't move with the plan as its beginning does; or by when it was chosen.
fn told_apart(name: &str, space: char, state: &State, time: &dyn Fn(Moment) -> String) -> String {
    let (word, at) = match (state.begun_at(), state.wishes.table) {
        (None, Some(table)) => ("for", table),
        (None, None) => ("from", state.started),
        (Some(begun), Some(_)) => ("since", begun),
        // It was chosen to be begun at once, and nobody says so before the first of it is done.
        (Some(_), None) => ("since", state.started),
    };
    format!("{name}, {word}{space}{}", time(at))
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

/// What each of some bakes is called where room is short: "Buns", and where two make the same what tells them apart.
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

#[cfg(test)]
mod tests {
    use checks::{begin, say, starter};
    use domain::bake::{Intent, Wishes};
    use domain::kitchen::Kitchen;
    use domain::units::minutes;

    use super::*;

    const START: Moment = Moment::from_epoch_ms(1_789_894_800_000);

    /// By how many minutes after the start it is.
    fn named(state: &State) -> String {
        let after = |at: Moment| format!("{} min", (at - START).get().round());
        told_apart("Buns", ' ', state, &after)
    }

    #[test]
    fn since_is_said_of_what_was_begun_and_of_nothing_else() {
        let mut bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, START);
        let gather = bake.state().formula.steps[0].id;
        assert_eq!(named(bake.state()), "Buns, from 0 min");
        let mut planned = bake.clone();
        say(&mut bake, Intent::Done(gather), START + minutes(14.0));
        assert_eq!(named(bake.state()), "Buns, since 0 min");

        let wishes = Wishes {
            table: Some(START + minutes(900.0)),
            ..Wishes::default()
        };
        say(
            &mut planned,
            Intent::Wish(Box::new(wishes)),
            START + minutes(1.0),
        );
        assert_eq!(named(planned.state()), "Buns, for 900 min");
        say(&mut planned, Intent::Pick(gather), START + minutes(300.0));
        assert_eq!(named(planned.state()), "Buns, since 300 min");
    }
}
