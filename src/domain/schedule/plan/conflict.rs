//! Which wishes contradict each other, and what would have to be wished instead.
//!
//! Of everything that is wished, and the bakes themselves, whatever can be left out without making
//! it feasible is left out, one after the other, until nothing can any more (a deletion filter).
//! What is left is irreducible: without any one of it the rest can be kept. It isn't always the
//! smallest set there is; bakes are tried first, then times away, so that few of them are in it.
//!
//! What would have to be wished instead is looked for one wish at a time, with all others as they
//! are, in steps of five minutes, halving what is left to look through. That finds the nearest where
//! a smaller change is never better than a larger one, which is so but for rare knots of several bakes.
//! Whatever is found is planned as the app would plan it, and offered only if that keeps every wish.

use std::borrow::Cow;

use super::trial::{As, Case, LeftOff, Rest, Trials};
use super::wished::{buffer_of, together};
use super::{Plan, What};
use crate::bake::{State, Wishes};
use crate::formula::StepId;
use crate::units::{Minutes, Moment, minutes};

/// Moments are told in steps of five minutes.
const FIVE_MS: i64 = 5 * 60_000;
/// How many steps farther something is tried that was nearly right.
const MORE: i32 = 3;

/// Something that is wished, or has to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// What a bake needs anyway.
    Bake(usize),
    /// Nobody in the kitchen from the one moment to the other.
    Away(Moment, Moment),
    /// A step of a bake fixed to a moment.
    Fixed(usize, StepId, Moment),
    /// Nothing begun before then.
    NotBefore(Moment),
    /// Everything on the table by then.
    Table(Moment),
}

/// What could be wished instead, and would be kept.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Nearest {
    /// A later table: by the likely times, and with what it may become later.
    Table {
        /// The soonest.
        at: Moment,
        /// With its buffer.
        safely: Option<Moment>,
    },
    /// An earlier beginning.
    Begin {
        /// The latest that would do.
        at: Moment,
    },
    /// Being away, but only until then.
    Back {
        /// As it was wished.
        away: (Moment, Moment),
        /// The latest.
        at: Moment,
    },
    /// Being away, but only from then on.
    Leave {
        /// As it was wished.
        away: (Moment, Moment),
        /// The earliest.
        at: Moment,
    },
    /// Not being away.
    Stay {
        /// As it was wished.
        away: (Moment, Moment),
    },
    /// A step fixed to another moment, or to none.
    Fixed {
        /// The bake.
        bake: usize,
        /// Its step.
        step: StepId,
        /// The nearest.
        at: Option<Moment>,
    },
}

/// What a [`Nearest`] asks for.
#[derive(Debug, Clone, PartialEq)]
pub enum Asks {
    /// Of every bake.
    Wishes(Wishes),
    /// Of one bake.
    Pin(usize, StepId, Option<Moment>),
}

/// Wishes that contradict each other.
#[derive(Debug, Clone, PartialEq)]
pub struct Conflict {
    /// Without any of these the rest can be kept.
    pub parts: Vec<Part>,
    /// What could be wished instead of one of them.
    pub nearest: Vec<Nearest>,
}

impl Nearest {
    /// What it asks for, where this was wished before.
    #[must_use]
    pub fn asks(&self, wishes: &Wishes) -> Asks {
        let mut wishes = wishes.clone();
        let mut instead = |away: (Moment, Moment), by: Option<(Moment, Moment)>| {
            wishes.away.retain(|other| *other != away);
            wishes.away.extend(by);
            wishes.away.sort();
        };
        match *self {
            Self::Table { at, .. } => wishes.table = Some(at),
            Self::Begin { at } => wishes.not_before = Some(at),
            Self::Back { away, at } => instead(away, Some((away.0, at))),
            Self::Leave { away, at } => instead(away, Some((at, away.1))),
            Self::Stay { away } => instead(away, None),
            Self::Fixed { bake, step, at } => return Asks::Pin(bake, step, at),
        }
        Asks::Wishes(wishes)
    }
}

/// Which wishes of some bakes contradict each other; `None` where they can all be kept, or that
/// couldn't be told.
pub async fn conflict(bakes: &[&State], now: Moment, rest: Rest<'_>) -> Option<Conflict> {
    let trials = Trials::of(bakes, now, rest).await.ok()?;
    let question = Question {
        bakes,
        wishes: together(bakes),
        trials,
    };
    question.answered().await.ok()?
}

