//! Wishes asked of bakes, and whether their plan keeps them.

use std::pin::{Pin, pin};
use std::sync::OnceLock;
use std::task::{Context, Poll, Waker};

use checks::baker::{Point, points};
use checks::{begin, say, starter};
use domain::bake::{Bake, Intent, State, Wishes};
use domain::formula::{Length, StepId, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Timetable, timetable};
use domain::units::{Minutes, Moment, minutes};
use proptest::prelude::*;

use super::{NINE, TABLES};

/// Nobody else wants a turn.
pub(crate) fn go_on() -> Pin<Box<dyn Future<Output = bool>>> {
    Box::pin(std::future::ready(true))
}

/// The answer to what never waits.
pub(crate) fn at_once<T>(question: impl Future<Output = T>) -> T {
    let mut context = Context::from_waker(Waker::noop());
    match pin!(question).poll(&mut context) {
        Poll::Ready(answer) => answer,
        Poll::Pending => panic!("it waited for something"),
    }
}

pub(crate) fn states(bakes: &[Bake]) -> Vec<&State> {
    bakes.iter().map(Bake::state).collect()
}

/// The same wishes of every bake.
pub(crate) fn wish(bakes: &mut [Bake], wishes: &Wishes, now: Moment) {
    for bake in bakes {
        say(bake, Intent::Wish(Box::new(wishes.clone())), now);
    }
}

pub(crate) fn planned(bakes: &[Bake], now: Moment) -> Option<Timetable> {
    timetable(&states(bakes), now, None, &mut || true)
}

/// How much is amiss with a plan: after its table, and waiting too long.
pub(crate) fn amiss(found: &Timetable) -> f64 {
    amiss_beside(found, 0.0)
}

/// The same, but for what waits too long whatever is wished.
pub(crate) fn amiss_beside(found: &Timetable, anyway: f64) -> f64 {
    let over = found.plan.items.iter().filter_map(|item| item.too_late_by);
    let over = over.fold(0.0, |all, over| all + over.get());
    let late = found
        .margins
        .iter()
        .map(|margin| (-margin.spare().get()).max(0.0));
    let after: f64 = late.sum();
    (over - anyway).max(0.0) + after
}

/// Whether a plan keeps everything that is wished of some bakes, but for what waits too long whatever is wished.
pub(crate) fn are_kept(bakes: &[Bake], anyway: f64, now: Moment) -> bool {
    planned(bakes, now).is_some_and(|found| amiss_beside(&found, anyway) <= 0.5)
}

/// How long something waits too long in bakes of which nothing is wished.
pub(crate) fn amiss_anyway(bakes: &[Bake], now: Moment) -> f64 {
    let mut free = bakes.to_vec();
    for bake in &mut free {
        for &step in bake.state().pins.clone().keys() {
            say(bake, Intent::Pin(step, None), now);
        }
        for &step in bake.state().retards.clone().keys() {
            say(bake, Intent::PlanRetard(step, None), now);
        }
    }
    wish(&mut free, &Wishes::default(), now);
    amiss(&planned(&free, now).expect("there is a plan"))
}

pub(crate) fn hours(hours: f64) -> Minutes {
    minutes(60.0 * hours)
}

pub(crate) fn at_table(table: Moment) -> Wishes {
    Wishes {
        table: Some(table),
        ..Wishes::default()
    }
}

/// Points of bakes, made once.
pub(crate) fn some_points() -> &'static [Vec<Point>] {
    static POINTS: OnceLock<Vec<Vec<Point>>> = OnceLock::new();
    POINTS.get_or_init(|| {
        let starters = TABLES[..3].iter().map(|ids| starter(ids[0]));
        starters
            .map(|formula| points(formula, Kitchen::UNMEASURED, NINE))
            .collect()
    })
}

