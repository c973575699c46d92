//! When each step will end, as far as today's temperatures tell.
//!
//! A forecast is derived from the state and never kept. It is redone whenever a
//! temperature changes, also in the middle of a step: the part of a proof that
//! lies before the change is integrated along the temperatures of that time, so
//! what has been proofed stays proofed.

use super::course::Going;
use super::hot_body::HotBody;
use super::progress::Progress;
use super::state::State;
use crate::estimate::Estimate;
use crate::formula::{Length, Step, StepId, StepKind};
use crate::kitchen::Place;
use crate::thermal::cooling;
use crate::thermal::probe::window_after;
use crate::units::{Celsius, Minutes, Moment, Share};
use crate::yeast::proof::Proof;
use crate::yeast::thin_air;

/// In this share of a rise, its last, a fold knocks out what the dough can't make good. ASSUMPTION: judgement.
const NO_FOLD: f64 = 0.25;

/// What a window mostly rests on, so that a change can be explained.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reason {
    /// The formula says how long.
    Formula,
    /// The yeast, in a dough of this temperature now, in air or water of this temperature.
    Yeast {
        /// The dough now.
        dough: Celsius,
        /// What surrounds it.
        air: Celsius,
        /// Where that is.
        place: Place,
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
    /// When it should end: not before it comes out of the fridge, where that is known.
    pub window: Estimate<Moment>,
    /// When it is likely ready, wherever it is then.
    pub ripe: Moment,
    /// When to look whether it has ended: the likely moment, but the early one
    /// for what is in the oven, the moment to take it out for what is in the fridge, when somebody is there for a step in the
    /// fridge, and later after "not yet".
    pub look: Moment,
    /// How much of it is over, by what has happened and not by the clock.
    pub progress: Share,
    /// Moments to fold that are still to come.
    pub folds: Vec<Moment>,
    /// For a rise that was put into the fridge: when it should come out, if it isn't ready there before.
    pub out_by: Option<Moment>,
    /// What the window rests on.
    pub reason: Reason,
    /// Whether it is too cold for a rise, or too warm for what cools, ever to end.
    pub stalls: bool,
}

impl Forecast {
    /// The next fold, where it comes before the end.
    #[must_use]
    pub fn next_fold(&self) -> Option<Moment> {
        self.folds.first().copied().filter(|&fold| fold < self.look)
    }

    /// Whether a fold that was due before comes so late that the dough is better left alone.
    #[must_use]
    pub fn folds_too_late(&self, now: Moment) -> bool {
        let last = self.window.likely() - (self.window.likely() - self.start) * NO_FOLD;
        last <= now && self.folds.first().is_some_and(|&fold| fold < last)
    }
}

impl State {
    /// Since when a step goes on by itself, if it does.
    pub(super) fn running_since(&self, step: &Step) -> Option<Moment> {
        let progress = self.progress(step.id);
        let goes_on = progress.ended.is_none() && !step.is_hands();
        progress.open_since.filter(|_| goes_on)
    }

    pub(super) fn window(&self, step: &Step, going: &Going, start: Moment) -> Estimate<Moment> {
        match going {
            Going::Rises(proof) => proof.window(),
            Going::Cools(hot) => self.window_of_cooling(step, hot, hot.to, start),
            Going::Clock(length, _) => {
                let window = length.map(|length| start + length);
                let Length::Bake { oven, core, .. } = step.length else {
                    return window;
                };
                let wanted = self.core_wanted(core);
                let Some(reading) = self.reading_since(step.id, start) else {
                    return window;
                };
                let course = self.baking_course(oven, core, start, length.likely());
                let (at, core) = (reading.at, reading.temperature);
                window_after(&course, &window, None, &[], wanted, at, core)
            }
        }
    }

