//! What moved in the plan and why, in one sentence.
//!
//! First what is asked most, when everything is on the table; then why. Where that stays, what caused it comes
//! first and what starts at another time after it. Nobody is blamed: work was done later than planned, and that is all.

use domain::formula::StepKind;
use domain::schedule::plan::{Kept, Moved, NOTABLE, Named, Shifted, Why};
use domain::units::{CelsiusDelta, Minutes, Moment};
use platform::clock::{self, time_of_day};
use platform::store::Degrees;

use super::super::letters::{capital, lower_first};
use super::super::places::{on_day, vessel, whereabouts};
use super::super::quantity::{about, span, temperature};

/// The heading of what moved lately.
pub(crate) const WHAT_MOVED: &str = "What moved";
/// Where nothing has.
pub(crate) const NOTHING_MOVED: &str = "Nothing has moved since the app was opened.";

/// One sentence about what moved at a moment.
pub(crate) fn what_moved(moved: &Moved, at: Moment, degrees: Degrees) -> String {
    let today = clock::day(at);
    let time = |moment| {
        if clock::day(moment) == today {
            time_of_day(moment)
        } else {
            on_day(moment)
        }
    };
    sentence(moved, &time, degrees)
}

type Time<'a> = &'a dyn Fn(Moment) -> String;

fn sentence(moved: &Moved, time: Time, degrees: Degrees) -> String {
    let (was, is) = moved.ready;
    let stays = (is - was).get().abs() < NOTABLE.get();
    let because = because(moved, time, degrees);
    match &moved.next {
        Some(next) if stays => {
            let stays = match &moved.kept {
                None => format!("the table stays {}", time(is)),
                Some(_) => format!("everything is still ready at {}", time(is)),
            };
            format!("{}: {}, {stays}.", capital(&because), shifted(next, time))
        }
        _ => format!("{}: {because}.", ready(moved, time)),
    }
}

fn ready(moved: &Moved, time: Time) -> String {
    let (was, is) = moved.ready;
    let instead = format!("{} instead of {}", time(is), time(was));
    let Some(Kept { table, spare, .. }) = moved.kept else {
        return format!("Table {instead}");
    };
    let table_at = time(table);
    if spare.get() < 0.0 {
        return format!(
            "Ready {instead}, {} after the table at {table_at}",
            span(spare)
        );
    }
    let before = table - was;
    // With other wishes it was another table.
    if before.get() < 0.0 || moved.why == Why::Wishes {
        return format!("Ready {instead}, in time for the table at {table_at}");
    }
    let left = match spare.get() {
        0.0 => "no time".to_owned(),
        _ => span(spare),
    };
    format!(
        "The table stays {table_at}, with {left} to spare instead of {}",
        span(before)
    )
}

fn shifted(next: &Shifted, time: Time) -> String {
    let instead = format!("{} instead of {}", time(next.is), time(next.was));
    if next.step.kind == StepKind::OvenOn {
        return match &next.step.formula {
            Some(formula) => format!("the oven for {formula} goes on at {instead}"),
            None => format!("the oven goes on at {instead}"),
        };
    }
    let name = named(&next.step);
    if next.is_fold {
        format!("{name} is folded at {instead}")
    } else {
        format!("{name} is at {instead}")
    }
}

/// "Divide", and where several bakes run "Orange braid, divide".
fn named(step: &Named) -> String {
    match &step.formula {
        Some(formula) => format!("{formula}, {},", lower_first(&step.title)),
        None => step.title.clone(),
    }
}

