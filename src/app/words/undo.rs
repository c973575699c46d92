//! What was taken back.

use domain::bake::Event;
use platform::store::Degrees;

use super::quantity::{mass, temperature};

/// "fold 2", "Divide done". `title` is the name of the event's step, `fold` its number from 1.
pub(crate) fn taken_back(event: &Event, title: &str, fold: usize, degrees: Degrees) -> String {
    match event {
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
        Event::Wished(_) => "what you wished of the time".to_owned(),
        Event::Pinned { .. } => format!("the time fixed for {title}"),
        Event::RetardPlanned { .. } => format!("the time in the fridge planned for {title}"),
        Event::Refitted(_) => "the change of the formula".to_owned(),
        Event::Paused => "the pause".to_owned(),
        Event::Resumed => "the end of the pause".to_owned(),
        Event::Since { .. } => "that it was earlier".to_owned(),
        Event::ClockSet { .. } => "what you said of the clock".to_owned(),
        // None of these can be taken back, but with what it was said with.
        Event::Started(_)
        | Event::OvenHot { .. }
        | Event::Acknowledged { .. }
        | Event::Finished
        | Event::Abandoned
        | Event::Undone { .. } => String::new(),
    }
}
