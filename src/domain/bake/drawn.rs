//! A rise as it can be drawn: what has become of the dough so far, and what will.

use super::progress::How;
use super::rising::Ferment;
use super::state::State;
use crate::estimate::Estimate;
use crate::formula::StepId;
use crate::units::{Celsius, Moment};
use crate::yeast::proof::{Point, Proof};

/// So many steps are enough for a smooth line on a phone.
const STEPS: f64 = 16.0;

/// A rise from its start to its end.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawn {
    /// The dough from the start to the late end of its window, or to now where that is later.
    ///
    /// Never empty and in order of time; one of them is now. Where something was found out there are two: what was believed until then, and what was found.
    pub points: Vec<Point>,
    /// When it should be ready.
    pub window: Estimate<Moment>,
    /// Its folds: those to come, then those that were made.
    pub folds: Vec<Moment>,
    /// The temperatures that were taken while it rose.
    pub readings: Vec<(Moment, Celsius)>,
}

impl State {
    /// How a step rises that goes on, or would if it started now.
    ///
    /// `None` for what doesn't rise, has risen, or is too cold ever to rise.
    #[must_use]
    pub fn drawn(&self, step: StepId, now: Moment) -> Option<Drawn> {
        let step = self.formula.step(step)?;
        let ferment = Ferment::of(step, self.kitchen.altitude)?;
        let progress = self.progress(step.id);
        if progress.ended.is_some() {
            return None;
        }
        let running = self.forecast(step.id, now);
        let forecast = running.unwrap_or_else(|| self.forecast_if_started(step, now));
        if forecast.stalls {
            return None;
        }
        // By a clock that was put back, it started in what is still to come.
        let (start, now) = (forecast.start, now.max(forecast.start));
        let end = forecast.window.high().max(now);
        let step_length = ((end - start).get() / STEPS).max(1e-3);
        let mut points = Vec::new();
        let mut trace = |proof: &Proof, from: Moment, until: Moment| {
            let steps = ((until - from).get() / step_length).ceil();
            points.extend(proof.trace(from, until, steps.clamp(1.0, STEPS) as u16));
        };
        let ferment = self.today(step, ferment, start);
        let mut from = start;
        let mut believed = |proof: &Proof, until| {
            trace(proof, from, until);
            from = until;
        };
        let (proof, _) = self.proof_after(step, ferment, start, None, &mut believed);
        let now = now.max(from);
        trace(&proof, from, now);
        trace(&proof, now, end.max(now));

        let mut folds = forecast.folds;
        for fold in &progress.folds {
            if fold.how == How::Done {
                folds.push(fold.at);
            }
        }
        let mut readings = Vec::new();
        for taken in &self.doughs {
            if taken.of == step.component && taken.at > start {
                readings.push((taken.at, taken.temperature));
            }
        }
        Some(Drawn {
            points,
            window: forecast.window,
            folds,
            readings,
        })
    }
}
