//! When each step will end, as far as today's temperatures tell.
//!
//! A forecast is derived from the state and never kept. It is redone whenever a
//! temperature changes, also in the middle of a step: the part of a proof that
//! lies before the change is integrated along the temperatures of that time, so
//! what has been proofed stays proofed.

use std::borrow::Cow;

use super::rising::Ferment;
use super::state::{Progress, State};
use crate::estimate::{Basis, Estimate};
use crate::formula::{Component, ComponentKind, Formula, Length, Step, StepId, StepKind};
use crate::thermal::cooling::{self, FilmSpread, cooling_window};
use crate::thermal::oven;
use crate::thermal::vessel::{Cooling, Surroundings, Vessel};
use crate::units::{Celsius, Grams, Millimetres, Minutes, Moment, Share, celsius};
use crate::yeast::proof::Proof;

/// The middle of a piece as it leaves the oven, at sea level: a little below boiling.
const OUT_OF_THE_OVEN: Celsius = celsius(95.0);
/// The water of an ice bath.
const ICE_BATH: Celsius = celsius(1.0);
/// How much earlier or later an oven is hot than its owner says. ASSUMPTION: judgement.
const OVEN_SPREAD: Share = crate::units::share(0.2);

/// What a window mostly rests on, so that a change can be explained.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reason {
    /// The formula says how long.
    Formula,
    /// The yeast, in a dough of this temperature now, in air of this temperature.
    Yeast {
        /// The dough now.
        dough: Celsius,
        /// What surrounds it.
        air: Celsius,
    },
    /// Heat leaving something, in surroundings of this temperature.
    Cooling {
        /// What surrounds it.
        surroundings: Celsius,
    },
    /// The oven.
    Oven,
}

/// When a step that has started will end.
#[derive(Debug, Clone, PartialEq)]
pub struct Forecast {
    /// The step.
    pub step: StepId,
    /// When it started.
    pub start: Moment,
    /// When it should end.
    pub window: Estimate<Moment>,
    /// When to look whether it has ended: the likely moment, but the early one
    /// for what is in the oven, and later after "not yet".
    pub look: Moment,
    /// How much of it is over, by what has happened and not by the clock.
    pub progress: Share,
    /// Moments to fold that are still to come.
    pub folds: Vec<Moment>,
    /// What the window rests on.
    pub reason: Reason,
    /// Whether it is too cold for the step ever to end.
    pub stalls: bool,
}

impl State {
    /// The forecast of a step that goes on by itself and has started and not ended.
    #[must_use]
    pub fn forecast(&self, step: StepId, now: Moment) -> Option<Forecast> {
        let progress = self.progress(step);
        let start = progress.open_since?;
        let step = self.formula.step(step)?;
        if progress.ended.is_some() || step.is_hands() {
            return None;
        }
        Some(self.forecast_from(step, progress, start, now))
    }

    /// How long a step would take if it started at that moment, in the kitchen as it is now.
    #[must_use]
    pub fn length_if_started(&self, step: &Step, start: Moment) -> Estimate<Minutes> {
        self.length_if_warming_since(step, start, None)
    }

    /// The same when the step's dough will have begun to follow the kitchen, out
    /// of the mixer or out of the fridge, at a moment that is still to come.
    #[must_use]
    pub fn length_if_warming_since(
        &self,
        step: &Step,
        start: Moment,
        warming_since: Option<Moment>,
    ) -> Estimate<Minutes> {
        match &step.length {
            Length::Hands(range) | Length::Wait(range) => *range,
            Length::Ferment {
                reference_minutes: range,
                held,
                from_fridge,
                ..
            } => {
                let ferment = Ferment::new(range, *held, *from_fridge);
                let proof = self.proof(step, ferment, start, warming_since);
                proof.window().map(|end| end - start)
            }
            _ => {
                let forecast = self.forecast_if_started(step, start);
                forecast.window.map(|end| end - start)
            }
        }
    }

    /// The likely part of [`Self::length_if_started`], without reckoning the window.
    pub(crate) fn likely_length(&self, step: &Step, start: Moment) -> Minutes {
        let cooled = |vessel: &Vessel, from, to, around: &Surroundings| {
            let course = vessel.course(start, from, around);
            let cold = course.when_core_reaches(to, cooling::HORIZON);
            cold.map_or(cooling::HORIZON, |cold| cold - start)
        };
        match &step.length {
            Length::Ferment {
                reference_minutes: range,
                held,
                from_fridge,
                ..
            } => {
                let ferment = Ferment::new(range, *held, *from_fridge);
                let proof = self.proof(step, ferment, start, None);
                proof.moment_when(range.likely()) - start
            }
            Length::Chill {
                from,
                to,
                depth,
                cooling,
            } => {
                let filling = self.filling_of(step, *depth, *cooling);
                cooled(filling.likely(), *from, *to, &self.surroundings(*cooling))
            }
            Length::Cool { to } => {
                let vessel = Vessel::baked_piece(self.oven_piece());
                cooled(&vessel, OUT_OF_THE_OVEN, *to, &self.air())
            }
            _ => self.length_if_started(step, start).likely(),
        }
    }

