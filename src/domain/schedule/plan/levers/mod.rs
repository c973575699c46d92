//! Ways to a wished table other than wishing otherwise.
//!
//! Each is reckoned as a plan of bakes that it has been done to, and told only if that plan is
//! better by enough and breaks no rule for food that spoils. What can be asked of a bake at once comes
//! with its intents; what has to be done when its time has come is advice, with its times.

mod day_before;
mod rises;

use std::borrow::Cow;

use super::trial::{As, Case, LeftOff, Rest, Trial, Trials};
use super::wished::together;
use super::{Plan, What};
use crate::bake::{Bake, Intent, State, decide};
use crate::estimate::Estimate;
use crate::formula::{ComponentId, Formula, Length, StepId};
use crate::schedule::filled::{is_long_for_egg_or_milk, longest_out, out_limit};
use crate::units::{Celsius, Minutes, Moment, minutes};

/// A way is worth telling that gains so much.
///
/// ASSUMPTION: judgement: less than any rise is sure to.
const WORTH: Minutes = minutes(10.0);
/// Bread that waits so much shorter for its table is fresher.
///
/// ASSUMPTION: judgement.
const FRESHER: Minutes = minutes(60.0);
/// How many times the yeast, to see whether that helps.
const MORE: [f64; 4] = [1.25, 1.5, 2.0, 2.5];
const LESS: [f64; 3] = [0.75, 0.5, 0.3];

/// What would be done.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Lever {
    /// A rise stands in air so warm.
    Place {
        /// The bake.
        bake: usize,
        /// The rise.
        step: StepId,
        /// How warm it is there.
        air: Celsius,
        /// From when on; none where that is now.
        from: Option<Moment>,
    },
    /// A rise is put into the fridge for a time.
    Fridge {
        /// The bake.
        bake: usize,
        /// The rise.
        step: StepId,
        /// From when on; none where that is now.
        from: Option<Moment>,
        /// When it comes out.
        out: Moment,
        /// When the bake begins for it, if it hasn't.
        begin: Option<Moment>,
    },
    /// So many times the yeast.
    Yeast {
        /// The bake.
        bake: usize,
        /// How many times its own, before scales round it.
        times: f64,
    },
    /// A filling is made the day before.
    DayBefore {
        /// The bake.
        bake: usize,
        /// The filling.
        component: ComponentId,
        /// When its making begins.
        from: Moment,
        /// When it is in the fridge.
        to: Moment,
        /// How many days it keeps there, at least.
        days: u8,
    },
}

/// A way to a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// What would be done.
    pub lever: Lever,
    /// When everything is on the table then.
    pub table: Estimate<Moment>,
    /// How much is amiss then; nothing where every wish is kept.
    pub late: Minutes,
    /// How long everything then waits for a wished table, beyond its buffer.
    pub early: Minutes,
    /// Whether a dough with egg or milk would stand out longer than is good.
    pub is_long_out: bool,
    /// What puts it into practice, each of a bake; none where it is to be done when its time has come.
    pub intents: Vec<(usize, Intent)>,
}

/// The ways that help, best first; `None` where the search was left off.
pub async fn levers(bakes: &[&Bake], now: Moment, rest: Rest<'_>) -> Option<Vec<Way>> {
    let states: Vec<&State> = bakes.iter().map(|bake| bake.state()).collect();
    let trials = Trials::of(&states, now, rest).await.ok()?;
    let case = Case {
        bakes: states.iter().map(|state| Cow::Borrowed(*state)).collect(),
        wishes: together(&states),
    };
    let was = trials.tried(&case, As::Wished).await.ok()?;
    let mut search = Search {
        bakes,
        case,
        trials,
        was,
        ways: Vec::new(),
    };
    search.look().await.ok()?;
    let mut ways = search.ways;
    ways.sort_by(|one, other| {
        let by_late = one.late.get().total_cmp(&other.late.get());
        by_late.then(one.table.likely().cmp(&other.table.likely()))
    });
    Some(ways)
}

struct Search<'a> {
    bakes: &'a [&'a Bake],
    case: Case<'a>,
    trials: Trials<'a>,
    was: Trial,
    ways: Vec<Way>,
}

