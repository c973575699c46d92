//! What would have to be wished instead of something that contradicts the rest.
//!
//! It is looked for one wish at a time, with all others as they are, in steps of five minutes,
//! halving what is left to look through. That finds the nearest where a smaller change is never better
//! than a larger one, which is so but for rare knots of several bakes. Whatever is found is planned as
//! the app would plan it, and offered only if that keeps every wish.

use super::{Nearest, Question};
use crate::bake::{State, Wishes};
use crate::estimate::Estimate;
use crate::formula::StepId;
use crate::kitchen::MOST_FRIDGE_HOLDS;
use crate::schedule::plan::tasks::room::room;
use crate::schedule::plan::timetable::{away, buffer_of};
use crate::schedule::plan::ways::trial::{As, Case, LeftOff, Trial};
use crate::schedule::plan::{Margin, Plan, What};
use crate::units::{Moment, minutes};

/// How many steps farther something is tried that was nearly right.
///
/// What was found by plans as soon as can be may have to give way to the app's own by one of them; two more are for
/// rises whose lengths hang on when they start.
const NEAR_STEPS: i32 = 3;
/// Room for how many more is tried at most: beyond that a fridge is another one.
const MORE_ROOM: u32 = 3;

impl<'a> Question<'a> {
    pub(super) async fn later(&self, was: Moment) -> Result<Option<Nearest>, LeftOff> {
        let is_for = |state: &State| state.wishes.table == Some(was);
        // Late as it is, it keeps its place among the tables.
        let late = self.trials.tried(&self.as_it_is(), As::Soonest).await?;
        let Some(plan) = &late.plan else {
            return Ok(None);
        };
        let ready = |plan: &Plan| {
            let of = (0..self.bakes.len()).filter(|&bake| is_for(self.bakes[bake]));
            let ends = of.filter_map(|bake| Some(plan.of(bake)?.table));
            ends.max_by_key(Estimate::likely)
        };
        let Some(free) = ready(plan) else {
            return Ok(None);
        };
        let soonest = free.likely().up_to_five();
        let table = |at, safely| Nearest::Table { was, at, safely };
        for more in 0..NEAR_STEPS {
            let at = later_by(soonest, more);
            let kept = self.moved_to(&table(at, None), was, &late).await?;
            let Some(kept) = kept.and_then(|kept| ready(kept.plan.as_ref()?)) else {
                continue;
            };
            let safely = (free.likely() + buffer_of(&kept)).up_to_five();
            let safe = table(safely, None);
            let is_safe = safely > at && self.moved_to(&safe, was, &late).await?.is_some();
            return Ok(Some(table(at, is_safe.then_some(safely))));
        }
        Ok(None)
    }

    /// What comes of another table, if that is kept. A table that is missed for a reason of its own, as everything was when
    /// it went as soon as it can, may be missed still, and no later than that.
    pub(super) async fn moved_to(
        &self,
        table: &Nearest,
        was: Moment,
        soonest: &Trial,
    ) -> Result<Option<Trial>, LeftOff> {
        let trial = self.trials.tried(&self.with(table), As::Wished).await?;
        let others = soonest.margins.iter().filter(|other| other.table != was);
        let anyway = others.fold(minutes(0.0), |all, other| all + other.late());
        let is_late = |margin: &Margin| {
            let other = |other: &&Margin| other.table == margin.table && other.table != was;
            let before = soonest.margins.iter().find(other).map(Margin::late);
            margin.late() > before.unwrap_or(minutes(0.0)) + minutes(0.5)
        };
        let keeps = !trial.margins.iter().any(is_late) && trial.is_kept_but(anyway);
        Ok(Some(trial).filter(|_| keeps))
    }

    /// Room for one more in the fridge, or for as few more as will do.
    pub(super) async fn roomier(&self) -> Result<Option<Nearest>, LeftOff> {
        let holds = room(self.bakes);
        for holds in holds + 1..=(holds + MORE_ROOM).min(MOST_FRIDGE_HOLDS) {
            let roomier = Nearest::Room { holds };
            if self.trials.keeps(&self.with(&roomier), As::Wished).await? {
                return Ok(Some(roomier));
            }
        }
        Ok(None)
    }

    pub(super) async fn sooner(&self, was: Moment) -> Result<Option<Nearest>, LeftOff> {
        let is_bound = |wishes: &Wishes| wishes.not_before == Some(was);
        let free = self.as_it_is().wishing(&|wishes| {
            if is_bound(wishes) {
                wishes.not_before = None;
            }
        });
        let trial = self.trials.tried(&free, As::Soonest).await?;
        let (true, Some(soonest)) = (trial.is_kept(), &trial.plan) else {
            return Ok(None);
        };
        let ends = soonest.end.likely();
        // Where no table says how late something may begin, the soonest end does.
        let for_table = free.wishing(&|wishes| wishes.table = Some(wishes.table.unwrap_or(ends)));
        let latest = self.trials.tried(&for_table, As::Latest).await?;
        let plan = latest.plan.as_ref().unwrap_or(soonest);
        let waiting = self.bakes.iter().enumerate();
        let first = waiting
            .filter(|(_, state)| is_bound(&state.wishes))
            .filter_map(|(bake, state)| Some(plan.begin_of(bake, state)?.1))
            .min();
        let Some(first) = first else {
            return Ok(None);
        };
        for more in 0..NEAR_STEPS {
            let at = later_by(first.down_to_five(), -more).max(self.trials.now);
            let begin = Nearest::Begin { was, at };
            if at < was && self.trials.keeps(&self.with(&begin), As::Wished).await? {
                return Ok(Some(begin));
            }
        }
        Ok(None)
    }

