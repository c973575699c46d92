//! What surrounds a body over time, and how the body follows.

use super::{Mode, Vessel};
use crate::thermal::crossing::crossing;
use crate::units::{Celsius, Minutes, Moment};

/// The temperature around a body: constant, with changes at known moments.
///
/// ```
/// use domain::thermal::vessel::Surroundings;
/// use domain::units::{Moment, celsius, minutes};
///
/// let start = Moment::from_epoch_ms(0);
/// let kitchen_then_fridge =
///     Surroundings::constant(celsius(22.0)).changed(start + minutes(60.0), celsius(4.0));
/// assert_eq!(kitchen_then_fridge.at(start), celsius(22.0));
/// assert_eq!(kitchen_then_fridge.at(start + minutes(60.0)), celsius(4.0));
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Surroundings {
    first: Celsius,
    // In order of time, one entry a moment.
    changes: Vec<(Moment, Celsius)>,
}

impl Surroundings {
    /// The same temperature always.
    #[must_use]
    pub fn constant(temperature: Celsius) -> Self {
        Self {
            first: temperature,
            changes: Vec::new(),
        }
    }

    /// The same up to `at`, and from then on another temperature.
    ///
    /// Changes that were to come later still come; one at the same moment is replaced.
    #[must_use]
    pub fn changed(mut self, at: Moment, to: Celsius) -> Self {
        match self.changes.binary_search_by_key(&at, |change| change.0) {
            Ok(same) => self.changes[same].1 = to,
            Err(place) => self.changes.insert(place, (at, to)),
        }
        self
    }

    /// The temperature at a moment; at the moment of a change, already the new one.
    #[must_use]
    pub fn at(&self, moment: Moment) -> Celsius {
        let past = self.changes.partition_point(|change| change.0 <= moment);
        match past {
            0 => self.first,
            _ => self.changes[past - 1].1,
        }
    }

    /// The changes after a moment, in order.
    fn after(&self, moment: Moment) -> &[(Moment, Celsius)] {
        let past = self.changes.partition_point(|change| change.0 <= moment);
        &self.changes[past..]
    }
}

/// How a body goes through its surroundings, at any moment from its start.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    start: Moment,
    modes: Vec<Mode>,
    // In order of time; the first begins at 0.
    stretches: Vec<Stretch>,
}

/// A time of constant surroundings.
#[derive(Debug, Clone, PartialEq)]
struct Stretch {
    /// When it begins, in min from the course's start.
    from: f64,
    /// T∞, in °C.
    around: f64,
    /// y − T∞ of each mode when it begins, in K.
    gaps: Vec<f64>,
}

/// A mode this many lags after a change is within 1e-13 of its end: there it stays.
const SETTLED_LAGS: f64 = 30.0;

/// Temperatures closer than this, in K, are the same: sums of modes carry a little rounding.
pub(crate) const SAME_K: f64 = 1e-6;

impl Course {
    pub(super) fn new(
        vessel: &Vessel,
        start: Moment,
        initial: Celsius,
        surroundings: &Surroundings,
    ) -> Self {
        let modes = vessel.modes().to_vec();
        let around = surroundings.at(start).get();
        let gaps = vec![initial.get() - around; modes.len()];
        let changes = surroundings.after(start).iter();
        let changes = changes.map(|&(at, to)| ((at - start).get(), to.get()));
        Self::through_changes(start, modes, around, gaps, &mut changes.into_iter())
    }

    /// `changes` are in min from `start`, each with T∞ from then on.
    fn through_changes(
        start: Moment,
        modes: Vec<Mode>,
        around: f64,
        gaps: Vec<f64>,
        changes: &mut dyn Iterator<Item = (f64, f64)>,
    ) -> Self {
        let mut stretches = vec![Stretch {
            from: 0.0,
            around,
            gaps,
        }];
        for (from, to) in changes {
            let before = &stretches[stretches.len() - 1];
            let step = before.around - to;
            // y carries over; only what it is measured from changes.
            let gaps = std::iter::zip(&modes, &before.gaps)
                .map(|(mode, gap)| gap * decay(mode, from - before.from) + step)
                .collect();
            stretches.push(Stretch {
                from,
                around: to,
                gaps,
            });
        }
        Self {
            start,
            modes,
            stretches,
        }
    }

    /// Its start.
    pub(crate) fn start(&self) -> Moment {
        self.start
    }

