//! One plan redone at an event: everything that is left, lengths and schedule, and what moved by it.

use std::hint::black_box;

use domain::bake::{Bake, BakeId, Entry, Event, Intent, State};
use domain::formula::{
    ComponentId, ComponentKind, Draft, Formula, FormulaId, Step, StepId, StepKind,
};
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Made, Timetable, moved, timetable};
use domain::units::{Celsius, CelsiusDelta, Minutes, Moment, minutes};

use crate::baker::points;
use crate::reforecast::taken_up;
use crate::{begin, say, starter};

const START: Moment = Moment::from_epoch_ms(1_700_000_000_000);
/// The event: somebody reads off that the kitchen is so much colder than was believed, by which nearly all lengths change.
const COLDER: CelsiusDelta = CelsiusDelta::clamped(-2.0);
/// By how much somebody is late who does nothing, or early with what was to take longer.
const MEANWHILE: Minutes = minutes(20.0);

/// What is planned anew, by its names in the order of [`replans`].
pub const REPLANNED: [&str; 10] = [
    "27 steps, none begun",
    "27 steps, in the first rise",
    "40 steps, none begun",
    "40 steps, half of them done, colder",
    "40 steps, half of them done, twenty minutes late",
    "40 steps, a rise ready early",
    "two breads, 49 steps, for a table",
    "two breads, 49 steps, for a table each",
    "two breads, one in its first rise",
    "two batches, room in the fridge for one bowl",
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
    let on_the_way = points(forty_steps(), kitchen, START);
    let once = |is: &dyn Fn(&State) -> bool| {
        let point = on_the_way.iter().find(|point| is(point.bake.state()));
        point.expect("the bake comes there").clone()
    };
    let half = once(&|state| {
        let steps = state.formula.steps.iter();
        let ended = steps.filter(|step| state.progress(step.id).ended.is_some());
        2 * ended.count() >= state.formula.steps.len()
    });
    let risen = once(&|state| rising_in(state).is_some());
    let braid = |now: Moment| {
        let mut braid = begin(starter("orange-braid"), kitchen, now);
        braid.id = BakeId("braid".to_owned());
        braid
    };
    // Both fillings would be cold at once, and one batch waits for the other's place.
    let crowded = ["first", "second"].map(|id| {
        let full = Kitchen {
            fridge_holds: 1,
            ..kitchen
        };
        let mut buns = begin(starter("plum-almond-buns"), full, START);
        buns.id = BakeId(id.to_owned());
        for_table(buns, START, 15.0)
    });
    let one = vec![
        for_table(buns(), START, 15.0),
        for_table(braid(START), START, 15.0),
    ];
    let each = vec![
        for_table(buns(), START, 15.0),
        for_table(braid(START), START, 17.0),
    ];
    let beside = vec![
        for_table(rising.bake.clone(), rising.now, 9.0),
        for_table(braid(rising.now), rising.now, 12.0),
    ];
    vec![
        Replan::of(vec![buns()], START),
        Replan::of(vec![rising.bake.clone()], rising.now),
        Replan::of(vec![forty], START),
        Replan::of(vec![half.bake.clone()], half.now),
        Replan::after(vec![half.bake], half.now, |_, _| {}),
        Replan::after(vec![risen.bake], risen.now, |bake, now| {
            let rise = rising_in(bake.state()).expect("it rises");
            say(bake, Intent::Done(rise), now);
        }),
        Replan::of(one, START),
        Replan::of(each, START),
        Replan::of(beside, rising.now),
        Replan::of(crowded.into(), START),
    ]
}

/// The first rise that goes on in a bake.
fn rising_in(state: &State) -> Option<StepId> {
    let mut steps = state.formula.steps.iter();
    let is_rising = |step: &&Step| {
        let progress = state.progress(step.id);
        step.kind == StepKind::Bulk && progress.open_since.is_some() && progress.ended.is_none()
    };
    steps.find(is_rising).map(|step| step.id)
}

/// The same bake, wished on the table so many hours from now.
fn for_table(mut bake: Bake, now: Moment, hours: f64) -> Bake {
    let mut wishes = bake.state().wishes.clone();
    wishes.table = Some(now + minutes(hours * 60.0));
    say(&mut bake, Intent::Wish(Box::new(wishes)), now);
    bake
}

impl Replan {
    fn of(before: Vec<Bake>, now: Moment) -> Self {
        Self::at(before, (now, now), |bake, now| {
            let air = Celsius::clamped((bake.state().kitchen.air + COLDER).get());
            bake.append([Entry {
                at: now,
                event: Event::KitchenMeasured { air },
            }]);
        })
    }

    /// Something happens some time after a plan was made, and nothing meanwhile.
    fn after(before: Vec<Bake>, planned: Moment, happens: impl Fn(&mut Bake, Moment)) -> Self {
        Self::at(before, (planned, planned + MEANWHILE), happens)
    }

    fn at(
        before: Vec<Bake>,
        (planned, now): (Moment, Moment),
        happens: impl Fn(&mut Bake, Moment),
    ) -> Self {
        let states: Vec<&State> = before.iter().map(Bake::state).collect();
        let timetable = timetable(&states, planned, None, &mut || true).expect("there is a plan");
        let mut after = before.clone();
        for bake in &mut after {
            happens(bake, now);
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