struct Question<'a> {
    bakes: &'a [&'a State],
    wishes: Wishes,
    trials: Trials<'a>,
}

impl<'a> Question<'a> {
    async fn answered(&self) -> Result<Option<Conflict>, LeftOff> {
        let mut parts = self.parts();
        if self.is_kept(&parts).await? {
            return Ok(None);
        }
        loop {
            let before = parts.len();
            let mut place = 0;
            while place < parts.len() {
                let mut fewer = parts.clone();
                fewer.remove(place);
                if self.is_kept(&fewer).await? {
                    place += 1;
                } else {
                    parts = fewer;
                }
            }
            // A pass in which nothing could be left out any more shows that nothing can.
            if parts.len() == before {
                break;
            }
        }
        let mut nearest = Vec::new();
        for &part in parts.iter().rev() {
            match part {
                Part::Bake(_) => {}
                Part::Table(_) => nearest.extend(self.later().await?),
                Part::NotBefore(at) => nearest.extend(self.sooner(at).await?),
                Part::Away(from, to) => self.shorter((from, to), &mut nearest).await?,
                Part::Fixed(bake, step, at) => nearest.extend(self.moved(bake, step, at).await?),
            }
        }
        Ok(Some(Conflict { parts, nearest }))
    }

    fn parts(&self) -> Vec<Part> {
        let mut parts: Vec<Part> = (0..self.bakes.len()).map(Part::Bake).collect();
        let away = self.wishes.away.iter();
        parts.extend(away.map(|&(from, to)| Part::Away(from, to)));
        for (bake, state) in self.bakes.iter().enumerate() {
            let pins = state.pins.iter();
            parts.extend(pins.map(|(&step, &at)| Part::Fixed(bake, step, at)));
        }
        parts.extend(self.wishes.not_before.map(Part::NotBefore));
        parts.extend(self.wishes.table.map(Part::Table));
        parts
    }

    async fn is_kept(&self, parts: &[Part]) -> Result<bool, LeftOff> {
        let mut case = Case {
            bakes: Vec::new(),
            wishes: Wishes::default(),
        };
        for (bake, state) in self.bakes.iter().enumerate() {
            if !parts.contains(&Part::Bake(bake)) {
                continue;
            }
            let fixed =
                |&(&step, &at): &(&StepId, &Moment)| parts.contains(&Part::Fixed(bake, step, at));
            case.bakes
                .push(if state.pins.iter().all(|pin| fixed(&pin)) {
                    Cow::Borrowed(*state)
                } else {
                    let mut freed = (*state).clone();
                    let kept = state.pins.iter().filter(fixed);
                    freed.pins = kept.map(|(&step, &at)| (step, at)).collect();
                    Cow::Owned(freed)
                });
        }
        for part in parts {
            match *part {
                Part::Away(from, to) => case.wishes.away.push((from, to)),
                Part::NotBefore(at) => case.wishes.not_before = Some(at),
                Part::Table(at) => case.wishes.table = Some(at),
                Part::Bake(_) | Part::Fixed(..) => {}
            }
        }
        // Whoever bakes nothing has every wish kept.
        if case.bakes.is_empty() {
            return Ok(true);
        }
        self.trials.keeps(&case, As::Soonest).await
    }