    /// The same body from `at` on, where its centre was found to be `core`, with
    /// every lag multiplied. Its inside keeps the profile it would have had, every
    /// gap to the surroundings made larger or smaller by the same factor.
    pub(crate) fn through(&self, at: Moment, core: Celsius, slower: f64) -> Self {
        let t = (at - self.start).get().max(0.0);
        let index = self.stretch_at(t);
        let stretch = &self.stretches[index];
        let modes: Vec<Mode> = self
            .modes
            .iter()
            .map(|mode| mode.with_lag_times(slower))
            .collect();
        let found = core.get() - stretch.around;
        let expected = self.core_after(t) - stretch.around;
        let gaps = if expected.abs() > SAME_K {
            let factor = found / expected;
            std::iter::zip(&self.modes, &stretch.gaps)
                .map(|(mode, gap)| factor * gap * decay(mode, t - stretch.from))
                .collect()
        } else {
            // It should have settled and hasn't: what is left lives in the slowest mode.
            let mut gaps = vec![0.0; modes.len()];
            gaps[0] = found / self.modes[0].core;
            gaps
        };
        let changes = self.stretches[index + 1..].iter();
        let changes = changes.map(|change| (change.from - t, change.around));
        Self::through_changes(at, modes, stretch.around, gaps, &mut changes.into_iter())
    }

    /// The mean over the volume; before the start, what it starts with.
    #[must_use]
    pub fn mean_at(&self, moment: Moment) -> Celsius {
        Celsius::clamped(self.mean_after((moment - self.start).get()))
    }

    /// The centre, the last point to follow; before the start, what it starts with.
    #[must_use]
    pub fn core_at(&self, moment: Moment) -> Celsius {
        Celsius::clamped(self.core_after((moment - self.start).get()))
    }

    /// When the centre first comes to a temperature, or `None` when it has not by `horizon` after the start.
    ///
    /// Looked for in steps that start small after each change and grow, then within the step that crosses.
    #[must_use]
    pub fn when_core_reaches(&self, target: Celsius, horizon: Minutes) -> Option<Moment> {
        let after = self.core_reaches_after(target.get(), 0.0, horizon.get())?;
        Some(self.start + Minutes::clamped(after))
    }

    /// The same in min from the start, looking from `from` on.
    pub(crate) fn core_reaches_after(&self, target: f64, from: f64, horizon: f64) -> Option<f64> {
        let first = self.core_after(from);
        if (first - target).abs() < SAME_K {
            return Some(from);
        }
        let above = first > target;
        let reached = |t: f64| {
            let core = self.core_after(t);
            core == target || (core > target) != above
        };
        let mut low = from;
        while low < horizon {
            let high = self.step_end(low).min(horizon);
            if reached(high) {
                let tolerance = 1e-9 * high.max(1.0);
                return Some(crossing(low, high, tolerance, |t| {
                    self.core_after(t) - target
                }));
            }
            low = high;
        }
        None
    }

    /// The mean in °C, `t` min after the start.
    pub(crate) fn mean_after(&self, t: f64) -> f64 {
        self.reading(t, |mode| mode.mean)
    }

    /// The centre in °C, `t` min after the start.
    pub(crate) fn core_after(&self, t: f64) -> f64 {
        self.reading(t, |mode| mode.core)
    }

    /// The end of the integration step that starts `t` min after the start.
    ///
    /// Steps never cross a change of the surroundings. They begin at a 200th of
    /// the slowest lag, where the fastest modes live, and grow with the time since
    /// the change to a fifth of it. Once all modes have settled the step is
    /// the rest of the stretch, or endless.
    pub(crate) fn step_end(&self, t: f64) -> f64 {
        let index = self.stretch_at(t);
        let since = (t - self.stretches[index].from).max(0.0);
        let end = self
            .stretches
            .get(index + 1)
            .map_or(f64::INFINITY, |next| next.from);
        let slowest = self.modes[0].time_constant.get();
        if since > SETTLED_LAGS * slowest {
            return end;
        }
        // A lag of next to nothing must not make the steps vanish.
        let step = (0.4 * since)
            .clamp(slowest / 200.0, slowest / 5.0)
            .max(1e-3);
        (t + step).min(end)
    }

    fn stretch_at(&self, t: f64) -> usize {
        let past = self.stretches.partition_point(|stretch| stretch.from <= t);
        past.saturating_sub(1)
    }

    fn reading(&self, t: f64, weight: impl Fn(&Mode) -> f64) -> f64 {
        let stretch = &self.stretches[self.stretch_at(t)];
        let since = (t - stretch.from).max(0.0);
        let mut reading = stretch.around;
        for (mode, gap) in std::iter::zip(&self.modes, &stretch.gaps) {
            // Slowest first, so once a mode has settled those after it have too.
            if since > SETTLED_LAGS * mode.time_constant.get() {
                break;
            }
            reading += weight(mode) * gap * decay(mode, since);
        }
        reading
    }
}

/// What is left of a mode's gap after `minutes`.
fn decay(mode: &Mode, minutes: f64) -> f64 {
    (-minutes / mode.time_constant.get()).exp()
}
