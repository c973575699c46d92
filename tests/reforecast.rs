//! One full reforecast: all that the screens ask of the model when something has happened in a bake.

use std::hint::black_box;

use domain::bake::{Bake, Entry, Event, TimerId, alarms};
use domain::kitchen::Kitchen;
use domain::schedule::{focus, offers, outline, running};
use domain::units::Moment;

use crate::baker::{Point, points};
use crate::starter;

const START: Moment = Moment::from_epoch_ms(1_700_000_000_000);

/// Where a five-hour bake is taken up, by the step that the Bench asks about.
pub const TAKEN_UP: [&str; 5] = [
    "Mix the dough",
    "Toast almonds",
    "Final proof",
    "Bake",
    "Cool",
];

/// The filled buns at each of these points.
///
/// # Panics
/// When the bake doesn't come to one of them.
#[must_use]
pub fn taken_up() -> Vec<Point> {
    let points = points(starter("plum-almond-buns"), Kitchen::UNMEASURED, START);
    let title = |point: &Point| {
        let formula = &point.bake.state().formula;
        let step = point.ask.step().and_then(|step| formula.step(step));
        step.map(|step| step.title.clone())
    };
    let find = |wanted: &str| {
        let mut points = points.iter();
        let found = points.find(|point| title(point).is_some_and(|title| title == wanted));
        found.expect("the bake comes there").clone()
    };
    TAKEN_UP.into_iter().map(find).collect()
}

/// The bake after an entry that changes nothing, but of which the model can't know that: it has to reckon every
/// window anew.
#[must_use]
pub fn with_news(point: &Point) -> Bake {
    let mut bake = point.bake.clone();
    let timer = TimerId(u32::MAX);
    bake.append([Entry {
        at: point.now,
        event: Event::TimerStopped { timer },
    }]);
    bake
}

/// Alarms, what is asked, what goes on, what else could be done, and the rest of the day.
pub fn reforecast(bake: &Bake, now: Moment) {
    let state = bake.state();
    black_box(alarms(state, now));
    black_box(focus(state, now));
    black_box(running(state, now));
    black_box(offers(state, now));
    black_box(outline(state, now));
}
