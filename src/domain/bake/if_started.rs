//! How a step would go if it started at a moment, in the kitchen as it is now.

use super::course::Going;
use super::forecast::{Forecast, asked_folds};
use super::progress::Progress;
use super::state::State;
use crate::estimate::Estimate;
use crate::formula::{Length, Step};
use crate::units::{Minutes, Moment};
use crate::yeast::proof::Proof;

impl State {
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
        // Those of hands and waits are written in the formula.
        if matches!(step.length, Length::Hands(_) | Length::Wait(_)) {
            return self.reckoned_length(step, start, warming_since);
        }
        self.length_once(step, (start, warming_since), &|| {
            self.reckoned_length(step, start, warming_since)
        })
    }

    fn reckoned_length(
        &self,
        step: &Step,
        start: Moment,
        warming_since: Option<Moment>,
    ) -> Estimate<Minutes> {
        match self.going(step, start, warming_since) {
            Going::Clock(length, _) => length,
            going => {
                let window = self.window(step, &going, start);
                let ends = self.ends_outside(step, start);
                window.map(|ready| ends(ready) - start)
            }
        }
    }

    /// The rise of a step if it started at that moment; `None` where no yeast works.
    #[must_use]
    pub fn rise_if_started(
        &self,
        step: &Step,
        start: Moment,
        warming_since: Option<Moment>,
    ) -> Option<Proof> {
        match self.going(step, start, warming_since) {
            Going::Rises(proof) => Some(proof),
            Going::Clock(..) | Going::Cools(_) => None,
        }
    }

    /// The likely part of [`Self::length_if_warming_since`], without reckoning the window.
    pub(crate) fn likely_length(
        &self,
        step: &Step,
        start: Moment,
        warming_since: Option<Moment>,
    ) -> Minutes {
        match self.going(step, start, warming_since) {
            Going::Clock(length, _) => length.likely(),
            Going::Rises(proof) => {
                let ready = proof.moment_when(proof.range.likely());
                self.ends_outside(step, start)(ready) - start
            }
            Going::Cools(hot) => hot.likely_end(start) - start,
        }
    }

    /// The forecast of a step if it started at that moment.
    #[must_use]
    pub fn forecast_if_started(&self, step: &Step, start: Moment) -> Forecast {
        let nothing_yet = Progress::default();
        let going = self.going(step, start, None);
        let ripe = self.window(step, &going, start);
        let window = ripe.map(self.ends_outside(step, start));
        Forecast {
            ripe: ripe.likely(),
            ..self.forecast_from(step, &going, &nothing_yet, start, window, start)
        }
    }

    /// The folds of a step if it started at that moment: those of [`Self::forecast_if_started`], without reckoning its
    /// window.
    pub(crate) fn folds_if_started(&self, step: &Step, start: Moment) -> Vec<Moment> {
        if asked_folds(step).is_empty() {
            return Vec::new();
        }
        let Going::Rises(proof) = self.going(step, start, None) else {
            return Vec::new();
        };
        let is_risen = proof.moment_when(proof.range.likely()) <= start;
        self.folds_to_come(step, &proof, &Progress::default(), is_risen)
    }
}
