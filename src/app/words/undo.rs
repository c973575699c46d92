//! What was taken back.

use domain::bake::Event;
use platform::store::Degrees;

use super::quantity::{mass, temperature};

/// "fold 2", "Divide done". `title` is the name of the event's step, `fold` its number from 1.
pub(crate) fn taken_back(event: &Event, title: &str, fold: usize, degrees: Degrees) -> String {
    let found = match event {
        Event::KitchenMeasured { air: found }
        | Event::DoughMeasured {
            temperature: found, ..
        }
        | Event::CoreMeasured {
            temperature: found, ..
        } => temperature(*found, degrees),
        Event::PieceWeighed { mass: found, .. } => mass(*found),
        Event::TimerSet { name, .. } => name.clone(),
        _ => fold.to_string(),
    };
    let found = found.as_str();
    // One sentence of three parts: a format for each would cost more to load than all its words.
    let parts = match event {
        Event::Done { .. } => ["", title, " done"],
        Event::Skipped { .. } => ["", title, " left out"],
        Event::Reopened { .. } => ["back to ", title, ""],
        Event::Picked { .. } => ["turned to ", title, ""],
        Event::Marked { .. } => ["a mark at ", title, ""],
        Event::Folded { .. } => ["fold ", found, ""],
        Event::FoldSkipped { .. } => ["fold ", found, " left out"],
        Event::FoldPutOff { .. } => ["fold ", found, " put off"],
        Event::Extended { .. } => ["", title, " put off"],
        Event::KitchenMeasured { .. } => ["kitchen ", found, ""],
        Event::KitchenChanged(_) => ["", "the kitchen as it was changed", ""],
        Event::DoughMeasured { .. } => ["dough at ", found, ""],
        Event::CoreMeasured { .. } => ["", found, " in the middle"],
        Event::PieceWeighed { .. } => ["a piece of ", found, ""],
        Event::TimerSet { .. } => ["timer ", found, ""],
        Event::TimerStopped { .. } => ["", "a timer put away", ""],
        Event::Paused => ["", "the pause", ""],
        Event::Resumed => ["", "the end of the pause", ""],
        // None of these can be taken back.
        Event::Started(_)
        | Event::Acknowledged { .. }
        | Event::Finished
        | Event::Abandoned
        | Event::Undone { .. } => [""; 3],
    };
    parts.concat()
}
