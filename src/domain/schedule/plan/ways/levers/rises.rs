//! A rise somewhere warmer or cooler, or in the fridge for a time.

use std::borrow::Cow;

use super::{FRESHER, Lever, Search};
use crate::bake::{Intent, State, Supposed};
use crate::estimate::Estimate;
use crate::formula::{Step, StepId};
use crate::kitchen::Place;
use crate::schedule::plan::ways::trial::{LeftOff, Trial};
use crate::schedule::plan::{Item, Plan};
use crate::units::{Celsius, Minutes, Moment, celsius, minutes};

/// How warm a place for a rise is that is made warm.
///
/// ASSUMPTION: judgement, what proofers are set to.
const WARM: Celsius = celsius(28.0);
/// How warm a cool room is.
///
/// ASSUMPTION: judgement: a cellar, a bedroom in winter.
const COOL: Celsius = celsius(16.0);
/// A place is another only if it is so much warmer or cooler, in K.
///
/// ASSUMPTION: judgement: a kitchen differs by as much from its table to its shelf.
const OTHER_K: f64 = 3.0;
/// For how many hours a dough whose rise goes on is put into the fridge, to see whether that helps: from an errand to
/// the longest night, errands an hour apart and what is longer an hour and a half to two.
///
/// ASSUMPTION: judgement.
const STAYS_NOW_H: [f64; 9] = [1.0, 2.0, 3.0, 4.5, 6.0, 8.0, 9.5, 11.0, 13.0];
/// For how many hours one whose rise is still to come is: only for so long that it is sure to be as cold as the fridge,
/// which what rises after it is planned for. From eight on an hour apart, for the shortest that keeps the table lets the
/// baker mix as late as can be.
///
/// ASSUMPTION: judgement.
const STAYS_TO_COME_H: [f64; 7] = [6.0, 8.0, 9.0, 10.0, 11.0, 12.0, 13.0];

