//! What moved in the plan and why, in one sentence.
//!
//! First what is asked most, when everything is on the table; then why. Where that stays, what caused it comes
//! first and what starts at another time after it. Nobody is blamed: work was done later than planned, and that is all.

use domain::formula::StepKind;
use domain::kitchen::Place;
use domain::schedule::plan::{Ends, Moved, NOTABLE, Named, Shifted, Why};
use domain::units::{CelsiusDelta, Minutes, Moment};
use platform::clock::{self, time_of_day};
use platform::store::Degrees;

use super::super::letters::{capital, listed, lower_first};
use super::super::places::{on_day, vessel, whereabouts};
use super::super::quantity::{about, span, temperature};
use super::super::running::of_bread;

/// A difference in temperature that is told as a number, in K; below that it would be told as none.
const LEAST_DIFFERENCE: f64 = 0.3;

/// The heading of what moved lately.
pub(crate) const WHAT_MOVED: &str = "What moved";
/// Where nothing has.
pub(crate) const NOTHING_MOVED: &str = "Nothing of what is baking has moved.";
/// Where something was baking already, and what was planned of it isn't known.
pub(crate) const PLANNED_ANEW: &str = "What was planned before isn't known on this phone, so the plan was made \
     anew: what has moved since can't be told.";

/// One sentence about what moved at a moment, with the end that is told of.
pub(crate) fn what_moved(moved: &Moved, end: Ends, at: Moment, degrees: Degrees) -> String {
    let today = clock::day(at);
    let time = |moment| {
        if clock::day(moment) == today {
            time_of_day(moment)
        } else {
            on_day(moment)
        }
    };
    sentence(moved, end, &time, degrees)
}

type Time<'a> = &'a dyn Fn(Moment) -> String;

fn sentence(moved: &Moved, end: Ends, time: Time, degrees: Degrees) -> String {
    let (was, is) = end.ready;
    let stays = (is - was).get().abs() < NOTABLE.get();
    let told = match &moved.next {
        Some(next) if stays => next.is - next.was,
        _ => is - was,
    };
    let because = because(moved, told, time, degrees);
    match &moved.next {
        Some(next) if stays => format!(
            "{}: {}, and {}.",
            capital(&because),
            shifted(next, time),
            still(end, time)
        ),
        _ => {
            let is_wish = matches!(moved.why, Why::Wishes | Why::TakenBack);
            format!("{}: {because}.", ready(end, is_wish, time))
        }
    }
}

fn ready(end: Ends, is_wish: bool, time: Time) -> String {
    let ((was, is), whose) = (end.ready, whose(end));
    let ready = if end.is_other {
        format!("All of it is ready at {}", time(is))
    } else {
        format!("Ready at {} instead of {}", time(is), time(was))
    };
    let Some(margin) = end.margin else {
        return ready + &whose;
    };
    let (table, spare) = (margin.table, margin.spare());
    let table_at = time(table);
    if spare.get() < 0.0 {
        let late = span(spare);
        return format!("{ready}, {late} after the table at {table_at}{whose}");
    }
    let before = table - was;
    // With other wishes it was another table.
    if before.get() < 0.0 || is_wish || end.is_other {
        return format!("{ready}, in time for the table at {table_at}{whose}");
    }
    let left = match spare.get() {
        0.0 => "no time".to_owned(),
        _ => span(spare),
    };
    format!(
        "The table stays at {table_at}, with {left} to spare instead of {}{whose}",
        span(before)
    )
}

/// Whose end it is, where breads are for several tables: " (Buns and Orange braid)".
fn whose(end: Ends) -> String {
    if end.of.is_empty() {
        String::new()
    } else {
        format!(" ({})", listed(end.of))
    }
}

/// That the end stays, or moves by too little to come first: it is the same only where a clock shows the same.
fn still(end: Ends, time: Time) -> String {
    let (was, is) = end.ready;
    let whose = whose(end);
    let (what, stays) = if end.of.is_empty() {
        ("everything is ready", "everything is still ready")
    } else {
        ("the end is", "the end stays")
    };
    if was.clock_minute() == is.clock_minute() {
        format!("{stays} at {}{whose}", time(is))
    } else {
        // A minute is the rounding of plans: told as a change, it would want a cause.
        format!("{what} at {}{whose}", time(is))
    }
}

fn shifted(next: &Shifted, time: Time) -> String {
    let instead = format!("{} instead of {}", time(next.is), time(next.was));
    if next.step.kind == StepKind::OvenOn {
        return format!("{} goes on at {instead}", oven(&next.step));
    }
    let name = named(&next.step);
    if next.is_fold {
        format!("the fold in {name} is at {instead}")
    } else {
        format!("{name} is at {instead}")
    }
}

/// "Divide", and where several bakes run "Divide (Orange braid)": a step's name is the baker's own, and no more than a
/// name, so it stands beside what is said of a dough and not for it.
fn named(step: &Named) -> String {
    of_bread(&step.title, step.whose.as_deref())
}

fn oven(step: &Named) -> String {
    match &step.whose {
        Some(whose) => format!("the oven for {whose}"),
        None => "the oven".to_owned(),
    }
}

/// "The middle was measured (Bake)".
fn beside(step: &Named) -> String {
    match &step.whose {
        Some(whose) => format!("{}, {whose}", step.title),
        None => step.title.clone(),
    }
}

/// "The dough of First rise", and what gets cold is no dough.
fn stuff(step: &Named) -> String {
    let what = if step.kind == StepKind::Chill {
        "filling"
    } else {
        "dough"
    };
    format!("the {what} of {}", named(step))
}

