//! Wishes that contradict each other, what could be wished instead, and what else helps.

use domain::bake::State;
use domain::estimate::Estimate;
use domain::formula::StepId;
use domain::kitchen::Scales;
use domain::schedule::plan::{Claim, Lever, NOTABLE, Nearest, Way, table_of, tables};
use domain::units::{Grams, Moment};
use platform::clock::time_of_day;
use platform::store::Degrees;

use super::{SAME, away};
use crate::words::letters::lower_first;
use crate::words::quantity::{about_time, span, temperature};
use crate::words::running::distinct_names;
use crate::words::{LONG_FOR_EGG_OR_MILK, amount, capital, when};

/// What the part of the page is.
pub(crate) const WAYS_OUT: &str = "Ways out";
/// Asks for what helps, where every wish is kept.
pub(crate) const WHAT_WOULD_HELP: &str = "What would help?";
/// While plans are reckoned.
pub(crate) const WORKING_IT_OUT: &str = "Working it out…";
/// Of something that was pressed and would do less by now than was said of it.
pub(crate) const NO_LONGER: &str =
    "The plan has moved, so this would no longer do that. Looking for what would…";

/// For which moment it was found: "Found at 14:05."
pub(crate) fn found_at(at: Moment, looks_again: bool) -> String {
    let again = if looks_again { " Looking again…" } else { "" };
    format!("Found at {}.{again}", time_of_day(at))
}

/// What can be done about a fridge that is too small.
const MORE_ROOM: &str =
    " Where there is room for more in the fridge, say so among the kitchen's temperatures.";

/// The heading of what could be wished instead.
pub(crate) const INSTEAD: &str = "It works with";
/// The heading of what else helps.
pub(crate) const OR: &str = "What helps";
/// That nothing does.
pub(crate) const NOTHING_HELPS: &str = "No warmer or cooler place, no time in the fridge and no other amount of yeast would help enough.";

/// "The table at 16:00, nobody here from 11:00 to 13:00 and the buns don't fit together."
pub(crate) fn contradiction(claims: &[Claim], bakes: &[&State], now: Moment) -> String {
    // What the baker can change comes first.
    let names: Vec<String> = claims
        .iter()
        .rev()
        .map(|claim| match *claim {
            Claim::Table(at) => format!("the table at {}", when(at, now)),
            Claim::NotBefore(at) => format!("nothing before {}", when(at, now)),
            Claim::Away(from, to) => format!("nobody here from {}", away(from, to, now)),
            Claim::Fixed(bake, step, at) => {
                format!("{} at {}", named(bakes, bake, step), when(at, now))
            }
            Claim::Retard(bake, step, from, to) => format!(
                "the time in the fridge from {} for {}",
                away(from, to, now),
                named(bakes, bake, step)
            ),
            Claim::Fridge(Some((from, to))) => {
                format!("the fridge (too full from {})", away(from, to, now))
            }
            Claim::Fridge(None) => "the room in the fridge".to_owned(),
            Claim::Bake(bake) => format!("the {}", bread(bakes, bake)),
        })
        .collect();
    let all = match &names[..] {
        // What has no plan by itself gets none by wishing otherwise.
        [one] => return format!("Whatever is wished, there is no plan for {one}."),
        [before @ .., last] => format!("{} and {last}", before.join(", ")),
        [] => return String::new(),
    };
    let fridge = claims.iter().any(|claim| matches!(claim, Claim::Fridge(_)));
    let more = if fridge { MORE_ROOM } else { "" };
    capital(&format!("{all} don't fit together.{more}"))
}

/// What a button says that wishes it.
pub(crate) fn nearest(nearest: &Nearest, bakes: &[&State], now: Moment) -> String {
    match *nearest {
        Nearest::Table { was, at, .. } => table(was, at, bakes, now),
        Nearest::Begin { was, at } => format!(
            "Begin from {} on instead of {}",
            when(at, now),
            when(was, now)
        ),
        Nearest::Back { at, .. } => format!("Be back by {}", when(at, now)),
        Nearest::Leave { at, .. } => format!("Don't leave before {}", when(at, now)),
        Nearest::Stay { away: (from, to) } => format!("Be here from {}", away(from, to, now)),
        Nearest::Room { holds } => super::cold::has_room(holds),
        Nearest::Fixed { bake, step, at } => {
            let title = named(bakes, bake, step);
            match at {
                Some(at) => format!("{title} at {}", when(at, now)),
                None => format!("{title} whenever it can"),
            }
        }
        Nearest::Retard { bake, step, stay } => {
            let title = named(bakes, bake, step);
            match stay {
                Some((from, to)) => {
                    format!("{title} in the fridge from {}", away(from, to, now))
                }
                None => format!("{title} not in the fridge"),
            }
        }
    }
}

/// The same table with room for what may take longer.
pub(crate) fn safely(was: Moment, at: Moment, bakes: &[&State], now: Moment) -> String {
    format!("{}, with time to spare", table(was, at, bakes, now))
}