    pub(super) async fn shorter(
        &self,
        away: (Moment, Moment),
        nearest: &mut Vec<Nearest>,
    ) -> Result<(), LeftOff> {
        let (from, to) = away;
        let with = |instead: Nearest| self.with(&instead);
        let stay = Nearest::Stay { away };
        if !self.trials.keeps(&with(stay), As::Soonest).await? {
            return Ok(());
        }
        let starts = from.max(self.trials.now);
        let steps = steps_between(starts, to);
        let back = |left: i32| match left {
            0 => stay,
            _ => Nearest::Back {
                away,
                at: later_by(to, left - steps),
            },
        };
        let leave = |left: i32| match left {
            0 => stay,
            _ => Nearest::Leave {
                away,
                at: later_by(from, steps - left),
            },
        };
        let before = nearest.len();
        let mut ways: Vec<&dyn Fn(i32) -> Nearest> = vec![&back];
        // Whoever is away already can't leave later.
        if from > self.trials.now {
            ways.push(&leave);
        }
        for way in ways {
            let found = self.farthest(steps, &|left| with(way(left))).await?;
            nearest.extend(found.filter(|&left| left > 0).map(way));
        }
        if nearest.len() == before && self.trials.keeps(&with(stay), As::Wished).await? {
            nearest.push(stay);
        }
        Ok(())
    }

    pub(super) async fn moved(
        &self,
        bake: usize,
        step: StepId,
        was: Moment,
    ) -> Result<Option<Nearest>, LeftOff> {
        let fixing = |at| Nearest::Fixed { bake, step, at };
        self.begun_else(bake, step, was, &fixing).await
    }

    /// A rise in the fridge from another moment on, or not at all.
    pub(super) async fn colder(
        &self,
        bake: usize,
        step: StepId,
        (from, to): (Moment, Moment),
    ) -> Result<Option<Nearest>, LeftOff> {
        let fixing = |at: Option<Moment>| {
            let stay = at.filter(|&at| at < to).map(|at| (at, to));
            Nearest::Retard { bake, step, stay }
        };
        self.begun_else(bake, step, from, &fixing).await
    }

    /// A rise in the fridge until somebody is back.
    pub(super) async fn out_later(
        &self,
        bake: usize,
        step: StepId,
        (from, to): (Moment, Moment),
        nearest: &mut Vec<Nearest>,
    ) -> Result<(), LeftOff> {
        let away = away(self.bakes).into_iter();
        for (_, back) in away.filter(|&(leave, back)| leave <= to && to < back) {
            let stay = Some((from, back));
            let later = Nearest::Retard { bake, step, stay };
            if self.trials.keeps(&self.with(&later), As::Wished).await? {
                nearest.push(later);
            }
        }
        Ok(())
    }

    /// The nearest moment for the beginning of a step that is kept, or none for it, if that is.
    async fn begun_else(
        &self,
        bake: usize,
        step: StepId,
        was: Moment,
        instead: &dyn Fn(Option<Moment>) -> Nearest,
    ) -> Result<Option<Nearest>, LeftOff> {
        let fixing = |at| self.with(&instead(at));
        let free = self.trials.tried(&fixing(None), As::Wished).await?;
        let (true, Some(plan)) = (free.is_kept(), &free.plan) else {
            return Ok(None);
        };
        let Some(start) = plan.item(What::Step(bake, step)).map(|item| item.start) else {
            return Ok(None);
        };
        let steps = steps_between(was.min(start), was.max(start));
        let towards = if start > was { 1 } else { -1 };
        let at = |left: i32| later_by(was, towards * (steps - left));
        let case = |left: i32| fixing(Some(at(left)));
        let found = self.farthest(steps, &case).await?.map(at);
        let at = match found {
            Some(at) => Some(at),
            // Where no whole step will do, the plan's own moment does.
            None => {
                let there = fixing(Some(start));
                let keeps = self.trials.keeps(&there, As::Wished).await?;
                keeps.then_some(start)
            }
        };
        Ok(Some(instead(at)))
    }

    /// How much can be left of something of which all can't: the most that is kept, if anything is.
    async fn farthest(
        &self,
        all: i32,
        case: &dyn Fn(i32) -> Case<'a>,
    ) -> Result<Option<i32>, LeftOff> {
        let (mut can, mut cannot) = (0, all);
        while cannot - can > 1 {
            let middle = (can + cannot) / 2;
            if self.trials.keeps(&case(middle), As::Soonest).await? {
                can = middle;
            } else {
                cannot = middle;
            }
        }
        for less in 0..NEAR_STEPS.min(can + 1) {
            if self.trials.keeps(&case(can - less), As::Wished).await? {
                return Ok(Some(can - less));
            }
        }
        Ok(None)
    }
}

fn later_by(moment: Moment, fives: i32) -> Moment {
    moment + minutes(5.0 * f64::from(fives))
}

/// How many steps of five minutes reach from one moment to another, at least one.
fn steps_between(from: Moment, to: Moment) -> i32 {
    (((to - from).get() / 5.0).ceil() as i32).max(1)
}