    fn wishing(&self, wishes: Wishes) -> Case<'a> {
        let bakes = self.bakes.iter().map(|state| Cow::Borrowed(*state));
        Case {
            bakes: bakes.collect(),
            wishes,
        }
    }

    fn fixing(&self, bake: usize, step: StepId, at: Option<Moment>) -> Case<'a> {
        let mut case = self.wishing(self.wishes.clone());
        let pins = &mut case.bakes[bake].to_mut().pins;
        pins.remove(&step);
        pins.extend(at.map(|at| (step, at)));
        case
    }

    async fn later(&self) -> Result<Option<Nearest>, LeftOff> {
        let with = |table| {
            self.wishing(Wishes {
                table,
                ..self.wishes.clone()
            })
        };
        let Some(plan) = self.trials.tried(&with(None), As::Soonest).await?.plan else {
            return Ok(None);
        };
        let soonest = up(plan.end.likely());
        for more in 0..MORE {
            let at = later_by(soonest, more);
            let trial = self.trials.tried(&with(Some(at)), As::Wished).await?;
            let (true, Some(kept)) = (trial.is_kept(), &trial.plan) else {
                continue;
            };
            let safely = up(plan.end.likely() + buffer_of(kept));
            let is_safe = safely > at && self.trials.keeps(&with(Some(safely)), As::Wished).await?;
            let safely = is_safe.then_some(safely);
            return Ok(Some(Nearest::Table { at, safely }));
        }
        Ok(None)
    }

    async fn sooner(&self, was: Moment) -> Result<Option<Nearest>, LeftOff> {
        let with = |not_before| {
            self.wishing(Wishes {
                not_before,
                ..self.wishes.clone()
            })
        };
        let free = self.trials.tried(&with(None), As::Soonest).await?;
        let (true, Some(soonest)) = (free.is_kept(), &free.plan) else {
            return Ok(None);
        };
        let by = self.wishes.table.unwrap_or(soonest.end.likely());
        let latest = self.trials.tried(&with(None), As::Latest(by)).await?;
        let plan = latest.plan.as_ref().unwrap_or(soonest);
        let waiting = self.bakes.iter().enumerate();
        let first = waiting
            .filter(|(_, state)| !state.has_begun())
            .filter_map(|(bake, _)| {
                start_of(plan, |what| matches!(what, What::Step(of, _) if of == bake))
            })
            .min();
        let Some(first) = first else {
            return Ok(None);
        };
        for more in 0..MORE {
            let at = later_by(down(first), -more).max(self.trials.now);
            if at < was && self.trials.keeps(&with(Some(at)), As::Wished).await? {
                return Ok(Some(Nearest::Begin { at }));
            }
        }
        Ok(None)
    }

    async fn shorter(
        &self,
        away: (Moment, Moment),
        nearest: &mut Vec<Nearest>,
    ) -> Result<(), LeftOff> {
        let (from, to) = away;
        let with = |instead: Nearest| match instead.asks(&self.wishes) {
            Asks::Wishes(wishes) => self.wishing(wishes),
            Asks::Pin(..) => self.wishing(self.wishes.clone()),
        };
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

    async fn moved(
        &self,
        bake: usize,
        step: StepId,
        was: Moment,
    ) -> Result<Option<Nearest>, LeftOff> {
        let free = self.fixing(bake, step, None);
        let free = self.trials.tried(&free, As::Wished).await?;
        let (true, Some(plan)) = (free.is_kept(), &free.plan) else {
            return Ok(None);
        };
        let Some(start) = start_of(plan, |what| what == What::Step(bake, step)) else {
            return Ok(None);
        };
        let steps = steps_between(was.min(start), was.max(start));
        let towards = if start > was { 1 } else { -1 };
        let at = |left: i32| later_by(was, towards * (steps - left));
        let case = |left: i32| self.fixing(bake, step, Some(at(left)));
        let found = self.farthest(steps, &case).await?.map(at);
        let at = match found {
            Some(at) => Some(at),
            // Where no whole step will do, the plan's own moment does.
            None => {
                let there = self.fixing(bake, step, Some(start));
                let keeps = self.trials.keeps(&there, As::Wished).await?;
                keeps.then_some(start)
            }
        };
        Ok(Some(Nearest::Fixed { bake, step, at }))
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
        for less in 0..MORE.min(can + 1) {
            if self.trials.keeps(&case(can - less), As::Wished).await? {
                return Ok(Some(can - less));
            }
        }
        Ok(None)
    }
}

fn start_of(plan: &Plan, of: impl Fn(What) -> bool) -> Option<Moment> {
    let mut items = plan.items.iter();
    Some(items.find(|item| of(item.what))?.start)
}

/// The next whole five minutes of a clock.
fn up(moment: Moment) -> Moment {
    let fives = (moment.epoch_ms() + FIVE_MS - 1).div_euclid(FIVE_MS);
    Moment::from_epoch_ms(fives * FIVE_MS)
}

/// The last ones.
fn down(moment: Moment) -> Moment {
    Moment::from_epoch_ms(moment.epoch_ms().div_euclid(FIVE_MS) * FIVE_MS)
}

fn later_by(moment: Moment, fives: i32) -> Moment {
    moment + five(fives)
}

fn five(times: i32) -> Minutes {
    minutes(5.0 * f64::from(times))
}

/// How many steps of five minutes reach from one moment to another, at least one.
fn steps_between(from: Moment, to: Moment) -> i32 {
    (((to - from).get() / 5.0).ceil() as i32).max(1)
}
