//! Why a plan moved: of what happened since the one before, what explains it.

use super::{Both, NOTABLE, Why};
use crate::bake::{Bake, BakeId, Event, Forecast, Reason, State};
use crate::formula::{ComponentId, Length, StepId};
use crate::schedule::plan::What;
use crate::sorted;
use crate::units::{Celsius, Minutes, Moment, minutes};

/// What was said within this time is what the plan was redone for.
const FRESH: Minutes = minutes(1.0);

impl<'a> Both<'a> {
    /// Of what somebody did just now, the newest; else whatever was latest or earliest, be it done or not.
    ///
    /// Only what moves the same way as what is told: a plan can find another order for whatever reason, and then it
    /// says that, and nothing that would have moved it the other way.
    pub(super) fn why(&self, chain: &[What], told: Minutes) -> Why {
        if let Some(over) = self.over() {
            return over;
        }
        // What is off by most, against what explains less: off the other way, on time, or told long ago.
        let mut most: Option<(f64, Why)> = None;
        let mut rest: Option<(u8, Why)> = None;
        let news = self.news();
        // Whoever leaves something out late has let time go by.
        let mut gone_by = news.is_empty();
        for (at, bake, place) in news {
            let Some(why) = self.why_by(at, bake, place) else {
                continue;
            };
            let is_fresh = self.now - at < FRESH;
            let by_plan = match why {
                Why::Ready(_, by) | Why::Hands(_, by) => by.get(),
                _ => 0.0,
            };
            let why = self.against_forecast(why, at, bake, place);
            if why.leads() * told.get() < 0.0 {
                gone_by |= matches!(why, Why::LeftOut(_));
                continue;
            }
            let rank = match &why {
                Why::Folded(_) | Why::FoldLeftOut(_) => 2,
                Why::Ready(..) | Why::Hands(..) => {
                    let by = by_plan;
                    if by * told.get() < 0.0 || !self.is_before(bake, place, chain) {
                        continue;
                    }
                    if by != 0.0 && most.as_ref().is_none_or(|(most, _)| by.abs() > *most) {
                        most = Some((by.abs(), why));
                        continue;
                    }
                    2
                }
                _ if is_fresh && most.is_none() => return why,
                _ => 1,
            };
            if rest.as_ref().is_none_or(|(other, _)| rank < *other) {
                rest = Some((rank, why));
            }
        }
        let passing = self.passing(chain);
        let passing = passing.filter(|(why, _)| why.leads() * told.get() >= 0.0);
        let passed = passing.as_ref().map_or(0.0, |(_, by)| by.get());
        let passed = if told.get() > 0.0 { passed } else { 0.0 };
        let passing = passing.map(|(why, _)| why);
        // What was done explains what waits for it, which is later by about as much.
        let most = most.filter(|(most, _)| most + NOTABLE.get() > passed);
        let most = most.map(|(_, why)| why);
        most.or(passing)
            .or(rest.map(|(_, why)| why))
            .unwrap_or(if gone_by { Why::Time } else { Why::Anew })
    }

    /// What the logs have grown by, by its places in them, the newest first; a bake that is new is its start.
    fn news(&self) -> Vec<(Moment, usize, usize)> {
        let mut news = Vec::new();
        for (bake, known) in self.after.bakes.iter().enumerate() {
            let old = self
                .place_before(bake)
                .map_or(&[][..], |place| self.before.bakes[place].log());
            let same = known.log().iter().zip(old);
            let same = same.take_while(|(is, was)| is.at == was.at).count();
            let entries = known.log()[same..].iter().zip(same..);
            news.extend(entries.map(|(entry, place)| (entry.at, bake, place)));
        }
        sorted::by_key(&mut news, |&(at, _, place)| std::cmp::Reverse((at, place)));
        news
    }

    /// What ended by itself, against when it was likely to while it went on: a plan that was made after that expected it
    /// at any minute, so it was late by little against that, or even early.
    fn against_forecast(&self, why: Why, at: Moment, bake: usize, place: usize) -> Why {
        let Why::Ready(named, by) = why else {
            return why;
        };
        let late = match &self.after.bakes[bake].log()[place].event {
            // When a dough comes out of its night in the fridge is planned, and not likely.
            Event::Done { step } if !self.is_night(bake, *step) => {
                let forecast = self.forecast_before(at, bake, place, *step);
                forecast.zip(self.state(bake).progress(*step).ended)
            }
            _ => None,
        };
        let late = late.map_or(by, |(forecast, ended)| ended.at - forecast.window.likely());
        let late = minutes(late.get().round());
        let by = match by.get() {
            by if by > 0.0 => minutes(by.max(late.get())),
            by if by < 0.0 && late.get() > 0.0 => minutes(0.0),
            _ => by,
        };
        Why::Ready(named, by)
    }

    /// A bake that isn't planned any more.
    fn over(&self) -> Option<Why> {
        let mut gone = self.before.bakes.iter();
        let is_there = |id: &BakeId| self.after.bakes.iter().any(|known| known.id == *id);
        let gone = gone.position(|known| !is_there(&known.id))?;
        let name = self.before.names.get(gone);
        Some(Why::Ended(name.cloned().unwrap_or_default()))
    }

