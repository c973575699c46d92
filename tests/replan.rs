//! One plan redone at an event: everything that is left, lengths and schedule, and what moved by it.

use std::hint::black_box;

use domain::bake::{Bake, BakeId, Entry, Event, Intent, State};
use domain::formula::{ComponentId, ComponentKind, Draft, Formula, FormulaId, StepId};
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Made, Timetable, moved, timetable};
use domain::units::{Celsius, CelsiusDelta, Moment};

use crate::reforecast::taken_up;
use crate::{begin, say, starter};

const START: Moment = Moment::from_epoch_ms(1_700_000_000_000);
/// The event: somebody reads off that the kitchen is so much colder than was believed, by which nearly all lengths change.
const COLDER: CelsiusDelta = CelsiusDelta::clamped(-2.0);

/// What is planned anew, by its names in the order of [`replans`].
pub const REPLANNED: [&str; 4] = [
    "27 steps, none begun",
    "27 steps, in the first rise",
    "40 steps, none begun",
    "two breads, 49 steps, for a table",
];

/// Bakes with a plan, and the same bakes after an event.
#[derive(Debug, Clone)]
pub struct Replan {
    before: Vec<Bake>,
    after: Vec<Bake>,
    timetable: Timetable,
    now: Moment,
}

/// What the formula of [`forty_steps`] is called.
const FORTY_STEPS: &str = "Forty steps";

/// Forty steps on one bench: the filled buns, and the dough of a braid up to its oven.
///
/// # Panics
/// When the two no longer fit together.
#[must_use]
pub fn forty_steps() -> Formula {
    let (buns, braid) = (starter("plum-almond-buns"), starter("orange-braid"));
    let mut both: Draft = buns.into_draft();
    let Draft {
        components, steps, ..
    } = braid.into_draft();
    let of = |id: ComponentId| ComponentId(id.0 + 50);
    let moved = |id: StepId| StepId(id.0 + 50);
    both.components
        .extend(components.into_iter().map(|mut component| {
            component.id = of(component.id);
            // A formula has one dough; what matters here is how many steps there are, and of which kinds.
            if component.kind == ComponentKind::Dough {
                component.kind = ComponentKind::Filling;
            }
            component
        }));
    let left = 40 - both.steps.len();
    both.steps
        .extend(steps.into_iter().take(left).map(|mut step| {
            step.id = moved(step.id);
            step.component = of(step.component);
            step.ahead_of = step.ahead_of.map(moved);
            for link in &mut step.after {
                link.step = moved(link.step);
            }
            step
        }));
    both.id = FormulaId("forty-steps".to_owned());
    both.name = FORTY_STEPS.to_owned();
    Formula::new(both).expect("they fit together")
}

/// Each of [`REPLANNED`].
///
/// # Panics
/// When one of them has no plan.
#[must_use]
pub fn replans() -> Vec<Replan> {
    let kitchen = Kitchen::UNMEASURED;
    let buns = || begin(starter("plum-almond-buns"), kitchen, START);
    let rising = taken_up().swap_remove(1);
    let forty = begin(forty_steps(), kitchen, START);
    let mut braid = begin(starter("orange-braid"), kitchen, START);
    braid.id = BakeId("braid".to_owned());
    let mut two = vec![buns(), braid];
    for bake in &mut two {
        let mut wishes = bake.state().wishes.clone();
        wishes.table = Some(START + domain::units::minutes(15.0 * 60.0));
        say(bake, Intent::Wish(Box::new(wishes)), START);
    }
    vec![
        Replan::of(vec![buns()], START),
        Replan::of(vec![rising.bake], rising.now),
        Replan::of(vec![forty], START),
        Replan::of(two, START),
    ]
}

impl Replan {
    fn of(before: Vec<Bake>, now: Moment) -> Self {
        let states: Vec<&State> = before.iter().map(Bake::state).collect();
        let timetable = timetable(&states, now, None, &mut || true).expect("there is a plan");
        let mut after = before.clone();
        for bake in &mut after {
            let air = Celsius::clamped((bake.state().kitchen.air + COLDER).get());
            bake.append([Entry {
                at: now,
                event: Event::KitchenMeasured { air },
            }]);
        }
        Self {
            before,
            after,
            timetable,
            now,
        }
    }

    /// The bakes after the event, of which nothing is reckoned yet.
    #[must_use]
    pub fn news(&self) -> Vec<Bake> {
        let mut news = self.after.clone();
        for bake in &mut news {
            // An entry that changes nothing, but of which the model can't know that.
            let event = Event::TimerStopped {
                timer: domain::bake::TimerId(u32::MAX),
            };
            bake.append([Entry {
                at: self.now,
                event,
            }]);
        }
        news
    }

    /// Plans anew, and finds out what moved.
    ///
    /// # Panics
    /// When there is no plan any more.
    pub fn redo(&self, news: &[Bake]) {
        let states: Vec<&State> = news.iter().map(Bake::state).collect();
        let again = timetable(&states, self.now, Some(&self.timetable), &mut || true);
        let again = again.expect("a colder kitchen leaves a plan");
        let [before, after]: [Vec<&Bake>; 2] =
            [&self.before[..], news].map(|bakes| bakes.iter().collect());
        let was = Made {
            timetable: &self.timetable,
            bakes: &before,
            names: &[],
        };
        let is = Made {
            timetable: &again,
            bakes: &after,
            names: &[],
        };
        black_box(moved(was, is, self.now));
    }
}
