//! Wishes that contradict each other, and what could be wished instead.

use domain::bake::State;
use domain::schedule::plan::{Claim, Conflict, Nearest, tables};
use domain::units::Moment;

use super::{Times, bread, named, seen_from};

/// What can be done about a fridge that is too small.
const MORE_ROOM: &str =
    " Where there is room for more in the fridge, say so among the kitchen's temperatures.";

/// "These don't fit together: the table at 16:00; nobody here from 11:00 to 13:00; the buns."
pub(crate) fn contradiction(conflict: &Conflict, bakes: &[&State], now: Moment) -> String {
    seen_from(now, &|times| contradicts(conflict, bakes, times))
}

fn contradicts(conflict: &Conflict, bakes: &[&State], times: &Times) -> String {
    let Times { when, away, .. } = *times;
    // What the baker can change comes first.
    let claims = &conflict.claims;
    let names: Vec<String> = claims
        .iter()
        .rev()
        .map(|claim| match *claim {
            Claim::Table(at) => format!("the table at {}", when(at)),
            Claim::NotBefore(at) => format!("nothing before {}", when(at)),
            Claim::Away(from, to) => format!("nobody here from {}", away(from, to)),
            Claim::Fixed(bake, step, at) => {
                format!("{} at {}", named(bakes, bake, step), when(at))
            }
            Claim::Retard(bake, step, from, to) => format!(
                "the time in the fridge from {} for {}",
                away(from, to),
                named(bakes, bake, step)
            ),
            Claim::Fridge(Some((from, to))) => {
                format!("the fridge (too full from {})", away(from, to))
            }
            Claim::Fridge(None) => "the room in the fridge".to_owned(),
            Claim::Bake(bake) => format!("the {}", bread(bakes, bake)),
        })
        .collect();
    let all = match &names[..] {
        // What has no plan by itself gets none by wishing otherwise.
        [one] => return format!("Whatever is wished, there is no plan for {one}."),
        [] => return String::new(),
        all => all.join("; "),
    };
    let fridge = claims.iter().any(|claim| matches!(claim, Claim::Fridge(_)));
    // Where so much room would do, a button says so.
    let mut nearest = conflict.nearest.iter();
    let offered = nearest.any(|nearest| matches!(nearest, Nearest::Room { .. }));
    let more = if fridge && !offered { MORE_ROOM } else { "" };
    format!("These don't fit together: {all}.{more}")
}

/// What a button says that wishes it.
pub(crate) fn nearest(nearest: &Nearest, bakes: &[&State], now: Moment) -> String {
    seen_from(now, &|times| instead(nearest, bakes, times))
}

fn instead(nearest: &Nearest, bakes: &[&State], times: &Times) -> String {
    let Times { when, away, .. } = *times;
    match *nearest {
        Nearest::Table { was, at, .. } => table(was, at, bakes, times),
        Nearest::Begin { was, at } => {
            format!("Begin from {} on instead of {}", when(at), when(was))
        }
        Nearest::Back { at, .. } => format!("Be back by {}", when(at)),
        Nearest::Leave { at, .. } => format!("Don't leave before {}", when(at)),
        Nearest::Stay { away: (from, to) } => format!("Be here from {}", away(from, to)),
        Nearest::Room { holds } => super::super::cold::has_room(holds),
        Nearest::Fixed { bake, step, at } => {
            let title = named(bakes, bake, step);
            match at {
                Some(at) => format!("{title} at {}", when(at)),
                None => format!("{title} whenever it can"),
            }
        }
        Nearest::Retard { bake, step, stay } => {
            let title = named(bakes, bake, step);
            match stay {
                Some((from, to)) => {
                    format!("{title} in the fridge from {}", away(from, to))
                }
                None => format!("{title} not in the fridge"),
            }
        }
    }
}

/// The same table with room for what may take longer.
pub(crate) fn safely(was: Moment, at: Moment, bakes: &[&State], now: Moment) -> String {
    seen_from(now, &|times| spared(was, at, bakes, times))
}

fn spared(was: Moment, at: Moment, bakes: &[&State], times: &Times) -> String {
    format!("{}, with time to spare", table(was, at, bakes, times))
}

/// "Table at 17:00", and of several tables which: "Table at 17:00 instead of 16:00".
fn table(was: Moment, at: Moment, bakes: &[&State], times: &Times) -> String {
    let when = times.when;
    let table = format!("Table at {}", when(at));
    if tables(bakes).len() > 1 {
        format!("{table} instead of {}", when(was))
    } else {
        table
    }
}

#[cfg(test)]
mod tests;