    fn why_by(&self, at: Moment, bake: usize, place: usize) -> Option<Why> {
        let is = self.state(bake);
        let log = self.after.bakes[bake].log();
        let event = &log[place].event;
        let named = |step: &StepId| self.named(bake, *step);
        if let Event::Started(_) = event {
            let name = self.after.names.get(bake);
            return Some(Why::Began(name.cloned().unwrap_or_default()));
        }
        let was = self.before.bakes[self.place_before(bake)?].state();
        match event {
            Event::Done { step } => {
                let planned = self.was(What::Step(bake, *step))?;
                let ended = is.progress(*step).ended?;
                let by = minutes((ended.at - planned.end).get().round());
                let is_hands = self.step(bake, *step)?.is_hands();
                let why = if is_hands { Why::Hands } else { Why::Ready };
                Some(why(named(step)?, by))
            }
            Event::Folded { step } => Some(Why::Folded(named(step)?)),
            Event::FoldSkipped { step } => Some(Why::FoldLeftOut(named(step)?)),
            Event::Skipped { step } => Some(Why::LeftOut(named(step)?)),
            Event::Reopened { step } => Some(Why::WentBack(named(step)?)),
            Event::Extended { step, by } => {
                let forecast = self.forecast_before(at, bake, place, *step);
                let look = forecast.map(|forecast| forecast.look);
                Some(Why::NotYet(named(step)?, put_off(at, *by, look)))
            }
            Event::FoldPutOff { step, by } => {
                let forecast = self.forecast_before(at, bake, place, *step);
                let fold = forecast.and_then(|forecast| forecast.folds.first().copied());
                Some(Why::FoldNotYet(named(step)?, put_off(at, *by, fold)))
            }
            Event::KitchenMeasured { air } => {
                let before = was.kitchen.air;
                (*air != before).then_some(Why::Kitchen(before, *air))
            }
            Event::KitchenChanged(kitchen) => {
                let (before, now) = (was.kitchen.fridge, kitchen.fridge);
                Some(if before == now {
                    Why::Equipment
                } else {
                    Why::Fridge(before, now)
                })
            }
            Event::DoughMeasured {
                component,
                temperature,
            } => self.dough(bake, was, *component, *temperature),
            Event::CoreMeasured { step, .. } => Some(Why::Core(named(step)?)),
            Event::RiseSeen { step, share, ago } => {
                let believed = was.forecast(*step, is.newest - *ago)?.progress;
                Some(Why::Looked(named(step)?, share.get() > believed.get()))
            }
            Event::Moved { step, place } => Some(Why::Stands(named(step)?, *place)),
            Event::Poured { step, held } => Some(Why::Poured(named(step)?, *held)),
            Event::Wished(_) => (was.wishes != is.wishes).then_some(Why::Wishes),
            Event::Pinned { step, at } => Some(Why::Fixed(named(step)?, *at)),
            Event::RetardPlanned { step, stay } => Some(Why::Retard(named(step)?, *stay)),
            Event::Refitted(_) => Some(Why::Refitted),
            Event::Since { entry, by } => {
                let of = log.get(*entry as usize)?;
                let by = minutes(by.get().round());
                Some(Why::Earlier(named(&of.event.step()?)?, by))
            }
            Event::Undone { entries } => match log.get(*entries.first()? as usize)?.event {
                Event::Undone { .. } => Some(Why::PutBack),
                _ => Some(Why::TakenBack),
            },
            Event::ClockSet { .. } => Some(Why::ClockSet),
            Event::Started(_)
            | Event::Picked { .. }
            | Event::OvenHot { .. }
            | Event::Marked { .. }
            | Event::PieceWeighed { .. }
            | Event::MassRemoved { .. }
            | Event::TimerSet { .. }
            | Event::TimerStopped { .. }
            | Event::Acknowledged { .. }
            | Event::Paused
            | Event::Resumed
            | Event::Finished
            | Event::Abandoned => None,
        }
    }

    /// The forecast that somebody knew who said something.
    fn forecast_before(
        &self,
        at: Moment,
        bake: usize,
        place: usize,
        step: StepId,
    ) -> Option<Forecast> {
        let known = &self.after.bakes[bake];
        let before = Bake::from_log(known.id.clone(), known.log()[..place].to_vec())?;
        before.state().forecast(step, at)
    }

    /// A dough, against the forecast of the rise that goes on, or else against its target.
    fn dough(
        &self,
        bake: usize,
        was: &State,
        component: ComponentId,
        measured: Celsius,
    ) -> Option<Why> {
        let is = self.state(bake);
        let mut rises = is.formula.steps.iter().filter(|step| {
            let yeast = matches!(step.length, Length::Ferment { .. });
            yeast && step.component == component && is.progress(step.id).ended.is_none()
        });
        let rise = rises.next()?;
        let forecast = was
            .forecast(rise.id, is.newest)
            .map(|forecast| forecast.reason);
        let expected = match forecast {
            Some(Reason::Yeast { dough, .. }) => dough,
            _ => is.formula.component(component)?.target?,
        };
        Some(Why::Dough(self.named(bake, rise.id)?, measured - expected))
    }
}

/// Logs say from when on something is put off; the baker, by how much: what was still to come goes off it.
fn put_off(at: Moment, by: Minutes, due: Option<Moment>) -> Minutes {
    let left = due.map_or(0.0, |due| (due - at).get().max(0.0));
    minutes((by.get() - left).round())
}