fn because(moved: &Moved, told: Minutes, time: Time, degrees: Degrees) -> String {
    let early = |by: &Minutes| by.get() < 0.0;
    // Of several breads one can be sooner by what makes the others later, but nobody would see why.
    let why = if moved.why.leads() * told.get() < 0.0 {
        &Why::Anew
    } else {
        &moved.why
    };
    let said = match why {
        Why::Ready(step, by) | Why::Hands(step, by) if by.get() == 0.0 => {
            format!("{} has ended", named(step))
        }
        Why::Ready(step, by) if early(by) => {
            format!("{} was ready {} early", named(step), span(*by))
        }
        Why::Ready(step, by) => format!("{} ended {} later than likely", named(step), span(*by)),
        Why::Hands(step, by) => {
            let how = if early(by) { "sooner" } else { "later" };
            format!("{} was done {} {how} than planned", named(step), span(*by))
        }
        Why::Overdue(step, by) => format!("{} should have ended {} ago", named(step), span(*by)),
        Why::Waits(step, by) => format!("{} should have begun {} ago", named(step), span(*by)),
        Why::Unmoved(step, place, by) => {
            let way = if *place == Place::Fridge {
                "gone into"
            } else {
                "come out of"
            };
            format!(
                "{} should have {way} the fridge {} ago",
                stuff(step),
                span(*by)
            )
        }
        Why::NotYet(step, by) if step.kind == StepKind::OvenOn => {
            format!("{} was put off by {}", oven(step), span(*by))
        }
        Why::NotYet(step, by) => format!("{} gets {} more", named(step), span(*by)),
        Why::FoldNotYet(step, by) => {
            format!("the fold in {} was put off by {}", named(step), span(*by))
        }
        Why::Folded(step) => format!("the dough was folded in {}", named(step)),
        Why::FoldLeftOut(step) => format!("a fold in {} was left out", named(step)),
        Why::LeftOut(step) => format!("{} was left out", named(step)),
        Why::WentBack(step) => format!("{} is open again", named(step)),
        Why::Dough(step, by) => dough(step, *by, degrees),
        Why::Core(step) => format!("the middle was measured ({})", beside(step)),
        Why::Looked(step, farther) => {
            let than = if *farther { "more" } else { "less" };
            format!(
                "the dough had risen {than} than forecast in {}",
                named(step)
            )
        }
        Why::Stands(step, place) => {
            format!(
                "{} stands {} now",
                stuff(step),
                whereabouts(*place, degrees)
            )
        }
        Why::Poured(step, held) => {
            format!("{} is now {}", stuff(step), lower_first(&vessel(*held)))
        }
        Why::Kitchen(was, is) => format!(
            "the kitchen is {} instead of {}",
            temperature(*is, degrees),
            temperature(*was, degrees)
        ),
        Why::Fridge(was, is) => format!(
            "the fridge is {} instead of {}",
            temperature(*is, degrees),
            temperature(*was, degrees)
        ),
        Why::Equipment => "the kitchen changed".to_owned(),
        Why::Wishes => "what you wish of the time changed".to_owned(),
        Why::Fixed(step, Some(at)) => format!("{} is fixed to {}", named(step), time(*at)),
        Why::Fixed(step, None) => format!("{} is no longer fixed", named(step)),
        Why::Retard(step, Some((from, to))) => format!(
            "{} is to stand in the fridge from {} to {}",
            stuff(step),
            time(*from),
            time(*to)
        ),
        Why::Retard(step, None) => format!("{} doesn't go into the fridge after all", stuff(step)),
        Why::Refitted => "the formula changed".to_owned(),
        Why::Began(whose) => format!("another bake was added to the plan ({whose})"),
        Why::Ended(whose) => format!("one bake is over ({whose})"),
        Why::Earlier(step, by) => {
            format!("{} was {} before that was said", named(step), span(*by))
        }
        Why::TakenBack => "something was taken back".to_owned(),
        Why::PutBack => "something was put back".to_owned(),
        Why::ClockSet => "the phone's clock was set".to_owned(),
        Why::Anew => "the plan was made anew".to_owned(),
        Why::Time => "time has gone by".to_owned(),
    };
    let most = moved.most.as_ref();
    match most.filter(|(_, by)| changes_lengths(why) && by.get() * told.get() > 0.0) {
        Some((step, by)) => {
            let how = if early(by) { "less" } else { "longer" };
            format!("{said}, so {} takes {} {how}", named(step), span(*by))
        }
        None => said,
    }
}

fn dough(step: &Named, by: CelsiusDelta, degrees: Degrees) -> String {
    let whose = step.whose.as_ref();
    let whose = whose.map_or_else(String::new, |whose| format!(" of {whose}"));
    let how = if by.get() < 0.0 { "cooler" } else { "warmer" };
    // What no thermometer in a kitchen tells apart is still what moved the plan.
    let by = if by.get().abs() < LEAST_DIFFERENCE {
        "a little".to_owned()
    } else {
        about(by, degrees)
    };
    format!("the dough{whose} is {by} {how} than forecast")
}

/// Whether it makes something take longer or less, and isn't work that did so itself.
fn changes_lengths(why: &Why) -> bool {
    let on_time = matches!(why, Why::Ready(_, by) | Why::Hands(_, by) if by.get() == 0.0);
    on_time
        || matches!(
            why,
            Why::Dough(..)
                | Why::Core(_)
                | Why::Looked(..)
                | Why::Stands(..)
                | Why::Poured(..)
                | Why::Kitchen(..)
                | Why::Fridge(..)
                | Why::Equipment
                | Why::TakenBack
                | Why::PutBack
        )
}

#[cfg(test)]
mod tests;
