//! A baker who does whatever is asked, in likely times, and stops each alarm as it rings.

use domain::bake::{Bake, BakeId, Entry, Event, Intent, Start, decide, due, marks_of};
use domain::formula::{Formula, Step, StepKind};
use domain::kitchen::{Kitchen, Place};
use domain::schedule::{Ask, focus};
use domain::units::{Celsius, Minutes, Moment, celsius, minutes};

/// How long hands take for a step, and for one mark on one piece.
const HANDS: Minutes = minutes(5.0);
const ONE_MARK: Minutes = minutes(1.0 / 3.0);
/// The baker looks at the phone at least this often.
const GLANCE: Minutes = minutes(1.0);
/// No starter takes longer, however often it is glanced at.
const MOST_ANSWERS: usize = 5_000;

/// What the thermometer says in a dough, and in the middle of what comes out of the oven.
const DOUGH: Celsius = celsius(25.0);
const BAKED: Celsius = celsius(91.0);

/// A point of a bake.
#[derive(Debug, Clone)]
pub struct Point {
    /// The bake so far.
    pub bake: Bake,
    /// What is asked for.
    pub ask: Ask,
    /// When.
    pub now: Moment,
}

/// Every point of a bake that starts at `started`, where a step asks for something of a kind for the first time.
///
/// # Panics
/// When the bake never ends.
#[must_use]
pub fn points(formula: Formula, kitchen: Kitchen, started: Moment) -> Vec<Point> {
    let mut baker = Baker::start(formula, kitchen, started);
    let mut points: Vec<Point> = Vec::new();
    for _ in 0..MOST_ANSWERS {
        baker.stop_alarms();
        let ask = baker.ask();
        if points.iter().all(|point| point.ask != ask) {
            points.push(Point {
                bake: baker.bake.clone(),
                ask,
                now: baker.now,
            });
        }
        if ask == Ask::AllDone {
            return points;
        }
        baker.answer(ask);
    }
    panic!("going round in circles at {:?}", baker.ask());
}

struct Baker {
    bake: Bake,
    now: Moment,
}

impl Baker {
    fn start(formula: Formula, kitchen: Kitchen, now: Moment) -> Self {
        let event = Event::Started(Box::new(Start { formula, kitchen }));
        let id = BakeId("taken-up-in-the-middle".to_owned());
        let bake = Bake::from_log(id, vec![Entry { at: now, event }]);
        let bake = bake.expect("the log begins with its start");
        Self { bake, now }
    }

    fn ask(&self) -> Ask {
        focus(self.bake.state(), self.now)
    }

    fn answer(&mut self, ask: Ask) {
        match ask {
            Ask::Work(id) => {
                let step = self.step(ask);
                let marks_piece = self.has_piece_to_mark(&step);
                if step.kind != StepKind::TakeTemperature {
                    self.wait(if marks_piece { ONE_MARK } else { HANDS });
                }
                // Something more urgent may have come up while the hands were busy.
                if self.ask() != ask {
                    return;
                }
                if marks_piece {
                    return self.say(Intent::MarkNext(id));
                }
                if step.kind == StepKind::TakeTemperature {
                    self.say(Intent::DoughIs(step.component, DOUGH));
                }
                self.say(Intent::Done(id));
            }
            Ask::Fold(id) => self.say(Intent::Folded(id)),
            Ask::Look(id) => {
                if self.step(ask).kind == StepKind::Bake {
                    self.say(Intent::CoreIs(id, BAKED));
                }
                self.say(Intent::Done(id));
            }
            Ask::IntoFridge(id) => self.say(Intent::Move(id, Place::Fridge)),
            Ask::OutOfFridge(id) => self.say(Intent::Move(id, Place::Kitchen)),
            Ask::Wait(_) | Ask::Idle | Ask::AllDone => self.wait(GLANCE),
        }
    }

    fn step(&self, ask: Ask) -> Step {
        let formula = &self.bake.state().formula;
        let step = ask.step().and_then(|step| formula.step(step));
        step.expect("what is asked is a step of the formula")
            .clone()
    }

    fn has_piece_to_mark(&self, step: &Step) -> bool {
        let state = self.bake.state();
        let marked = &state.progress(step.id).marks;
        let mut marks = marks_of(state, step.id).into_iter();
        step.is_by_piece() && marks.any(|mark| !marked.contains(&mark))
    }

    fn wait(&mut self, length: Minutes) {
        self.now = self.now + length;
        self.stop_alarms();
    }

    fn stop_alarms(&mut self) {
        for alarm in due(self.bake.state(), self.now) {
            self.say(Intent::Hear(alarm.id));
        }
    }

    fn say(&mut self, intent: Intent) {
        let entries = decide(&self.bake, intent, self.now);
        self.bake
            .append(entries.expect("what is asked can be done"));
    }
}
