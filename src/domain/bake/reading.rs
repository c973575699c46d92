//! What a thermometer in the middle does to a forecast.

use super::forecast::Forecast;
use super::progress::Reading;
use super::state::State;
use crate::formula::{Length, Step, StepId};
use crate::thermal::cooling::stages;
use crate::units::{Celsius, Minutes, Moment};

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

    /// The stages of cooling that no thermometer has shown, in time, that a filling is through: how cold, and within how
    /// long. Counted from when it was set to cool, which leaves its way down to 57 °C out, on the safe side.
    pub fn unproven_stages(&self, step: &Step) -> impl Iterator<Item = (Celsius, Minutes)> {
        let (id, start) = (step.id, self.progress(step.id).open_since);
        let all = match step.length {
            Length::Chill { from, .. } => stages(from),
            _ => &[],
        };
        all.iter().copied().filter(move |&(cold, within)| {
            let in_time = |at| start.is_some_and(|start| at >= start && at <= start + within);
            let mut read = self.cores.iter().filter(|reading| reading.of == id);
            !read.any(|reading| reading.temperature <= cold && in_time(reading.at))
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
