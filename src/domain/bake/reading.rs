//! What a thermometer in the middle does to a forecast.

use super::forecast::Forecast;
use super::progress::Reading;
use super::state::State;
use crate::formula::StepId;
use crate::thermal::cooling::{FIRST_STAGE, WARM};
use crate::units::Moment;

impl State {
    /// The newest reading in the middle of a step's pieces, taken since it last started.
    #[must_use]
    pub fn core_reading(&self, step: StepId) -> Option<Reading<StepId>> {
        let since = self.progress(step).open_since?;
        let mut newest_first = self.cores.iter().rev();
        newest_first
            .find(|reading| reading.of == step && reading.at >= since)
            .copied()
    }

    /// Whether a thermometer has shown, in time, that a filling is through the first stage of its cooling.
    #[must_use]
    pub fn is_through_first_stage(&self, step: StepId) -> bool {
        let Some(start) = self.progress(step).open_since else {
            return false;
        };
        let in_time = start..=start + FIRST_STAGE;
        self.cores.iter().any(|reading| {
            reading.of == step && reading.temperature <= WARM && in_time.contains(&reading.at)
        })
    }

    /// Whether a thermometer has shown that a step is over, and nobody said "not yet" since.
    pub(super) fn is_read_off(&self, forecast: &Forecast) -> bool {
        self.core_reading(forecast.step).is_some_and(|reading| {
            forecast.window.high() == reading.at && forecast.look <= reading.at
        })
    }

    /// The same, of a step that started at `start`: what was read before is no reading of it.
    pub(super) fn reading_since(&self, step: StepId, start: Moment) -> Option<Reading<StepId>> {
        self.core_reading(step)
            .filter(|reading| reading.at >= start)
    }
}