/// "Table at 17:00", and of several tables which: "Table at 17:00 instead of 16:00".
fn table(was: Moment, at: Moment, bakes: &[&State], now: Moment) -> String {
    let table = format!("Table at {}", when(at, now));
    if tables(bakes).len() > 1 {
        format!("{table} instead of {}", when(was, now))
    } else {
        table
    }
}

/// A way, and the table it leads to; `begins_at` is when each bake begins as it is planned: "First rise somewhere warmer, 28 °C: table about 16:05 (15:50 to 16:25)."
pub(crate) fn way(
    way: &Way,
    bakes: &[&State],
    begins_at: &[Option<Moment>],
    yeast: &str,
    now: Moment,
    degrees: Degrees,
) -> String {
    let what = match way.lever {
        Lever::Place {
            bake,
            step,
            air,
            is_warmer,
            from,
        } => {
            let kind = if is_warmer { "warmer" } else { "cooler" };
            let from = from.map_or_else(String::new, |from| format!(", from {}", when(from, now)));
            let title = named(bakes, bake, step);
            format!(
                "{title} somewhere {kind}, {}{from}",
                temperature(air, degrees)
            )
        }
        Lever::Fridge {
            bake,
            step,
            from,
            out,
            begin,
        } => {
            let from = from.map_or_else(
                || "now".to_owned(),
                |from| format!("at {}", when(from, now)),
            );
            let title = named(bakes, bake, step);
            let begin = begin.map_or_else(String::new, |begin| {
                format!("begin at {}, ", when(begin, now))
            });
            let out = when(out, now);
            capital(&format!(
                "{begin}{} into the fridge {from}, out at {out}",
                lower_first(&title)
            ))
        }
        Lever::Yeast { bake, .. } => format!("{yeast}{}", of_several(bakes, bake)),
        Lever::DayBefore {
            bake,
            component,
            from,
            to,
            days,
        } => {
            let state = bakes.get(bake);
            let part = state.and_then(|state| state.formula.component(component));
            let name = part.map_or("filling", |part| &part.name);
            let whose = of_several(bakes, bake);
            capital(&format!(
                "{name}{whose} made ahead, from {}, and kept in the fridge, {days} days at most",
                away(from, to, now)
            ))
        }
    };
    let begin = begins(way, begins_at, &|at| when(at, now));
    let mut said = format!("{what}: {begin}{}.", comes_to(way, bakes, now));
    said += &still(way, &|table| when(table, now));
    if way.is_long_out {
        said += " ";
        said += LONG_FOR_EGG_OR_MILK;
    }
    said
}

/// "table about 16:05 (15:50 to 16:25)", and where breads are ready apart each of them: "for the table at 16:00 about
/// 15:40 (15:20 to 16:00), all of it about 18:00 (17:40 to 18:20)".
fn comes_to(way: &Way, bakes: &[&State], now: Moment) -> String {
    let about = |what: &str, ready: &Estimate<Moment>| {
        format!(
            "{what} about {} ({} to {})",
            when(ready.likely(), now),
            about_time(ready.low()),
            about_time(ready.high())
        )
    };
    let some_without = bakes
        .iter()
        .any(|state| !state.all_ended() && table_of(state).is_none());
    let is_one = way.margins.len() + usize::from(some_without) <= 1;
    if is_one {
        return about("table", &way.table);
    }
    let margins = way.margins.iter();
    let each = margins.map(|margin| {
        let table = format!("for the table at {}", when(margin.table, now));
        about(&table, &margin.ready)
    });
    let mut all: Vec<String> = each.collect();
    if some_without {
        all.push(about("all of it", &way.table));
    }
    all.join(", ")
}

/// That a bake begins at another time by it, which for a table is what most of it comes to: "begins at 13:10 instead of
/// 12:00, ". A way that says itself when to begin needs no more.
fn begins(way: &Way, begins_at: &[Option<Moment>], time: &dyn Fn(Moment) -> String) -> String {
    let (Lever::Yeast { bake, .. } | Lever::Place { bake, .. }) = way.lever else {
        return String::new();
    };
    let was = begins_at.get(bake).copied().flatten();
    match was.zip(way.begin) {
        Some((was, is)) if (is - was).get().abs() >= NOTABLE.get() => {
            format!("begins at {} instead of {}, ", time(is), time(was))
        }
        _ => String::new(),
    }
}

/// What a way leaves amiss: " Still 20 min later than your table."
fn still(way: &Way, time: &dyn Fn(Moment) -> String) -> String {
    let mut said = String::new();
    for margin in &way.margins {
        let late = margin.late();
        if late.get() < SAME {
            continue;
        }
        let late = span(late);
        said += &if way.margins.len() > 1 {
            format!(
                " Still {late} later than the table at {}.",
                time(margin.table)
            )
        } else {
            format!(" Still {late} later than your table.")
        };
    }
    if way.waits.get() >= SAME {
        said += &format!(" Still {} of waiting that is too long.", span(way.waits));
    }
    if way.is_little {
        said += " No single change makes up for even half.";
    }
    said
}

