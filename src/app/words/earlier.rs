//! That something was done before it was pressed.

use domain::bake::Event;
use domain::units::{Minutes, Moment};
use platform::clock::time_of_day;

use super::quantity::span;

/// Over how much earlier it was, where that is entered.
pub(crate) const MINUTES_BEFORE: &str = "Minutes before that";

/// Over the choices: "Into the oven was before 13:29".
pub(crate) fn earlier(event: &Event, title: &str, at: Moment) -> String {
    let what = match event {
        Event::Folded { .. } => "The fold was",
        Event::Moved { .. } => "It was put there",
        Event::Poured { .. } => "It was in that",
        Event::DoughMeasured { .. } | Event::CoreMeasured { .. } => "It was measured",
        _ => return format!("{title} was before {}…", time_of_day(at)),
    };
    format!("{what} before {}…", time_of_day(at))
}

/// "At 13:04, when it called".
pub(crate) fn at_call(called: Moment) -> String {
    format!("At {}, when it called", time_of_day(called))
}

/// "5 min earlier, at 13:24".
pub(crate) fn earlier_by(by: Minutes, to: Moment) -> String {
    format!("{} earlier, at {}", span(by), time_of_day(to))
}

/// The same in one press, right after it was said: "Into the oven at 13:04, when it called?", and of what goes on by
/// itself "Was it ready at 11:41, when it called?"; of where it was put, "Was it put there at 22:30, when it called?".
pub(crate) fn earlier_as_called(
    title: &str,
    event: &Event,
    is_hands: bool,
    called: Moment,
) -> String {
    asked(title, event, is_hands, &time_of_day(called))
}

fn asked(title: &str, event: &Event, is_hands: bool, called: &str) -> String {
    if is_hands {
        format!("{title} at {called}, when it called?")
    } else if matches!(event, Event::Moved { .. }) {
        format!("Was it put there at {called}, when it called?")
    } else {
        format!("Was it ready at {called}, when it called?")
    }
}

#[cfg(test)]
mod tests {
    use domain::formula::StepId;
    use domain::kitchen::Place;

    use super::*;

    #[test]
    fn who_put_it_away_is_not_asked_whether_it_was_ready() {
        let (step, place) = (StepId(16), Place::Fridge);
        let moved = Event::Moved { step, place };
        let done = Event::Done { step };
        assert_eq!(
            asked("Final proof", &moved, false, "22:30"),
            "Was it put there at 22:30, when it called?"
        );
        assert_eq!(
            asked("Final proof", &done, false, "11:41"),
            "Was it ready at 11:41, when it called?"
        );
        assert_eq!(
            asked("Into the oven", &done, true, "13:04"),
            "Into the oven at 13:04, when it called?"
        );
    }
}
