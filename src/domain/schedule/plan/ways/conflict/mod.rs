//! Which wishes contradict each other, and what would have to be wished instead.
//!
//! Of everything that is wished, and the bakes themselves, whatever can be left out without making
//! it feasible is left out, one after the other, until nothing can any more (a deletion filter).
//! What is left is irreducible: without any one of it the rest can be kept. It isn't always the
//! smallest set there is; bakes are tried first, then times away, so that few of them are in it.
//!
//! What would have to be wished instead, [`nearest`] looks for.

mod instead;
mod nearest;

use std::borrow::Cow;

pub use self::instead::{Asks, Nearest};
use super::trial::{As, Case, LeftOff, Rest, Trials};
use crate::bake::State;
use crate::formula::StepId;
use crate::schedule::plan::starts::let_go::ROOM_FOR_ALL;
use crate::schedule::plan::tasks::room::{could_fill, room};
use crate::schedule::plan::timetable::{away, not_before, tables};
use crate::sorted;
use crate::units::Moment;

/// Something that is wished, or has to be: what is claimed of the time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Claim {
    /// What a bake needs anyway.
    Bake(usize),
    /// Nobody in the kitchen from the one moment to the other.
    Away(Moment, Moment),
    /// A step of a bake fixed to a moment.
    Fixed(usize, StepId, Moment),
    /// A rise of a bake in the fridge from the one moment to the other.
    Retard(usize, StepId, Moment, Moment),
    /// Nothing begun before then.
    NotBefore(Moment),
    /// What is wished for that table on it by then.
    Table(Moment),
    /// No more in the fridge than fits: from when to when it is too full where that counts for nothing.
    Fridge(Option<(Moment, Moment)>),
}

/// Wishes that contradict each other.
#[derive(Debug, Clone, PartialEq)]
pub struct Conflict {
    /// Without any of these the rest can be kept.
    pub claims: Vec<Claim>,
    /// What could be wished instead of one of them.
    pub nearest: Vec<Nearest>,
}

/// Which wishes of some bakes contradict each other, if they can't all be kept; `None` where that couldn't be told.
pub async fn conflict(bakes: &[&State], now: Moment, rest: Rest<'_>) -> Option<Option<Conflict>> {
    let trials = Trials::of(bakes, now, rest).await.ok()?;
    let question = Question { bakes, trials };
    question.answered().await.ok()
}

/// Whether something that was to be wished instead would still be kept; `None` where that couldn't be told.
pub async fn still_kept(
    nearest: &Nearest,
    bakes: &[&State],
    now: Moment,
    rest: Rest<'_>,
) -> Option<bool> {
    let trials = Trials::of(bakes, now, rest).await.ok()?;
    // What has passed fixes nothing.
    let has_passed = match *nearest {
        Nearest::Fixed { at: Some(at), .. } => at < now,
        Nearest::Retard {
            stay: Some((_, to)),
            ..
        } => to <= now,
        _ => false,
    };
    if has_passed {
        return Some(false);
    }
    let question = Question { bakes, trials };
    let kept = match *nearest {
        Nearest::Table { was, .. } => {
            let late = question.as_it_is();
            let soonest = question.trials.tried(&late, As::Soonest).await.ok()?;
            let trial = question.moved_to(nearest, was, &soonest).await.ok()?;
            trial.is_some()
        }
        _ => {
            let case = question.with(nearest);
            question.trials.keeps(&case, As::Wished).await.ok()?
        }
    };
    Some(kept)
}

struct Question<'a> {
    bakes: &'a [&'a State],
    trials: Trials<'a>,
}

impl<'a> Question<'a> {
    async fn answered(&self) -> Result<Option<Conflict>, LeftOff> {
        let mut claims = self.claims();
        if self.is_kept(&claims).await? {
            return Ok(None);
        }
        loop {
            let before = claims.len();
            let mut place = 0;
            while place < claims.len() {
                let mut fewer = claims.clone();
                fewer.remove(place);
                if self.is_kept(&fewer).await? {
                    place += 1;
                } else {
                    claims = fewer;
                }
            }
            // A pass in which nothing could be left out any more shows that nothing can.
            if claims.len() == before {
                break;
            }
        }
        if let Some(place) = claims
            .iter()
            .position(|&claim| claim == Claim::Fridge(None))
        {
            let mut fuller = claims.clone();
            fuller.remove(place);
            let case = self.case(&fuller);
            let plan = self.trials.tried(&case, As::Soonest).await?.plan;
            let room = room(self.bakes);
            let full = plan.and_then(|plan| plan.fuller_than(room, &case.states()));
            claims[place] = Claim::Fridge(full);
        }
        let mut nearest = Vec::new();
        for &claim in claims.iter().rev() {
            match claim {
                Claim::Bake(_) => {}
                Claim::Fridge(_) => nearest.extend(self.roomier().await?),
                Claim::Table(at) => nearest.extend(self.later(at).await?),
                Claim::NotBefore(at) => nearest.extend(self.sooner(at).await?),
                Claim::Away(from, to) => self.shorter((from, to), &mut nearest).await?,
                Claim::Fixed(bake, step, at) => nearest.extend(self.moved(bake, step, at).await?),
                Claim::Retard(bake, step, from, to) => {
                    nearest.extend(self.colder(bake, step, (from, to)).await?);
                }
            }
        }
        // What can't come out while nobody is there may be no part of a contradiction that is there without it as well.
        for (bake, state) in self.bakes.iter().enumerate() {
            for (&step, &stay) in state.retards.iter() {
                self.out_later(bake, step, stay, &mut nearest).await?;
            }
        }
        Ok(Some(Conflict { claims, nearest }))
    }

