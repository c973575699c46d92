//! Ways to a wished table other than wishing otherwise.
//!
//! Each is reckoned as a plan of bakes that it has been done to, and told only if that plan is
//! better by enough and breaks no rule for food that spoils. What can be asked of a bake at once comes
//! with its intents; what has to be done when its time has come is advice, with its times.

mod again;
mod day_before;
mod rises;
mod yeast;

use std::borrow::Cow;

pub use again::still_helps;

use super::trial::{As, Case, LeftOff, Rest, Trial, Trials};
use crate::bake::{Bake, Intent, State, decide};
use crate::estimate::Estimate;
use crate::formula::{ComponentId, Length, StepId};
use crate::schedule::filled::{is_long_for_egg_or_milk, longest_out, out_limit};
use crate::schedule::plan::Margin;
use crate::schedule::plan::Plan;
use crate::schedule::plan::timetable::{away, table_of};
use crate::units::{Celsius, Minutes, Moment, minutes};

/// A way is worth telling that gains so much.
///
/// ASSUMPTION: judgement: less than any rise is sure to.
const WORTH: Minutes = minutes(10.0);
/// Bread that waits so much shorter for its table is fresher.
///
/// ASSUMPTION: judgement.
const FRESHER: Minutes = minutes(60.0);
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
        /// Whether that is warmer than where it stands otherwise; cooler, if not.
        is_warmer: bool,
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
        /// How many days it may stay there: the lower figure of [`Margin::days`](crate::bake::Margin::days).
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
    /// How that stands to each table, the soonest first.
    pub margins: Vec<Margin>,
    /// How much longer than it should something waits for the sake of the wishes, all such waits together.
    pub waits: Minutes,
    /// Whether it makes up for less than half of what is amiss, and of every table that is missed. So do all ways, then.
    pub is_little: bool,
    /// How long a bread then waits for its table, beyond its buffer, at most.
    pub early: Minutes,
    /// Whether a dough with egg or milk would stand out longer than is good.
    pub is_long_out: bool,
    /// When the bake begins then that it is of, if that can wait.
    pub begin: Option<Moment>,
    /// What puts it into practice, each of a bake; none where it is to be done when its time has come.
    pub intents: Vec<(usize, Intent)>,
}

impl Way {
    /// How long after their tables breads are ready then, all tables together.
    #[must_use]
    pub fn late(&self) -> Minutes {
        let late = self.margins.iter().map(Margin::late);
        late.fold(minutes(0.0), |all, late| all + late)
    }

    /// How far it is from what is wished; nothing where every wish is kept.
    #[must_use]
    pub fn amiss(&self) -> Minutes {
        self.late() + self.waits
    }
}

/// The ways that help, best first; `None` where the search was left off.
pub async fn levers(bakes: &[&Bake], now: Moment, rest: Rest<'_>) -> Option<Vec<Way>> {
    let mut search = Search::of(bakes, now, rest).await.ok()?;
    search.look().await.ok()?;
    let mut ways = search.ways;
    // What does little is told only where nothing does more.
    if ways.iter().any(|way| !way.is_little) {
        ways.retain(|way| !way.is_little);
    }
    ways.sort_by(|one, other| {
        let by_amiss = one.amiss().get().total_cmp(&other.amiss().get());
        by_amiss.then(one.table.likely().cmp(&other.table.likely()))
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

impl<'a> Search<'a> {
    async fn of(bakes: &'a [&'a Bake], now: Moment, rest: Rest<'a>) -> Result<Self, LeftOff> {
        let states: Vec<&State> = bakes.iter().map(|bake| bake.state()).collect();
        let trials = Trials::of(&states, now, rest).await?;
        let case = Case::of(&states, now);
        let was = trials.tried(&case, As::Wished).await?;
        Ok(Self {
            bakes,
            case,
            trials,
            was,
            ways: Vec::new(),
        })
    }

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

    /// When nobody is there.
    fn away(&self) -> Vec<(Moment, Moment)> {
        away(&self.case.states())
    }

    fn is_for_table(&self) -> bool {
        let mut tables = self.bakes.iter().map(|bake| table_of(bake.state()));
        tables.any(|table| table.is_some())
    }

    /// Whether something would rather come later than it does: after a time away, or nearer to the table.
    fn wants_delay(&self) -> bool {
        let pinned = self.bakes.iter().any(|bake| !bake.state().pins.is_empty());
        let is_held = pinned || !self.away().is_empty();
        (is_held && !self.was.is_kept()) || self.was.early >= FRESHER
    }

    /// A bake after something was asked of it; none where that is refused.
    fn asked(&self, bake: usize, intent: Intent) -> Option<State> {
        let mut after = self.bakes[bake].clone();
        let entries = decide(&after, intent, self.trials.now).ok()?;
        after.append(entries);
        Some(after.state().clone())
    }

    async fn with(&self, bake: usize, state: State) -> Result<Trial, LeftOff> {
        let mut case = self.case.clone();
        case.bakes[bake] = Cow::Owned(state);
        self.trials.tried(&case, As::Wished).await
    }

    fn helps(&self, trial: &Trial) -> bool {
        let sooner = self.was.amiss() - trial.amiss();
        let earlier = |plan: &Plan| plan.end.likely();
        if !self.was.is_kept() {
            trial.is_kept() || sooner >= WORTH
        } else if self.is_for_table() {
            trial.is_kept() && self.was.early - trial.early >= FRESHER
        } else {
            let ends = (
                self.was.plan.as_ref().map(earlier),
                trial.plan.as_ref().map(earlier),
            );
            trial.is_kept() && matches!(ends, (Some(was), Some(is)) if was - is >= WORTH)
        }
    }

    /// Whether it makes up for less than half of all that is amiss, and of each table that is missed.
    fn is_little(&self, trial: &Trial) -> bool {
        let mut both = self.was.margins.iter().zip(&trial.margins);
        let halves = |(was, is): (&Margin, &Margin)| was.is_late() && is.late() <= was.late() * 0.5;
        let all = trial.amiss() > self.was.amiss() * 0.5;
        !trial.is_kept() && all && !both.any(halves)
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
        let state = self.bakes[bake].state();
        let formula = &state.formula;
        self.ways.push(Way {
            begin: plan.begin_of(bake, state).map(|(_, at)| at),
            lever,
            table: plan.end,
            margins: trial.margins.clone(),
            waits: trial.waits,
            is_little: self.is_little(trial),
            early: trial.early,
            is_long_out: is_long_for_egg_or_milk(formula, rises_out),
            intents,
        });
    }

    /// Of the ways since a place only the best: the first of those that keep all, or that with least amiss.
    fn keep_best(&mut self, since: usize) {
        let found = self.ways.split_off(since);
        let amiss = |way: &Way| (way.amiss(), way.early);
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
