//! Days of one to three bakes, for one table, for one each or for none, gone through by the plan, with slips.

use checks::{begin, say, starter};
use domain::bake::{Bake, BakeId, Intent, State, Wishes};
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Plan, Timetable, What, timetable};
use domain::units::{Celsius, Minutes, Moment, minutes};
use proptest::prelude::*;

use super::NINE;

const STARTERS: [&str; 3] = ["plum-almond-buns", "orange-braid", "overnight-tin-loaf"];

/// A day as it is drawn.
#[derive(Debug, Clone)]
pub(super) struct Drawn {
    pub(super) bakes: Vec<usize>,
    pub(super) air: f64,
    /// Hours until the table, if one is wished.
    pub(super) table: Option<f64>,
    /// By how many hours every further bake's table is later.
    pub(super) apart: f64,
    /// When nobody is there: hours from the start, and how many.
    pub(super) away: Option<(f64, f64)>,
    /// Seconds behind a whole minute at which the day begins.
    pub(super) second: i64,
    /// What the baker does, one thing after the other: by how many minutes each is off the plan, and what else happens.
    pub(super) slips: Vec<(f64, u8)>,
}

/// One bake of buns with nothing wished.
pub(super) const PLAIN: Drawn = Drawn {
    bakes: Vec::new(),
    air: 22.0,
    table: None,
    apart: 0.0,
    away: None,
    second: 0,
    slips: Vec::new(),
};

pub(super) fn any_day() -> impl Strategy<Value = Drawn> {
    (
        prop::sample::subsequence(vec![0, 1, 2], 1..=3),
        18.0..27.0_f64,
        prop::option::of(8.0..30.0_f64),
        prop_oneof![2 => Just(0.0), 1 => 0.5..16.0_f64],
        prop::option::of((0.5..9.0_f64, 0.3..1.5_f64)),
        0_i64..60,
        prop::collection::vec(
            (prop_oneof![4 => Just(0.0), 1 => -9.0..25.0_f64], 0_u8..24),
            4..40,
        ),
    )
        .prop_map(|(bakes, air, table, apart, away, second, slips)| Drawn {
            bakes,
            air,
            table,
            apart,
            away,
            second,
            slips,
        })
}

/// A day that has got so far.
#[derive(Debug, Clone)]
pub(super) struct Day {
    pub(super) bakes: Vec<Bake>,
    pub(super) now: Moment,
    pub(super) timetable: Timetable,
}

impl Day {
    /// All bakes planned, none begun.
    pub(super) fn planned(drawn: &Drawn) -> Option<Self> {
        let now = NINE + minutes(drawn.second as f64 / 60.0);
        let kitchen = Kitchen {
            air: Celsius::clamped(drawn.air),
            ..Kitchen::UNMEASURED
        };
        let hours = |hours: f64| now + minutes((hours * 60.0).round());
        let wishes = |place: usize| Wishes {
            table: drawn
                .table
                .map(|table| hours(table + drawn.apart * place as f64)),
            not_before: None,
            away: drawn
                .away
                .iter()
                .map(|&(from, long)| (hours(from), hours(from + long)))
                .collect(),
        };
        let which = if drawn.bakes.is_empty() {
            &[0][..]
        } else {
            &drawn.bakes
        };
        let bakes = which.iter().enumerate().map(|(place, &which)| {
            let mut bake = begin(starter(STARTERS[which]), kitchen, now);
            bake.id = BakeId(STARTERS[which].to_owned());
            say(&mut bake, Intent::Wish(Box::new(wishes(place))), now);
            bake
        });
        let bakes: Vec<Bake> = bakes.collect();
        let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
        let timetable = timetable(&states, now, None, &mut || true)?;
        Some(Self {
            now,
            timetable,
            bakes,
        })
    }

    pub(super) fn states(&self) -> Vec<&State> {
        self.bakes.iter().map(Bake::state).collect()
    }

    pub(super) fn away(&self) -> Vec<(Moment, Moment)> {
        as_counted(&self.bakes[0].state().wishes.away)
    }

    pub(super) fn again(&self, now: Moment) -> Timetable {
        let plan = timetable(&self.states(), now, Some(&self.timetable), &mut || true);
        plan.expect("there was a plan, and nobody is away who wasn't")
    }

    /// What ends next by the plan, that can be said to have ended.
    pub(super) fn next(&self) -> Option<(What, Moment)> {
        let items = self
            .timetable
            .plan
            .items
            .iter()
            .filter(|item| match item.what {
                What::Step(bake, step) => self.bakes[bake].state().is_open(step),
                What::Fold(_, _, nth) => nth == 0,
                What::Away | What::Retard(..) | What::Kept(..) => false,
            });
        let next = items.min_by_key(|item| item.end)?;
        Some((next.what, next.end))
    }

    /// The baker does what ends next, so much later than planned, or something else happens.
    ///
    /// Gives the bake it happened to, and `None` at the end of the day.
    pub(super) fn go_on(&mut self, (off, other): (f64, u8)) -> Option<usize> {
        let (what, end) = self.next()?;
        let (What::Step(bake, step) | What::Fold(bake, step, _)) = what else {
            return None;
        };
        self.now = (end + Minutes::clamped(off)).max(self.now + minutes(0.2));
        let is_fold = matches!(what, What::Fold(..));
        let state = self.bakes[bake].state();
        let goes_on = state
            .formula
            .step(step)
            .is_some_and(|step| !step.is_hands());
        let component = state.formula.step(step).map(|step| step.component)?;
        match other {
            0 => {
                let air = Celsius::clamped(state.kitchen.air.get() + 2.0);
                for bake in &mut self.bakes {
                    say(bake, Intent::KitchenIs(air), self.now);
                }
            }
            1 if goes_on && !is_fold => self.say(bake, Intent::NotYet(step, minutes(10.0))),
            2 if !goes_on => self.say(bake, Intent::Pick(step)),
            3 => {
                let dough = Celsius::clamped(state.kitchen.air.get() + 1.0);
                // Not every component is a dough, and not every dough rises now.
                if let Ok(entries) = domain::bake::decide(
                    &self.bakes[bake],
                    Intent::DoughIs(component, dough),
                    self.now,
                ) {
                    self.bakes[bake].append(entries);
                }
            }
            4 if !goes_on => self.say(bake, Intent::Skip(step)),
            _ if is_fold => self.say(bake, Intent::Folded(step)),
            _ => self.say(bake, Intent::Done(step)),
        }
        self.now = self
            .bakes
            .iter()
            .map(|bake| bake.state().newest)
            .fold(self.now, Moment::max);
        Some(bake)
    }

    fn say(&mut self, bake: usize, intent: Intent) {
        say(&mut self.bakes[bake], intent, self.now);
    }
}

/// When nobody is there, as the plan counts: in whole minutes of the clock.
pub(super) fn as_counted(away: &[(Moment, Moment)]) -> Vec<(Moment, Moment)> {
    let whole = |at: Moment| Moment::from_epoch_ms((at.epoch_ms() + 30_000) / 60_000 * 60_000);
    let away = away.iter();
    away.map(|&(from, to)| (whole(from), whole(to))).collect()
}

/// When everything starts and ends.
pub(super) fn times(plan: &Plan) -> Vec<(What, Moment, Moment)> {
    let items = plan.items.iter();
    let times = items.map(|item| (item.what, item.start, item.end));
    // Time away that has begun is cut off at the present.
    times.filter(|(what, ..)| *what != What::Away).collect()
}