impl Search<'_> {
    pub(super) async fn place(&mut self, bake: usize, step: &Step) -> Result<(), LeftOff> {
        let state = self.bakes[bake].state();
        if state.progress(step.id).ended.is_some() {
            return Ok(());
        }
        let since = state.progress(step.id).open_since.map(|_| self.trials.now);
        let here = match state.place_of(step.id) {
            Some(Place::Warm(air) | Place::Water(air)) => air,
            Some(Place::Fridge) => state.kitchen.fridge,
            _ => state.kitchen.air,
        };
        let cool = self.wants_delay().then_some(COOL);
        for air in [WARM].into_iter().chain(cool) {
            if (air - here).get().abs() < OTHER_K {
                continue;
            }
            let place = Place::Warm(air);
            let supposed = Supposed {
                step: step.id,
                place,
                since,
                stays: None,
            };
            let trial = self.with(bake, state.supposing(supposed)).await?;
            let Some(planned) = trial.step(bake, step.id) else {
                continue;
            };
            let from = since.is_none().then_some(planned.start);
            let intents = since.map(|_| (bake, Intent::Move(step.id, place)));
            let lever = Lever::Place {
                bake,
                step: step.id,
                air,
                is_warmer: air > here,
                from,
            };
            let out = planned.end - planned.start;
            let intents = intents.into_iter().collect();
            self.offer(bake, &trial, lever, None, out, intents);
        }
        Ok(())
    }

    pub(super) async fn fridge(&mut self, bake: usize, step: &Step) -> Result<(), LeftOff> {
        let state = self.bakes[bake].state();
        let stays = match state.progress(step.id).open_since {
            Some(_) => &STAYS_NOW_H[..],
            None => &STAYS_TO_COME_H[..],
        };
        self.fridge_for(bake, step, stays).await
    }

    /// The best of stays of so many hours.
    pub(super) async fn fridge_for(
        &mut self,
        bake: usize,
        step: &Step,
        stays: &[f64],
    ) -> Result<(), LeftOff> {
        let state = self.bakes[bake].state();
        let progress = state.progress(step.id);
        let is_cold = state.place_of(step.id) == Some(Place::Fridge);
        let is_planned = state.retards.contains_key(&step.id);
        if progress.ended.is_some() || !self.wants_delay() || is_cold || is_planned {
            return Ok(());
        }
        let since = progress.open_since.map(|_| self.trials.now);
        let before = self.ways.len();
        for &hours in stays {
            let stays = minutes(60.0 * hours);
            let (mut intents, mut begin) = (Vec::new(), None);
            let from = match since {
                Some(now) => {
                    intents.push(Intent::Move(step.id, Place::Fridge));
                    now
                }
                None => {
                    let Some(trial) = self.supposed(bake, step, stays).await? else {
                        continue;
                    };
                    let planned = trial.step(bake, step.id);
                    let (Some(start), Some(plan)) = (planned.map(|item| item.start), &trial.plan)
                    else {
                        continue;
                    };
                    let retard = Intent::PlanRetard(step.id, Some((start, start + stays)));
                    let Some(cold) = self.asked(bake, retard) else {
                        continue;
                    };
                    // So that all before it is done when the fridge wants it to, and not as without.
                    if let Some((first, at)) = self.begins(bake, cold, plan).await? {
                        intents.push(Intent::Pin(first, Some(at)));
                        begin = Some(at);
                    }
                    start
                }
            };
            let out = from + stays;
            intents.push(Intent::PlanRetard(step.id, Some((from, out))));
            // Tried as it is asked for, so that just that comes of it.
            let Some(after) = self.asked(bake, Intent::AtOnce(intents.clone())) else {
                continue;
            };
            let trial = self.with(bake, after.clone()).await?;
            let Some(&Item { start, end, .. }) = trial.step(bake, step.id) else {
                continue;
            };
            let rises = after.forecast(step.id, self.trials.now);
            let rises = rises.unwrap_or_else(|| after.forecast_if_started(step, start));
            let ripe = rises.ripe;
            // What is ready in the fridge is looked at by nobody, and somebody has to take it out.
            let mut away = self.away().into_iter();
            if ripe < out || away.any(|(from, to)| from < out && out < to) {
                continue;
            }
            let lever = Lever::Fridge {
                bake,
                step: step.id,
                from: since.is_none().then_some(from),
                out,
                begin,
            };
            let intents = intents.into_iter().map(|intent| (bake, intent)).collect();
            let outside = (end - start) - stays;
            let found = self.ways.len();
            self.offer(bake, &trial, lever, Some((from, out)), outside, intents);
            // However early it may be ready, it comes out then.
            for way in &mut self.ways[found..] {
                let (low, likely) = (way.table.low(), way.table.likely());
                let low = low.max(likely - (end - out));
                way.table = Estimate::new(low, likely, way.table.high(), way.table.basis());
            }
            let is_near = trial.is_kept() && trial.early < FRESHER;
            if is_near && self.ways.len() > before {
                break;
            }
        }
        self.keep_best(before);
        Ok(())
    }

    /// What comes of a stay from the beginning of a rise on that is still to come, if it helps.
    async fn supposed(
        &self,
        bake: usize,
        step: &Step,
        stays: Minutes,
    ) -> Result<Option<Trial>, LeftOff> {
        let supposed = Supposed {
            step: step.id,
            place: Place::Fridge,
            since: None,
            stays: Some(stays),
        };
        let state = self.bakes[bake].state().supposing(supposed);
        let trial = self.with(bake, state).await?;
        Ok(Some(trial).filter(|trial| self.helps(trial)))
    }

    /// With which step a bake that hasn't begun does, and when, for a retard that is planned of it.
    async fn begins(
        &self,
        bake: usize,
        state: State,
        planned: &Plan,
    ) -> Result<Option<(StepId, Moment)>, LeftOff> {
        if state.has_begun() {
            return Ok(None);
        }
        let mut case = self.case.clone();
        case.bakes[bake] = Cow::Owned(state);
        self.trials.begins(&case, bake, planned).await
    }
}