    /// When what cools comes to a temperature, by the newest reading in its middle.
    pub(super) fn window_of_cooling(
        &self,
        step: &Step,
        hot: &HotBody,
        to: Celsius,
        start: Moment,
    ) -> Estimate<Moment> {
        let begins = hot.begins(start);
        let Some(reading) = self.reading_since(step.id, begins) else {
            return hot.window(start, to, &hot.around);
        };
        let certain = hot.around.certain();
        let [before, passing] = [to, reading.temperature].map(|to| hot.window(start, to, &certain));
        let aside = hot.around.aside(begins).into_iter();
        let aside: Vec<_> = aside
            .map(|around| hot.likely_course(start, &around))
            .collect();
        let course = hot.likely_course(start, &certain);
        let (at, core) = (reading.at, reading.temperature);
        window_after(&course, &before, Some(&passing), &aside, to, at, core)
    }

    pub(super) fn forecast_from(
        &self,
        step: &Step,
        going: &Going,
        progress: &Progress,
        start: Moment,
        window: Estimate<Moment>,
        now: Moment,
    ) -> Forecast {
        let mut forecast = match going {
            Going::Rises(proof) => self.rises(step, proof, start, window, progress, now),
            Going::Clock(_, reason) => plain(step, start, window, now, *reason),
            Going::Cools(hot) => {
                let surroundings = hot.around.at(now);
                let cooling = Reason::Cooling { surroundings };
                Forecast {
                    stalls: window.likely() >= start + cooling::HORIZON,
                    ..plain(step, start, window, now, cooling)
                }
            }
        };
        // In the fridge it is looked at when it should come out: there it is ready too late, or never.
        forecast.out_by = forecast.out_by.filter(|&out| out <= forecast.look);
        forecast.look = forecast.out_by.unwrap_or(forecast.look);
        if step.retards_for().is_some() {
            // When it comes out is chosen: by the plan, or else as somebody is there who can, within the formula's hours.
            let back = self.back_by(forecast.look);
            let there = Some(back).filter(|&back| back <= window.high());
            forecast.look = progress.look_again.or(there).unwrap_or(forecast.look);
        } else if let Some(later) = progress.look_again {
            forecast.look = forecast.look.max(later);
        }
        forecast
    }

    /// A step in which yeast works.
    fn rises(
        &self,
        step: &Step,
        proof: &Proof,
        start: Moment,
        window: Estimate<Moment>,
        progress: &Progress,
        now: Moment,
    ) -> Forecast {
        Forecast {
            step: step.id,
            start,
            window,
            ripe: window.likely(),
            look: window.likely(),
            progress: proof.progress(now),
            folds: self.folds_to_come(step, proof, progress, window.likely() <= now),
            out_by: self.out_of_fridge_by(step),
            reason: Reason::Yeast {
                dough: proof.dough_at(now),
                air: proof.surroundings.at(now),
                place: self.place_of(step.id).unwrap_or(Place::Kitchen),
            },
            stalls: proof.stalls(),
        }
    }

    /// The folds of a rise that are still to come. A dough that has risen enough isn't folded any more.
    pub(super) fn folds_to_come(
        &self,
        step: &Step,
        proof: &Proof,
        progress: &Progress,
        is_risen: bool,
    ) -> Vec<Moment> {
        let folds = asked_folds(step).iter();
        // In thin air a fold keeps its place within the rise.
        let times = thin_air::times(self.kitchen.altitude);
        let folds = folds.filter(|_| !is_risen);
        let folds = folds.map(|&fold| proof.moment_when(fold * times));
        // Nobody folds a dough in the fridge.
        let cold = self.times_in_fridge(step, proof.start);
        let away = |fold: Moment| cold.iter().any(|&(from, to)| from <= fold && fold < to);
        let folds = folds.filter(|&fold| !away(fold));
        let mut folds: Vec<Moment> = folds.skip(progress.folds.len()).collect();
        if let (Some(next), Some(later)) = (folds.first_mut(), progress.fold_later) {
            *next = later.max(*next);
        }
        folds
    }
}

/// The folds that a formula asks of a step.
pub(super) fn asked_folds(step: &Step) -> &[Minutes] {
    match &step.length {
        Length::Ferment { folds, .. } => folds,
        _ => &[],
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
        ripe: window.likely(),
        look,
        progress: Share::clamped(over.get() / whole.get().max(1e-6)),
        folds: Vec::new(),
        out_by: None,
        reason,
        stalls: false,
    }
}