    /// The forecast of a step if it started at that moment.
    #[must_use]
    pub fn forecast_if_started(&self, step: &Step, start: Moment) -> Forecast {
        let nothing_yet = Progress::default();
        self.forecast_from(step, &nothing_yet, start, start)
    }

    fn forecast_from(
        &self,
        step: &Step,
        progress: &Progress,
        start: Moment,
        now: Moment,
    ) -> Forecast {
        let mut forecast = match &step.length {
            Length::Ferment {
                reference_minutes: range,
                folds,
                held,
                from_fridge,
            } => {
                let ferment = Ferment::new(range, *held, *from_fridge);
                let proof = self.proof(step, ferment, start, None);
                rises(step, &proof, start, folds, progress, now)
            }
            Length::Chill {
                from,
                to,
                depth,
                cooling,
            } => {
                let filling = self.filling_of(step, *depth, *cooling);
                let around = self.surroundings(*cooling);
                let surroundings = around.at(now);
                let window = filling.window(*from, *to, &around, start);
                plain(step, start, window, now, Reason::Cooling { surroundings })
            }
            Length::Cool { to } => {
                let vessel = Vessel::baked_piece(self.oven_piece());
                let around = self.air();
                let surroundings = around.at(now);
                let window = cooling_window(&vessel, OUT_OF_THE_OVEN, *to, &around, start);
                plain(step, start, window, now, Reason::Cooling { surroundings })
            }
            Length::Bake { range, piece, .. } => {
                let range = oven::bake_window(range, *piece, self.oven_piece());
                let window = range.map(|length| start + length);
                plain(step, start, window, now, Reason::Oven)
            }
            Length::OvenHeats { .. } => {
                let likely = self.kitchen.oven_heats_in;
                let off = likely * OVEN_SPREAD.get();
                let range = Estimate::new(likely - off, likely, likely + off, Basis::Formula);
                let window = range.map(|length| start + length);
                plain(step, start, window, now, Reason::Oven)
            }
            Length::Wait(range) | Length::Hands(range) => {
                let window = range.map(|length| start + length);
                plain(step, start, window, now, Reason::Formula)
            }
        };
        if let Some(later) = progress.look_again {
            forecast.look = forecast.look.max(later);
        }
        forecast
    }

    fn filling_of(&self, step: &Step, depth: Millimetres, cooling: Cooling) -> Cow<'_, FilmSpread> {
        match self.filling(step.id) {
            Some(reckoned) => Cow::Borrowed(reckoned),
            // A step of another formula.
            None => Cow::Owned(filling(&self.formula, step, depth, cooling)),
        }
    }

    /// What one piece weighs as it goes into the oven: its dough and its share of the fillings.
    #[must_use]
    pub fn oven_piece(&self) -> Grams {
        let fillings: Grams = self
            .formula
            .components
            .iter()
            .filter(|component| component.kind == ComponentKind::Filling)
            .map(Component::mass)
            .sum();
        self.formula.pieces.mass + fillings * (1.0 / f64::from(self.formula.pieces.count))
    }

    /// The kitchen's air over time.
    #[must_use]
    pub fn air(&self) -> Surroundings {
        let mut readings = self.air.iter();
        let first = readings
            .next()
            .map_or(self.kitchen.air, |&(_, first)| first);
        readings.fold(Surroundings::constant(first), |air, &(at, to)| {
            air.changed(at, to)
        })
    }

    fn surroundings(&self, cooling: Cooling) -> Surroundings {
        match cooling {
            Cooling::Kitchen => self.air(),
            Cooling::Fridge => Surroundings::constant(self.kitchen.fridge),
            Cooling::IceBath => Surroundings::constant(ICE_BATH),
        }
    }
}

/// What a step chills, in its dish.
pub(super) fn filling(
    formula: &Formula,
    step: &Step,
    depth: Millimetres,
    cooling: Cooling,
) -> FilmSpread {
    let mass = formula.component_of(step).map(Component::mass);
    FilmSpread::of(Vessel::filling(mass.unwrap_or(Grams::MIN), depth, cooling))
}

/// A step in which yeast works.
fn rises(
    step: &Step,
    proof: &Proof,
    start: Moment,
    folds: &[Minutes],
    progress: &Progress,
    now: Moment,
) -> Forecast {
    let window = proof.window();
    // A dough that has risen enough isn't folded any more.
    let risen = window.likely() <= now;
    let folds = folds.iter().skip(progress.folds.len()).filter(|_| !risen);
    Forecast {
        step: step.id,
        start,
        window,
        look: window.likely(),
        progress: proof.progress(now),
        folds: folds.map(|&fold| proof.moment_when(fold)).collect(),
        reason: Reason::Yeast {
            dough: proof.dough_at(now),
            air: proof.surroundings.at(now),
        },
        stalls: proof.stalls(),
    }
}

/// A step that passes with the clock.
fn plain(
    step: &Step,
    start: Moment,
    window: Estimate<Moment>,
    now: Moment,
    reason: Reason,
) -> Forecast {
    let whole = window.likely() - start;
    let over = now - start;
    let look = if step.kind == StepKind::Bake {
        window.low()
    } else {
        window.likely()
    };
    Forecast {
        step: step.id,
        start,
        window,
        look,
        progress: Share::clamped(over.get() / whole.get().max(1e-6)),
        folds: Vec::new(),
        reason,
        stalls: false,
    }
}
