//! Ways out where wishes contradict each other, and what else helps.

mod conflict;

use domain::bake::State;
use domain::estimate::Estimate;
use domain::formula::StepId;
use domain::kitchen::Scales;
use domain::schedule::plan::{Lever, NOTABLE, Way, table_of};
use domain::units::{Grams, Moment};
use platform::clock::time_of_day;
use platform::store::Degrees;

pub(crate) use self::conflict::{contradiction, nearest, safely};
use super::{SAME, away};
use crate::words::letters::lower_first;
use crate::words::quantity::{about_time, span, temperature};
use crate::words::running::{distinct_names, full_name};
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

/// The heading of what could be wished instead.
pub(crate) const INSTEAD: &str = "It works with";
/// The heading of what else helps.
pub(crate) const OR: &str = "What helps";
/// That it doesn't help much, over ways that all leave more than half of what is amiss.
pub(crate) const NONE_IS_HALF: &str = "No single change makes up for even half.";
/// That nothing does.
pub(crate) const NOTHING_HELPS: &str = "No warmer or cooler place, no time in the fridge, no other amount of yeast and nothing made the day before would help enough.";
/// That nobody knows.
pub(crate) const GAVE_UP: &str = "There was no time to find out what would help.";

/// How moments are written.
struct Times<'a> {
    /// "16:00", and of another day "16:00 tomorrow".
    when: &'a dyn Fn(Moment) -> String,
    /// "16:05", to five minutes and without its day.
    about: &'a dyn Fn(Moment) -> String,
    /// From when to when nobody is there.
    away: &'a dyn Fn(Moment, Moment) -> String,
}

/// Tells something with moments as they are seen from one.
fn seen_from(now: Moment, tell: &dyn Fn(&Times) -> String) -> String {
    tell(&Times {
        when: &|at| when(at, now),
        about: &about_time,
        away: &|from, to| away(from, to, now),
    })
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
    seen_from(now, &|times| {
        told(way, bakes, begins_at, yeast, degrees, times)
    })
}

fn told(
    way: &Way,
    bakes: &[&State],
    begins_at: &[Option<Moment>],
    yeast: &str,
    degrees: Degrees,
    times: &Times,
) -> String {
    let Times { when, away, .. } = *times;
    let what = match way.lever {
        Lever::Place {
            bake,
            step,
            air,
            is_warmer,
            from,
        } => {
            let kind = if is_warmer { "warmer" } else { "cooler" };
            let from = from.map_or_else(String::new, |from| format!(", from {}", when(from)));
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
            let from = from.map_or_else(|| "now".to_owned(), |from| format!("at {}", when(from)));
            let title = named(bakes, bake, step);
            let begin =
                begin.map_or_else(String::new, |begin| format!("begin at {}, ", when(begin)));
            let out = when(out);
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
                away(from, to)
            ))
        }
    };
    let begin = begins(way, begins_at, when);
    let mut said = format!("{what}: {begin}{}.", comes_to(way, bakes, times));
    said += &still(way, when);
    if way.is_long_out {
        said += " ";
        said += LONG_FOR_EGG_OR_MILK;
    }
    said
}

/// "table about 16:05 (15:50 to 16:25)", and where breads are ready apart each of them: "for the table at 16:00 about
/// 15:40 (15:20 to 16:00), all of it about 18:00 (17:40 to 18:20)".
fn comes_to(way: &Way, bakes: &[&State], times: &Times) -> String {
    let Times { when, about, .. } = *times;
    let ends = |what: &str, ready: &Estimate<Moment>| {
        format!(
            "{what} about {} ({} to {})",
            when(ready.likely()),
            about(ready.low()),
            about(ready.high())
        )
    };
    let some_without = bakes
        .iter()
        .any(|state| !state.all_ended() && table_of(state).is_none());
    let is_one = way.margins.len() + usize::from(some_without) <= 1;
    if is_one {
        return ends("table", &way.table);
    }
    let margins = way.margins.iter();
    let each = margins.map(|margin| {
        let table = format!("for the table at {}", when(margin.table));
        ends(&table, &margin.ready)
    });
    let mut all: Vec<String> = each.collect();
    if some_without {
        all.push(ends("all of it", &way.table));
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
    state.map_or_else(String::new, |state| lower_first(&full_name(state, bakes)))
}

fn title(bakes: &[&State], bake: usize, step: StepId) -> String {
    let step = bakes.get(bake).and_then(|state| state.formula.step(step));
    step.map_or_else(String::new, |step| step.title.clone())
}

#[cfg(test)]
mod tests;
