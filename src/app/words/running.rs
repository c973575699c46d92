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

/// The name of a formula's bake, told from any other of it that runs.
pub(crate) fn whose(state: &State, all: &[&State]) -> String {
    told_apart(state, all, true, &time_of_day)
}

/// The same where room is short: "Buns, since 09:00".
pub(crate) fn short_whose(state: &State, all: &[&State]) -> String {
    told_apart(state, all, false, &time_of_day)
}

fn named(state: &State, is_full: bool) -> String {
    if is_full {
        state.formula.name.clone()
    } else {
        short_name(state)
    }
}

/// Since when it is baked; or which it is, where that doesn't tell it from the others: "Loaf 2".
fn told_apart(
    state: &State,
    all: &[&State],
    is_full: bool,
    time: &dyn Fn(Moment) -> String,
) -> String {
    let mut name = named(state, is_full);
    // Each keeps its number for as long as all of them run: when they were chosen doesn't change.
    let (mut number, mut is_numbered) = (1, false);
    for (place, one) in all.iter().enumerate() {
        if named(one, is_full) == name {
            number += usize::from(one.started < state.started);
            for other in &all[..place] {
                is_numbered |= named(other, is_full) == name && are_for_one_time(one, other);
            }
        }
    }
    if is_numbered {
        name += "\u{a0}";
        return name + &number.to_string();
    }
    let (word, at) = since(state);
    name += word;
    name += if is_full { " " } else { "\u{a0}" };
    name + &time(at)
}

/// As long as nothing of it was begun it isn't baked, and is known by the table it is for, which doesn't move with the
/// plan as its beginning does; or by when it was chosen.
fn since(state: &State) -> (&'static str, Moment) {
    match (state.begun_at(), state.wishes.table) {
        (None, Some(table)) => (", for", table),
        (None, None) => (", from", state.started),
        (Some(begun), Some(_)) => (", since", begun),
        // It was chosen to be begun at once, and nobody says so before the first of it is done.
        (Some(_), None) => (", since", state.started),
    }
}

/// Whether two would be told by the same time of day: for good, where one table is wished for both, or at present. The
/// first of two that is begun must not be named anew by it.
fn are_for_one_time(one: &State, other: &State) -> bool {
    let apart = |one: Moment, other: Moment| {
        let minute = |at: Moment| at.epoch_ms().div_euclid(60_000);
        (minute(one) - minute(other)) % (24 * 60) != 0
    };
    let (said, other_said) = (since(one), since(other));
    if said.0 == other_said.0 && !apart(said.1, other_said.1) {
        return true;
    }
    match (one.wishes.table, other.wishes.table) {
        (Some(one), Some(other)) => !apart(one, other),
        (None, None) => !apart(one.started, other.started),
        _ => false,
    }
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
    let mut names = Vec::with_capacity(bakes.len());
    for state in bakes {
        names.push(distinct(state, bakes, false));
    }
    names
}

/// The whole name of one of some bakes, likewise.
pub(crate) fn full_name(state: &State, all: &[&State]) -> String {
    distinct(state, all, true)
}

fn distinct(state: &State, all: &[&State], is_full: bool) -> String {
    let name = named(state, is_full);
    let mut alike = 0;
    for other in all {
        alike += usize::from(named(other, is_full) == name);
    }
    if alike > 1 {
        told_apart(state, all, is_full, &time_of_day)
    } else {
        name
    }
}

/// A step and, where several run, whose it is: "First rise (Buns)". A step that is called as its bread is that bread's.
pub(crate) fn of_bread(title: &str, whose: Option<&str>) -> String {
    match whose {
        Some(whose) if whose != title => format!("{title} ({whose})"),
        _ => title.to_owned(),
    }
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
    fn alone(state: &State) -> String {
        named_beside(state, &[state])
    }

    fn named_beside(state: &State, all: &[&State]) -> String {
        let after = |at: Moment| format!("{} min", (at - START).get().round());
        told_apart(state, all, false, &after).replace('\u{a0}', " ")
    }

    #[test]
    fn two_of_one_formula_for_one_table_are_told_by_a_number_that_they_keep() {
        let wishes = |table: f64| Wishes {
            table: Some(START + minutes(table)),
            ..Wishes::default()
        };
        let planned = |at: f64, table: f64| {
            let mut bake = begin(
                starter("overnight-tin-loaf"),
                Kitchen::UNMEASURED,
                START + minutes(at),
            );
            let wish = Intent::Wish(Box::new(wishes(table)));
            say(&mut bake, wish, START + minutes(at + 1.0));
            bake
        };
        let names = |bakes: &[&domain::bake::Bake]| -> Vec<String> {
            let states: Vec<&State> = bakes.iter().map(|bake| bake.state()).collect();
            let names = states.iter().map(|state| named_beside(state, &states));
            names.collect()
        };
        let (mut first, second) = (planned(0.0, 900.0), planned(5.0, 900.0));
        // However they are listed, and whichever of them was begun.
        assert_eq!(names(&[&first, &second]), ["Loaf 1", "Loaf 2"]);
        assert_eq!(names(&[&second, &first]), ["Loaf 2", "Loaf 1"]);
        let gather = first.state().formula.steps[0].id;
        say(&mut first, Intent::Done(gather), START + minutes(14.0));
        assert_eq!(names(&[&first, &second]), ["Loaf 1", "Loaf 2"]);
        let other = planned(8.0, 960.0);
        assert_eq!(
            names(&[&first, &other]),
            ["Loaf, since 14 min", "Loaf, for 960 min"]
        );
        // Where two of three can't be told by a time, none is.
        assert_eq!(
            names(&[&first, &second, &other]),
            ["Loaf 1", "Loaf 2", "Loaf 3"]
        );
    }

    #[test]
    fn a_step_called_as_its_bread_is_named_once() {
        assert_eq!(of_bread("Divide", Some("Braid")), "Divide (Braid)");
        assert_eq!(of_bread("Braid", Some("Braid")), "Braid");
        assert_eq!(of_bread("Divide", None), "Divide");
    }

    #[test]
    fn since_is_said_of_what_was_begun_and_of_nothing_else() {
        let mut bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, START);
        let gather = bake.state().formula.steps[0].id;
        assert_eq!(alone(bake.state()), "Buns, from 0 min");
        let mut planned = bake.clone();
        say(&mut bake, Intent::Done(gather), START + minutes(14.0));
        assert_eq!(alone(bake.state()), "Buns, since 0 min");

        let wishes = Wishes {
            table: Some(START + minutes(900.0)),
            ..Wishes::default()
        };
        say(
            &mut planned,
            Intent::Wish(Box::new(wishes)),
            START + minutes(1.0),
        );
        assert_eq!(alone(planned.state()), "Buns, for 900 min");
        say(&mut planned, Intent::Pick(gather), START + minutes(300.0));
        assert_eq!(alone(planned.state()), "Buns, since 300 min");
    }
}