fn because(moved: &Moved, time: Time, degrees: Degrees) -> String {
    let early = |by: &Minutes| by.get() < 0.0;
    let said = match &moved.why {
        Why::Ready(step, by) | Why::Hands(step, by) if by.get() == 0.0 => {
            format!("{} has ended", named(step))
        }
        Why::Ready(step, by) if early(by) => format!("{} ready {} early", named(step), span(*by)),
        Why::Ready(step, by) => format!("{} ended {} later than likely", named(step), span(*by)),
        Why::Hands(step, by) => {
            let how = if early(by) { "sooner" } else { "later" };
            format!("{} was done {} {how} than planned", named(step), span(*by))
        }
        Why::Overdue(step, by) => format!("{} should have ended {} ago", named(step), span(*by)),
        Why::Waits(step, by) => format!("{} was planned for {} ago", named(step), span(*by)),
        Why::NotYet(step, by) => format!("{} was put off by {}", named(step), span(*by)),
        Why::Folded(step) => format!("{} is folded", named(step)),
        Why::LeftOut(step) => format!("{} is left out", named(step)),
        Why::WentBack(step) => format!("{} is open again", named(step)),
        Why::Dough(_, by) => dough(*by, degrees),
        Why::Core(step) => format!("{} was measured in the middle", named(step)),
        Why::Looked(step, farther) => {
            let than = if *farther { "farther" } else { "less" };
            format!("{} had risen {than} than forecast", named(step))
        }
        Why::Stands(step, place) => {
            format!(
                "{} stands {} now",
                named(step),
                whereabouts(*place, degrees)
            )
        }
        Why::Poured(step, held) => {
            format!("{} is {} now", named(step), lower_first(&vessel(*held)))
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
        Why::Refitted => "the formula changed".to_owned(),
        Why::Began(formula) => format!("{formula} is planned along"),
        Why::Ended(formula) => format!("{formula} is over"),
        Why::TakenBack => "something was taken back".to_owned(),
        Why::ClockSet => "the phone's clock was set".to_owned(),
        Why::Time => "time has gone by".to_owned(),
    };
    match moved.most.as_ref().filter(|_| changes_lengths(&moved.why)) {
        Some((step, by)) => {
            let how = if early(by) { "less" } else { "longer" };
            format!("{said}, so {} takes {} {how}", named(step), span(*by))
        }
        None => said,
    }
}

fn dough(by: CelsiusDelta, degrees: Degrees) -> String {
    let how = if by.get() < 0.0 { "cooler" } else { "warmer" };
    format!("the dough is {} {how} than forecast", about(by, degrees))
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
        )
}

#[cfg(test)]
mod tests {
    use super::*;
    use checks::script::{self, Told};
    use domain::units::minutes;

    fn clock(moment: Moment) -> String {
        let of_day = moment.epoch_ms().div_euclid(60_000).rem_euclid(24 * 60);
        format!("{:02}:{:02}", of_day / 60, of_day % 60)
    }

    fn plain(moved: &Moved) -> String {
        sentence(moved, &clock, Degrees::Celsius).replace('\u{a0}', " ")
    }

    /// The scripts of whole bakes say what is told after a slip, word for word.
    #[test]
    fn scripts_of_bakes_are_told_in_these_sentences() {
        let mut told = 0;
        for Told {
            script,
            line,
            moved,
            sentence,
        } in script::told()
        {
            let said = moved.as_ref().map_or_else(String::new, plain);
            assert!(
                script::says(&sentence, &said),
                "{script}, line {line}: {said}"
            );
            told += 1;
        }
        assert!(told >= 6, "{told} sentences");
    }

    fn moved(why: Why, later: f64) -> Moved {
        let was = Moment::from_epoch_ms(16 * 60 * 60_000);
        Moved {
            ready: (was, was + minutes(later)),
            kept: None,
            most: None,
            next: None,
            why,
        }
    }

    #[test]
    fn a_table_that_was_wished_is_told_with_what_is_to_spare() {
        let of = |spare: f64| {
            let mut moved = moved(Why::Equipment, 15.0);
            let table = moved.ready.1 + minutes(spare);
            moved.kept = Some(Kept {
                table,
                spare: minutes(spare),
                buffer: minutes(30.0),
            });
            plain(&moved)
        };
        assert_eq!(
            of(10.0),
            "The table stays 16:25, with 10 min to spare instead of 25 min: the kitchen changed."
        );
        assert_eq!(
            of(0.0),
            "The table stays 16:15, with no time to spare instead of 15 min: the kitchen changed."
        );
        assert_eq!(
            of(-20.0),
            "Ready 16:15 instead of 16:00, 20 min after the table at 15:55: the kitchen changed."
        );
    }
}