/// What a button says that puts a way into practice.
pub(crate) fn take(way: &Way) -> &'static str {
    match way.lever {
        Lever::Place { .. } => "I've put it there",
        Lever::Fridge { from: None, .. } => "I've put it in the fridge",
        Lever::Yeast { .. } => "Use this much yeast",
        Lever::Fridge { .. } => "Plan it in the fridge",
        Lever::DayBefore { .. } => "Fix these times",
    }
}

/// "8 g of yeast instead of 6 g".
pub(crate) fn yeast(own: Grams, other: Grams, scales: &Scales) -> String {
    let (own, other) = (amount(own, scales), amount(other, scales));
    format!("{other} of yeast instead of {own}")
}

/// " (buns)" behind what is one bread's, where several are planned.
fn of_several(bakes: &[&State], bake: usize) -> String {
    if bakes.len() < 2 {
        return String::new();
    }
    let names = distinct_names(bakes);
    names
        .get(bake)
        .map_or_else(String::new, |name| format!(" ({})", lower_first(name)))
}

/// "First rise", and where several breads are planned "First rise (buns)".
fn named(bakes: &[&State], bake: usize, step: StepId) -> String {
    title(bakes, bake, step) + &of_several(bakes, bake)
}

fn bread(bakes: &[&State], bake: usize) -> String {
    let state = bakes.get(bake);
    state.map_or_else(String::new, |state| lower_first(&state.formula.name))
}

fn title(bakes: &[&State], bake: usize, step: StepId) -> String {
    let step = bakes.get(bake).and_then(|state| state.formula.step(step));
    step.map_or_else(String::new, |step| step.title.clone())
}

#[cfg(test)]
mod tests {
    use domain::estimate::Basis;
    use domain::schedule::plan::Margin;
    use domain::units::minutes;

    use super::*;

    fn left(late: f64, waits: f64) -> String {
        left_of(&[late], waits)
    }

    /// For tables every four hours from noon on, each so late.
    fn left_of(late: &[f64], waits: f64) -> String {
        let noon = Moment::from_epoch_ms(1_789_905_600_000);
        let each = late.iter().enumerate().map(|(place, &late)| {
            let table = noon + minutes(240.0 * place as f64);
            Margin {
                table,
                ready: Estimate::exact(table + minutes(late), Basis::Model),
                buffer: minutes(0.0),
            }
        });
        let way = Way {
            lever: Lever::Yeast {
                bake: 0,
                times: 1.5,
            },
            table: Estimate::exact(noon, Basis::Model),
            margins: each.collect(),
            waits: minutes(waits),
            is_little: late.iter().sum::<f64>() > 60.0,
            early: minutes(0.0),
            is_long_out: false,
            begin: None,
            intents: Vec::new(),
        };
        still(&way, &|table| format!("{} h", (table - noon).get() / 60.0)).replace('\u{a0}', " ")
    }

    #[test]
    fn a_late_table_and_what_waits_too_long_are_told_apart() {
        assert_eq!(left(0.4, 0.0), "");
        assert_eq!(left(20.0, 0.0), " Still 20 min later than your table.");
        assert_eq!(
            left_of(&[-5.0, 20.0], 0.0),
            " Still 20 min later than the table at 4 h."
        );
        assert_eq!(
            left(0.0, 12.0),
            " Still 12 min of waiting that is too long."
        );
        assert_eq!(
            left(20.0, 12.0),
            " Still 20 min later than your table. Still 12 min of waiting that is too long."
        );
    }

    #[test]
    fn other_yeast_is_told_with_when_the_bake_begins_by_it() {
        let noon = Moment::from_epoch_ms(1_789_905_600_000);
        let told = |lever: Lever, begin: Option<f64>| {
            let way = Way {
                lever,
                table: Estimate::exact(noon, Basis::Model),
                margins: Vec::new(),
                waits: minutes(0.0),
                is_little: false,
                early: minutes(0.0),
                is_long_out: false,
                begin: begin.map(|hours| noon + minutes(60.0 * hours)),
                intents: Vec::new(),
            };
            let time = |at: Moment| format!("{} h", (at - noon).get() / 60.0);
            begins(&way, &[None, Some(noon + minutes(-300.0))], &time)
        };
        let yeast = |bake| Lever::Yeast { bake, times: 1.5 };
        assert_eq!(
            told(yeast(1), Some(-4.0)),
            "begins at -4 h instead of -5 h, "
        );
        // A minute is nothing, and what is begun at once has no beginning of its own.
        assert_eq!(told(yeast(1), Some(-5.0 + 1.0 / 60.0)), "");
        assert_eq!(told(yeast(0), Some(-4.0)), "");
        assert_eq!(told(yeast(1), None), "");
    }

    #[test]
    fn a_way_that_leaves_most_says_that_none_does_more() {
        assert_eq!(
            left(180.0, 0.0),
            " Still 3 h later than your table. No single change makes up for even half."
        );
    }
}