impl Search<'_> {
    async fn look(&mut self) -> Result<(), LeftOff> {
        for bake in 0..self.bakes.len() {
            let formula = self.bakes[bake].state().formula.clone();
            for step in &formula.steps {
                if matches!(step.length, Length::Ferment { .. }) {
                    self.place(bake, step).await?;
                    self.fridge(bake, step).await?;
                }
            }
            if !self.bakes[bake].state().has_begun() {
                self.yeast(bake, &formula).await?;
                self.day_before(bake, &formula).await?;
            }
        }
        Ok(())
    }

    /// Whether something would rather come later than it does: after a time away, or nearer to the table.
    fn wants_delay(&self) -> bool {
        let pinned = self.bakes.iter().any(|bake| !bake.state().pins.is_empty());
        let is_held = pinned || !self.case.wishes.away.is_empty();
        (is_held && !self.was.is_kept()) || self.was.early >= FRESHER
    }

    async fn yeast(&mut self, bake: usize, formula: &Formula) -> Result<(), LeftOff> {
        let scales = self.bakes[bake].state().kitchen.scales;
        let before = self.ways.len();
        let less = if self.wants_delay() { &LESS[..] } else { &[] };
        for &times in MORE.iter().chain(less) {
            let other = formula.with_yeast(times, Some(&scales));
            if other == *formula {
                continue;
            }
            let intent = Intent::Refit(Box::new(other));
            let mut after = self.bakes[bake].clone();
            let Ok(entries) = decide(&after, intent.clone(), self.trials.now) else {
                continue;
            };
            after.append(entries);
            let trial = self.with(bake, after.state().clone()).await?;
            let rises = formula.steps.iter();
            let rises = rises.filter(|step| matches!(step.length, Length::Ferment { .. }));
            let longest = rises
                .filter_map(|step| span(&trial, bake, step.id))
                .map(|(start, end)| end - start)
                .fold(minutes(0.0), Minutes::max);
            let lever = Lever::Yeast { bake, times };
            self.offer(bake, &trial, lever, None, longest, vec![(bake, intent)]);
            // No more than does it.
            if trial.is_kept() && self.ways.len() > before {
                break;
            }
        }
        self.keep_best(before);
        Ok(())
    }

    async fn with(&self, bake: usize, state: State) -> Result<Trial, LeftOff> {
        let mut case = self.case.clone();
        case.bakes[bake] = Cow::Owned(state);
        self.trials.tried(&case, As::Wished).await
    }

    fn helps(&self, trial: &Trial) -> bool {
        let sooner = self.was.late - trial.late;
        let earlier = |plan: &Plan| plan.end.likely();
        if !self.was.is_kept() {
            trial.is_kept() || sooner >= WORTH
        } else if self.case.wishes.table.is_some() {
            trial.is_kept() && self.was.early - trial.early >= FRESHER
        } else {
            let ends = (
                self.was.plan.as_ref().map(earlier),
                trial.plan.as_ref().map(earlier),
            );
            trial.is_kept() && matches!(ends, (Some(was), Some(is)) if was - is >= WORTH)
        }
    }

    /// Takes a way up if it helps, and leaves no filling out for longer than it may be, or
    /// than it would be whatever is wished.
    fn offer(
        &mut self,
        bake: usize,
        trial: &Trial,
        lever: Lever,
        stay: Option<(Moment, Moment)>,
        rises_out: Minutes,
        intents: Vec<(usize, Intent)>,
    ) {
        let Some(plan) = trial.plan.as_ref().filter(|_| self.helps(trial)) else {
            return;
        };
        for (of, bake_of) in self.bakes.iter().enumerate() {
            let state = bake_of.state();
            let out = |plan: Option<&Plan>, stay| {
                let steps = plan
                    .and_then(|plan| plan.of(of))
                    .map(|outline| outline.steps);
                let steps = steps.unwrap_or_default();
                longest_out(state, &steps, stay, self.trials.now)
            };
            let stay = stay.filter(|_| of == bake);
            let (is, anyway) = (out(Some(plan), stay), out(self.trials.free.as_ref(), None));
            if is > out_limit(state.kitchen.air) && is - anyway > minutes(1.0) {
                return;
            }
        }
        let formula = &self.bakes[bake].state().formula;
        self.ways.push(Way {
            lever,
            table: plan.end,
            late: trial.late,
            early: trial.early,
            is_long_out: is_long_for_egg_or_milk(formula, rises_out),
            intents,
        });
    }

    /// Of the ways since a place only the best: the first of those that keep all, or that with least amiss.
    fn keep_best(&mut self, since: usize) {
        let found = self.ways.split_off(since);
        let amiss = |way: &Way| (way.late, way.early);
        let better = |best: Way, other: Way| {
            if amiss(&other) < amiss(&best) {
                other
            } else {
                best
            }
        };
        self.ways.extend(found.into_iter().reduce(better));
    }
}

fn span(trial: &Trial, bake: usize, step: StepId) -> Option<(Moment, Moment)> {
    span_in(trial.plan.as_ref()?, bake, step)
}

fn span_in(plan: &Plan, bake: usize, step: StepId) -> Option<(Moment, Moment)> {
    let mut items = plan.items.iter();
    let item = items.find(|item| item.what == What::Step(bake, step))?;
    Some((item.start, item.end))
}