/// Bakes somewhere on their way, and what is wished of them.
#[derive(Debug, Clone)]
pub(crate) struct Asked {
    /// Which bread goes on, and how far it is; and which others are still to begin.
    goes_on: Option<(usize, usize)>,
    begun: Vec<usize>,
    table: Option<f64>,
    /// So much later is the table of what is still to begin.
    later: f64,
    not_before: Option<f64>,
    away: Vec<(f64, f64)>,
    pin: Option<(usize, f64)>,
    /// A rise of which bake stands in the fridge, from how much later on than it would begin, and for how long.
    retard: Option<(usize, f64, f64)>,
}

prop_compose! {
    pub(crate) fn any_wishes()(
        goes_on in proptest::option::of((0..3_usize, 1..200_usize)),
        begun in proptest::sample::subsequence(vec![0, 1], 0..=1),
        table in proptest::option::weighted(0.8, -1.0..6.0_f64),
        later in prop_oneof![Just(0.0), 0.5..12.0_f64],
        not_before in proptest::option::weighted(0.4, 0.0..6.0_f64),
        away in proptest::collection::vec((-1.0..8.0_f64, 0.2..3.0_f64), 0..3),
        pin in proptest::option::weighted(0.4, (0..200_usize, -1.0..4.0_f64)),
        retard in proptest::option::weighted(0.3, (0..200_usize, 0.0..4.0_f64, 0.5..12.0_f64)),
    ) -> Asked {
        Asked { goes_on, begun, table, later, not_before, away, pin, retard }
    }
}

impl Asked {
    pub(crate) fn bakes(&self) -> (Vec<Bake>, Moment) {
        let mut now = NINE;
        let mut bakes = Vec::new();
        if let Some((which, far)) = self.goes_on {
            let points = &some_points()[which];
            // Short of its end, where nothing is left to be wished.
            let point = &points[far % (points.len() * 4 / 5)];
            now = point.now;
            bakes.push(point.bake.clone());
        }
        for &which in &self.begun {
            bakes.push(begin(starter(TABLES[which][0]), Kitchen::UNMEASURED, now));
        }
        if bakes.is_empty() {
            bakes.push(begin(starter(TABLES[0][0]), Kitchen::UNMEASURED, now));
        }
        let free = planned(&bakes, now).expect("there is a plan").plan;
        let wishes = Wishes {
            table: self.table.map(|later| free.end.likely() + hours(later)),
            not_before: self.not_before.map(|later| now + hours(later)),
            away: self
                .away
                .iter()
                .map(|&(from, long)| (now + hours(from), now + hours(from + long)))
                .collect(),
        };
        wish(&mut bakes, &wishes, now);
        let own = Wishes {
            table: wishes.table.map(|table| table + hours(self.later)),
            ..wishes
        };
        wish(&mut bakes[1..], &own, now);
        if let Some((place, later)) = self.pin {
            let of = place % bakes.len();
            let steps = free.of(of).map_or(Vec::new(), |outline| outline.steps);
            let hands = steps.iter().filter(|item| is_hands(&bakes[of], item.step));
            let hands: Vec<_> = hands.collect();
            if !hands.is_empty() {
                let item = hands[place % hands.len()];
                let at = item.start + hours(later);
                say(&mut bakes[of], Intent::Pin(item.step, Some(at)), now);
            }
        }
        if let Some((place, later, long)) = self.retard {
            let of = place % bakes.len();
            let steps = free.of(of).map_or(Vec::new(), |outline| outline.steps);
            let rises = steps
                .iter()
                .filter(|item| can_be_retarded(&bakes[of], item.step));
            let rises: Vec<_> = rises.collect();
            if !rises.is_empty() {
                let item = rises[place % rises.len()];
                let from = item.start.max(now) + hours(later);
                let stay = Some((from, from + hours(long)));
                say(&mut bakes[of], Intent::PlanRetard(item.step, stay), now);
            }
        }
        (bakes, now)
    }
}

fn can_be_retarded(bake: &Bake, step: StepId) -> bool {
    let step = bake.state().formula.step(step);
    step.is_some_and(|step| {
        matches!(step.length, Length::Ferment { .. }) && step.kind != StepKind::Retard
    })
}

fn is_hands(bake: &Bake, step: StepId) -> bool {
    let step = bake.state().formula.step(step);
    step.is_some_and(domain::formula::Step::is_hands)
}
