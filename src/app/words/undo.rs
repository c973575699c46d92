//! What is taken back, and put back.

use domain::bake::{Event, Wishes};
use domain::units::Moment;
use platform::clock::time_of_day;
use platform::store::Degrees;

use super::quantity::{mass, temperature};
use super::when;
use crate::state::Named;

/// The heading of the question whether something is to be taken back, and the answer that does it.
pub(crate) const TAKE_BACK: &str = "Take it back";

/// "Take back: Cream into fridge done, 10:26?"
pub(crate) fn take_back(what: &str, at: Moment, now: Moment) -> String {
    format!("Take back: {what}, {}?", when(at, now))
}

/// On the button that does so: "Put back: Cream into fridge done".
pub(crate) fn put_back(what: &str) -> String {
    format!("Put back: {what}")
}

/// "fold 2", "Divide done".
pub(crate) fn taken_back(what: &Named, degrees: Degrees) -> String {
    let Named { title, fold, .. } = what;
    match &what.event {
        Event::Done { .. } => format!("{title} done"),
        Event::Skipped { .. } => format!("{title} left out"),
        Event::Reopened { .. } => format!("back to {title}"),
        Event::Picked { .. } => format!("turned to {title}"),
        Event::Marked { .. } => format!("a mark at {title}"),
        Event::Folded { .. } => format!("fold {fold}"),
        Event::FoldSkipped { .. } => format!("fold {fold} left out"),
        Event::FoldPutOff { .. } => format!("fold {fold} put off"),
        Event::Extended { .. } => format!("{title} put off"),
        Event::KitchenMeasured { air } => format!("kitchen {}", temperature(*air, degrees)),
        Event::KitchenChanged(_) => "the kitchen as it was changed".to_owned(),
        Event::DoughMeasured {
            temperature: found, ..
        } => format!("dough at {}", temperature(*found, degrees)),
        Event::CoreMeasured {
            temperature: found, ..
        } => format!("{} in the middle", temperature(*found, degrees)),
        Event::Moved { .. } => format!("the move of {title}"),
        Event::Poured { .. } => format!("what {title} is in"),
        Event::RiseSeen { .. } => format!("the look at {title}"),
        Event::PieceWeighed { piece, mass: found } => {
            format!("piece {}, {}", piece + 1, mass(*found))
        }
        Event::MassRemoved { piece } => format!("piece {} without a mass", piece + 1),
        Event::TimerSet { name, .. } => format!("timer {name}"),
        Event::TimerStopped { .. } => "a timer put away".to_owned(),
        Event::Wished(is) => wish(is, &what.wished),
        Event::Pinned { .. } => format!("the time fixed for {title}"),
        Event::RetardPlanned { .. } => format!("the time in the fridge planned for {title}"),
        Event::Refitted(_) => "the change of the formula".to_owned(),
        Event::Paused => "the pause".to_owned(),
        Event::Resumed => "the end of the pause".to_owned(),
        Event::Since { .. } => "that it was earlier".to_owned(),
        Event::ClockSet { .. } => "what you said of the clock".to_owned(),
        // None of these can be taken back, but with what it was said with.
        Event::Started(_) => format!("the start of {title}"),
        Event::OvenHot { .. }
        | Event::Acknowledged { .. }
        | Event::Finished
        | Event::Abandoned
        | Event::Undone { .. } => String::new(),
    }
}

/// What a wish changed: "the table at 16:00".
fn wish(is: &Wishes, was: &Wishes) -> String {
    match is.table {
        Some(table) if is.table != was.table => format!("the table at {}", time_of_day(table)),
        _ if is.away != was.away => "when nobody is here".to_owned(),
        _ => "what you wished of the time".to_owned(),
    }
}
