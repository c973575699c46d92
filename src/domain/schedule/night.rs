//! Whether a bake needs hands in the night, and when to start it so that it doesn't.
//!
//! The night is from 23:00 to 6:00 by the baker's clock, and where there is a choice
//! an hour more at either end: common practice, no source. How long a bake takes
//! doesn't depend on when it starts, so another start only shifts its outline.

use super::outline::{Outline, Planned};
use crate::formula::{Draft, StepKind};
use crate::units::{Minutes, Moment, minutes};

/// The hour at which the night begins.
const FROM_HOUR: u32 = 23;
/// The hour at which it is over.
const TO_HOUR: u32 = 6;
/// How long the night lasts.
const NIGHT: Minutes = minutes(7.0 * 60.0);
/// Starts are tried at every half hour of a day.
const HALF_HOUR_MS: i64 = 30 * 60_000;
const TRIED: i64 = 48;

/// Hands that are needed in the night.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NightWork {
    /// When they are first needed in it.
    pub from: Moment,
    /// When they are free again for the rest of it.
    pub to: Moment,
    /// A start that spares the night, where there is one within a day.
    pub better: Option<Spared>,
}

/// A start that spares the night.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spared {
    /// When to start.
    pub start: Moment,
    /// When the bread then comes out of the oven.
    pub baked: Moment,
}

/// What an outline from `start` asks of hands in the first night that it asks anything of;
/// `hour_of` is the hour, from 0 to 23, that the baker's clock shows at a moment.
#[must_use]
pub fn night_work(
    formula: &Draft,
    outline: &Outline,
    start: Moment,
    hour_of: &dyn Fn(Moment) -> u32,
) -> Option<NightWork> {
    let work: Vec<&Planned> = outline
        .steps
        .iter()
        .filter(|planned| {
            let step = formula.step(planned.step);
            step.is_some_and(|step| step.is_hands())
        })
        .collect();
    // No work is as long as the night, so its two ends tell whether it touches it.
    let wakes = |planned: &Planned, later: Minutes, wider: u32| {
        [planned.start, planned.end].iter().any(|&moment| {
            let hour = hour_of(moment + later);
            hour >= FROM_HOUR - wider || hour < TO_HOUR + wider
        })
    };
    let at_night = work
        .iter()
        .filter(|planned| wakes(planned, minutes(0.0), 0));
    let from = at_night.clone().next()?.start;
    let to = at_night
        .filter(|planned| planned.start - from < NIGHT)
        .map(|planned| planned.end)
        .fold(from, Moment::max);
    let next_half_hour = (start.epoch_ms() / HALF_HOUR_MS + 1) * HALF_HOUR_MS;
    let later = |tried: i64| Moment::from_epoch_ms(next_half_hour + tried * HALF_HOUR_MS) - start;
    let spares = |wider: u32| {
        let mut tried = (0..TRIED).map(later);
        tried.find(|&later| !work.iter().any(|planned| wakes(planned, later, wider)))
    };
    let baked = outline.steps.iter().filter(|planned| {
        let step = formula.step(planned.step);
        step.is_some_and(|step| step.kind == StepKind::Bake)
    });
    let baked = baked.map(|planned| planned.end).max();
    let baked = baked.unwrap_or(outline.table.likely());
    let better = spares(1).or_else(|| spares(0)).map(|later| Spared {
        start: start + later,
        baked: baked + later,
    });
    Some(NightWork { from, to, better })
}
