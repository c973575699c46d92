//! Wishes that contradict each other, what could be wished instead, and what else helps.

use domain::bake::State;
use domain::formula::StepId;
use domain::kitchen::Scales;
use domain::schedule::plan::{Lever, Nearest, Part, Way};
use domain::units::{Grams, Moment};
use platform::clock::time_of_day;
use platform::store::Degrees;

use crate::words::letters::lower_first;
use crate::words::quantity::{about_time, span, temperature};
use crate::words::{LONG_FOR_EGG_OR_MILK, amount, capital, when};

/// What the part of the page is.
pub(crate) const WAYS_OUT: &str = "Ways out";
/// Asks for what helps, where every wish is kept.
pub(crate) const WHAT_WOULD_HELP: &str = "What would help?";
/// While plans are reckoned.
pub(crate) const RECKONING: &str = "Reckoning…";
/// The heading of what could be wished instead.
pub(crate) const INSTEAD: &str = "It works with";
/// The heading of what else helps.
pub(crate) const OR: &str = "What helps";
/// That nothing does.
pub(crate) const NOTHING_HELPS: &str = "No warmer or cooler place, no time in the fridge and no other yeast makes a difference worth it.";

/// "The table at 16:00, nobody here from 11:00 to 13:00 and the buns contradict each other."
pub(crate) fn contradiction(parts: &[Part], bakes: &[&State], now: Moment) -> String {
    // What the baker can change comes first.
    let names: Vec<String> = parts
        .iter()
        .rev()
        .map(|part| match *part {
            Part::Table(at) => format!("the table at {}", when(at, now)),
            Part::NotBefore(at) => format!("nothing before {}", when(at, now)),
            Part::Away(from, to) => format!("nobody here from {}", from_to(from, to, now)),
            Part::Fixed(bake, step, at) => {
                format!("{} at {}", title(bakes, bake, step), when(at, now))
            }
            Part::Bake(bake) => format!("the {}", bread(bakes, bake)),
        })
        .collect();
    let all = match &names[..] {
        // One bread by itself is as long as it is.
        [one] => return capital(&format!("{one} can't be planned as it stands.")),
        [before @ .., last] => format!("{} and {last}", before.join(", ")),
        [] => return String::new(),
    };
    capital(&format!("{all} contradict each other."))
}

/// What a button says that wishes it.
pub(crate) fn nearest(
    nearest: &Nearest,
    instead_of: Option<Moment>,
    bakes: &[&State],
    now: Moment,
) -> String {
    match *nearest {
        Nearest::Table { at, .. } => format!("Table at {}", when(at, now)),
        Nearest::Begin { at } => {
            let was = instead_of
                .map_or_else(String::new, |was| format!(" instead of {}", when(was, now)));
            format!("Begin at {}{was}", when(at, now))
        }
        Nearest::Back { at, .. } => format!("Be back at {}", when(at, now)),
        Nearest::Leave { at, .. } => format!("Leave only at {}", when(at, now)),
        Nearest::Stay { away } => format!("Be here from {}", from_to(away.0, away.1, now)),
        Nearest::Fixed { bake, step, at } => {
            let title = title(bakes, bake, step);
            match at {
                Some(at) => format!("{title} at {}", when(at, now)),
                None => format!("{title} whenever it can"),
            }
        }
    }
}

/// The same table with room for what may take longer.
pub(crate) fn safely(at: Moment, now: Moment) -> String {
    format!("Table at {}, to be sure", when(at, now))
}

/// A way, and the table it leads to: "First rise somewhere warm, 28 °C: table about 16:05 (15:50 to 16:25)."
pub(crate) fn way(
    way: &Way,
    bakes: &[&State],
    yeast: &str,
    now: Moment,
    degrees: Degrees,
) -> String {
    let what = match way.lever {
        Lever::Place {
            bake,
            step,
            air,
            from,
        } => {
            let here = bakes.get(bake).map(|state| state.kitchen.air);
            let is_warm = here.is_none_or(|here| air > here);
            let kind = if is_warm { "warm" } else { "cool" };
            let from = from.map_or_else(String::new, |from| format!(", from {}", when(from, now)));
            let title = title(bakes, bake, step);
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
            let title = title(bakes, bake, step);
            let begin = begin.map_or_else(String::new, |begin| {
                format!("begin at {}, ", when(begin, now))
            });
            let out = when(out, now);
            capital(&format!(
                "{begin}{} into the fridge {from}, out at {out}",
                lower_first(&title)
            ))
        }
        Lever::Yeast { .. } => yeast.to_owned(),
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
            capital(&format!(
                "{name} made before, from {}, and kept in the fridge, {days} days at most",
                from_to(from, to, now)
            ))
        }
    };
    let table = &way.table;
    let mut said = format!(
        "{what}: table about {} ({} to {}).",
        when(table.likely(), now),
        about_time(table.low()),
        about_time(table.high())
    );
    if way.late.get() >= 1.0 {
        said += &format!(" Still {} late.", span(way.late));
    }
    if way.is_long_out {
        said += " ";
        said += LONG_FOR_EGG_OR_MILK;
    }
    said
}

/// What a button says that puts a way into practice.
pub(crate) fn take(way: &Way) -> &'static str {
    match way.lever {
        Lever::Place { .. } => "I put it there",
        Lever::Fridge { from: None, .. } => "I put it in the fridge",
        Lever::Yeast { .. } => "Use that",
        Lever::Fridge { .. } | Lever::DayBefore { .. } => "Fix these times",
    }
}

/// "8 g of yeast instead of 6 g".
pub(crate) fn yeast(own: Grams, other: Grams, scales: &Scales) -> String {
    let (own, other) = (amount(own, scales), amount(other, scales));
    format!("{other} of yeast instead of {own}")
}

fn bread(bakes: &[&State], bake: usize) -> String {
    let state = bakes.get(bake);
    state.map_or_else(String::new, |state| lower_first(&state.formula.name))
}

fn title(bakes: &[&State], bake: usize, step: StepId) -> String {
    let step = bakes.get(bake).and_then(|state| state.formula.step(step));
    step.map_or_else(String::new, |step| step.title.clone())
}

fn from_to(from: Moment, to: Moment, now: Moment) -> String {
    format!("{} to {}", when(from, now), time_of_day(to))
}
