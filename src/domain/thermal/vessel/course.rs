//! How a body follows its surroundings over time.

use super::carried::carried;
use super::film::{Film, Stretch};
use super::{Mode, Surroundings, Vessel};
use crate::thermal::cooling::HORIZON;
use crate::thermal::crossing::crossing;
use crate::units::{Celsius, Minutes, Moment};

/// How a body goes through its surroundings, at any moment from its start.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    start: Moment,
    // One for each film the body is in; the modes of a film belong to all stretches in it.
    films: Vec<Film>,
    // In order of time; the first begins at 0.
    stretches: Vec<Stretch>,
    // Whether what is around it changes with the body and not by the clock.
    own_pace: bool,
}

/// A change of what is around a body.
#[derive(Clone, Copy)]
struct Change {
    /// When, in min from the course's start.
    from: f64,
    /// T∞ from then on, in °C.
    around: f64,
    /// The film from then on.
    film: usize,
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
        let mut films: Vec<Film> = Vec::new();
        let mut film = |times: f64| {
            let known = films.iter().position(|film| film.times == times);
            known.unwrap_or_else(|| {
                films.push(vessel.in_film(times));
                films.len() - 1
            })
        };
        let (around, times, _) = surroundings.around(start);
        let first = Change {
            from: 0.0,
            around: around.get(),
            film: film(times),
        };
        let changes: Vec<Change> = surroundings
            .after(start)
            .map(|(at, around, times)| Change {
                from: (at - start).get(),
                around: around.get(),
                film: film(times),
            })
            .collect();
        let gaps = vec![initial.get() - first.around; films[first.film].modes.len()];
        Self::through_changes(start, films, first, gaps, &changes)
    }

    /// `first` begins at 0 with its gaps.
    fn through_changes(
        start: Moment,
        films: Vec<Film>,
        first: Change,
        gaps: Vec<f64>,
        changes: &[Change],
    ) -> Self {
        let mut stretches = vec![Stretch {
            from: 0.0,
            around: first.around,
            film: first.film,
            gaps,
        }];
        for change in changes {
            let before = &stretches[stretches.len() - 1];
            let film = &films[before.film];
            let since = change.from - before.from;
            let mut gaps: Vec<f64> = std::iter::zip(&film.modes, &before.gaps)
                .map(|(mode, gap)| gap * decay(mode, since))
                .collect();
            if change.film != before.film {
                gaps = carried(&gaps, film, &films[change.film]);
            }
            // The temperatures carry over; only what they are measured from changes.
            let step = before.around - change.around;
            for gap in &mut gaps {
                *gap += step;
            }
            stretches.push(Stretch {
                from: change.from,
                around: change.around,
                film: change.film,
                gaps,
            });
        }
        Self {
            start,
            films,
            stretches,
            own_pace: false,
        }
    }

    /// The same where what is around the body changes with the body itself, as its surface comes to boil.
    pub(crate) fn at_its_own_pace(self) -> Self {
        Self {
            own_pace: true,
            ..self
        }
    }

    /// Its start.
    pub(crate) fn start(&self) -> Moment {
        self.start
    }

    /// The same body from `at` on, where its centre was found to be `core`, with
    /// every lag multiplied. Its inside keeps the profile it would have had, every
    /// gap to the surroundings made larger or smaller by the same factor. At its own pace it is as far
    /// on its way as its centre says, and what is still to change does so at the new pace.
    pub(crate) fn through(&self, at: Moment, core: Celsius, slower: f64) -> Self {
        let (t, pace) = if self.own_pace {
            let on_the_way = self.core_reaches_after(core.get(), 0.0, HORIZON.get());
            (on_the_way.unwrap_or(0.0), slower)
        } else {
            ((at - self.start).get().max(0.0), 1.0)
        };
        let index = self.stretch_at(t);
        let stretch = &self.stretches[index];
        let own = &self.films[stretch.film].modes;
        let found = core.get() - stretch.around;
        let expected = self.core_after(t) - stretch.around;
        let gaps = if expected.abs() > SAME_K {
            let factor = found / expected;
            std::iter::zip(own, &stretch.gaps)
                .map(|(mode, gap)| factor * gap * decay(mode, t - stretch.from))
                .collect()
        } else {
            // It should have settled and hasn't: what is left lives in the slowest mode.
            let mut gaps = vec![0.0; own.len()];
            gaps[0] = found / own[0].core;
            gaps
        };
        let change = |stretch: &Stretch| Change {
            from: (stretch.from - t) * pace,
            around: stretch.around,
            film: stretch.film,
        };
        let changes: Vec<Change> = self.stretches[index + 1..].iter().map(change).collect();
        let films = self.films.iter().map(|film| film.slower(slower)).collect();
        Self {
            own_pace: self.own_pace,
            ..Self::through_changes(at, films, change(stretch), gaps, &changes)
        }
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
                return Some(crossing(low, high, tolerance, &|t| {
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
        let slowest = self.modes_of(&self.stretches[index])[0].time_constant.get();
        if since > SETTLED_LAGS * slowest {
            return end;
        }
        // A lag of next to nothing must not make the steps vanish.
        let step = (0.4 * since)
            .clamp(slowest / 200.0, slowest / 5.0)
            .max(1e-3);
        (t + step).min(end)
    }

    fn modes_of(&self, stretch: &Stretch) -> &[Mode] {
        &self.films[stretch.film].modes
    }

    fn stretch_at(&self, t: f64) -> usize {
        let past = self.stretches.partition_point(|stretch| stretch.from <= t);
        past.saturating_sub(1)
    }

    /// What is left of each mode's gap `t` min after the start, put into `left`, and in which stretch that is.
    ///
    /// It is the same for every course of one vessel whose surroundings change at the same moments.
    pub(crate) fn decays_after(&self, t: f64, left: &mut Vec<f64>) -> usize {
        let index = self.stretch_at(t);
        let stretch = &self.stretches[index];
        let since = (t - stretch.from).max(0.0);
        left.clear();
        left.extend(self.modes_of(stretch).iter().map(|mode| decay(mode, since)));
        index
    }

    /// The mean in °C from what [`decays_after`](Self::decays_after) says.
    pub(crate) fn mean_of(&self, index: usize, left: &[f64]) -> f64 {
        let stretch = &self.stretches[index];
        let modes = self.modes_of(stretch).iter().zip(&stretch.gaps).zip(left);
        let above = modes.map(|((mode, gap), left)| mode.mean * gap * left);
        stretch.around + above.sum::<f64>()
    }

    fn reading(&self, t: f64, weight: impl Fn(&Mode) -> f64) -> f64 {
        let stretch = &self.stretches[self.stretch_at(t)];
        let since = (t - stretch.from).max(0.0);
        let mut reading = stretch.around;
        for (mode, gap) in std::iter::zip(self.modes_of(stretch), &stretch.gaps) {
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