    fn claims(&self) -> Vec<Claim> {
        let mut claims: Vec<Claim> = (0..self.bakes.len()).map(Claim::Bake).collect();
        claims.extend(could_fill(self.bakes).then_some(Claim::Fridge(None)));
        let away = away(self.bakes).into_iter();
        claims.extend(away.map(|(from, to)| Claim::Away(from, to)));
        for (bake, state) in self.bakes.iter().enumerate() {
            let pins = state.pins.iter();
            claims.extend(pins.map(|(&step, &at)| Claim::Fixed(bake, step, at)));
            let colds = state.retards.iter();
            claims.extend(colds.map(|(&step, &(from, to))| Claim::Retard(bake, step, from, to)));
        }
        let mut begins: Vec<Moment> = self
            .bakes
            .iter()
            .filter_map(|state| not_before(state))
            .collect();
        sorted::by_key(&mut begins, |&begins| begins);
        begins.dedup();
        claims.extend(begins.into_iter().map(Claim::NotBefore));
        claims.extend(tables(self.bakes).into_iter().map(Claim::Table));
        claims
    }

    async fn is_kept(&self, claims: &[Claim]) -> Result<bool, LeftOff> {
        let case = self.case(claims);
        // Whoever bakes nothing has every wish kept.
        if case.bakes.is_empty() {
            return Ok(true);
        }
        self.trials.keeps(&case, As::Soonest).await
    }

    /// Only with what is claimed.
    fn case(&self, claims: &[Claim]) -> Case<'a> {
        let counts = |claim: &Claim| matches!(claim, Claim::Fridge(_));
        let is_endless = could_fill(self.bakes) && !claims.iter().any(counts);
        let mut case = Case { bakes: Vec::new() };
        for (bake, state) in self.bakes.iter().enumerate() {
            if !claims.contains(&Claim::Bake(bake)) {
                continue;
            }
            let mut freed = Cow::Borrowed(*state);
            for (&step, &at) in state.pins.iter() {
                if !claims.contains(&Claim::Fixed(bake, step, at)) {
                    freed.to_mut().pins.remove(&step);
                }
            }
            for (&step, &(from, to)) in state.retards.iter() {
                if !claims.contains(&Claim::Retard(bake, step, from, to)) {
                    freed.to_mut().stay_instead(step, None);
                }
            }
            if is_endless {
                freed.to_mut().kitchen.fridge_holds = ROOM_FOR_ALL;
            }
            case.bakes.push(freed);
        }
        let away = claims.iter().filter_map(|claim| match *claim {
            Claim::Away(from, to) => Some((from, to)),
            _ => None,
        });
        let away: Vec<(Moment, Moment)> = away.collect();
        case.wishing(&|wishes| {
            wishes.away.clone_from(&away);
            let table = |&at: &Moment| claims.contains(&Claim::Table(at));
            wishes.table = wishes.table.filter(table);
            let begin = |&at: &Moment| claims.contains(&Claim::NotBefore(at));
            wishes.not_before = wishes.not_before.filter(begin);
        })
    }

    fn as_it_is(&self) -> Case<'a> {
        Case::of(self.bakes, self.trials.now)
    }

    /// With something else that could be wished.
    fn with(&self, instead: &Nearest) -> Case<'a> {
        match *instead {
            Nearest::Fixed { bake, step, at } => {
                let mut case = self.as_it_is();
                let pins = &mut case.bakes[bake].to_mut().pins;
                pins.remove(&step);
                pins.extend(at.map(|at| (step, at)));
                case
            }
            Nearest::Retard { bake, step, stay } => {
                let mut case = self.as_it_is();
                case.bakes[bake].to_mut().stay_instead(step, stay);
                case
            }
            Nearest::Room { holds } => {
                let mut case = self.as_it_is();
                for bake in &mut case.bakes {
                    bake.to_mut().kitchen.fridge_holds = holds;
                }
                case
            }
            _ => self.as_it_is().wishing(&|wishes| instead.edit(wishes)),
        }
    }
}
