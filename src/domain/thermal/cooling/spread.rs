//! When the centre comes to a temperature, with the spread of its film and of what is around it.

use super::HORIZON;
use crate::estimate::{Basis, Estimate};
use crate::thermal::vessel::{Surroundings, Vessel};
use crate::units::{Celsius, CelsiusDelta, Minutes, Moment};

/// ASSUMPTION: one time in ten the heat transfer coefficient is larger, or smaller, than said by this factor.
///
/// Natural convection and radiation alone differ by a fifth between a hot and a lukewarm body.
pub(super) const FILM_SPREAD: f64 = 1.3;

/// A second, as a part of a minute: what has no length has no logarithm.
const A_SECOND: f64 = 1.0 / 60.0;

/// When the centre comes from one temperature to another.
///
/// The window holds the spread of the heat transfer coefficient, and that of the
/// surroundings' temperatures where they are in doubt; each alone is moved to both its ends, and the
/// distances of the logarithm of the time are added in quadrature. What doesn't come within [`HORIZON`] of the start is given as that moment.
#[must_use]
pub fn cooling_window(
    vessel: &Vessel,
    from: Celsius,
    to: Celsius,
    surroundings: &Surroundings,
    start: Moment,
) -> Estimate<Moment> {
    FilmSpread::of(vessel.clone()).window(from, to, surroundings, start)
}

/// A vessel with the early and late ends of its heat transfer coefficient.
///
/// The modes of a wide dish take longer to reckon than anything that is asked
/// of them, so whoever asks often keeps this.
#[derive(Debug, Clone, PartialEq)]
pub struct FilmSpread {
    fast: Vessel,
    likely: Vessel,
    slow: Vessel,
}

impl FilmSpread {
    /// Reckons the modes of both ends.
    #[must_use]
    pub fn of(vessel: Vessel) -> Self {
        Self {
            fast: vessel.with_film_times(FILM_SPREAD),
            slow: vessel.with_film_times(1.0 / FILM_SPREAD),
            likely: vessel,
        }
    }

    /// The vessel as it likely is.
    #[must_use]
    pub fn likely(&self) -> &Vessel {
        &self.likely
    }

    /// See [`cooling_window`].
    #[must_use]
    pub fn window(
        &self,
        from: Celsius,
        to: Celsius,
        surroundings: &Surroundings,
        start: Moment,
    ) -> Estimate<Moment> {
        self.window_from(Estimate::exact(from, Basis::Model), to, surroundings, start)
    }

    /// The same where the temperature at the start is uncertain; what cools fastest is coldest by then.
    #[must_use]
    pub fn window_from(
        &self,
        from: Estimate<Celsius>,
        to: Celsius,
        surroundings: &Surroundings,
        start: Moment,
    ) -> Estimate<Moment> {
        let first_change = surroundings.after(start).next();
        let changes = first_change.map_or(f64::INFINITY, |(at, ..)| (at - start).get());
        let after = |vessel: &Vessel, from: Celsius, around: &Surroundings, half: f64| {
            let course = vessel.course(start, from, around);
            // What isn't there yet half-way needn't be looked for before, unless it was there and went back.
            let on_the_way = half <= changes && (course.core_after(half) > to.get()) == (from > to);
            let since = if on_the_way { half } else { 0.0 };
            let reached = course.core_reaches_after(to.get(), since, HORIZON.get());
            reached.unwrap_or(HORIZON.get())
        };
        let likely = after(&self.likely, from.likely(), surroundings, 0.0);
        let half = 0.5 * likely;
        let (mut earlier, mut later) = (0.0, 0.0);
        let mut aside = |other: f64| {
            // What is cold from the start has no logarithm.
            let apart = (other.max(A_SECOND) / likely.max(A_SECOND)).ln();
            *if apart < 0.0 {
                &mut earlier
            } else {
                &mut later
            } += apart * apart;
        };
        aside(after(&self.fast, from.low(), surroundings, half));
        aside(after(&self.slow, from.high(), surroundings, half));
        for around in surroundings.aside(start) {
            aside(after(&self.likely, from.likely(), &around, half));
        }
        let at = |log: f64| start + Minutes::clamped((likely * log.exp()).min(HORIZON.get()));
        Estimate::new(
            at(-f64::sqrt(earlier)),
            at(0.0),
            at(f64::sqrt(later)),
            Basis::Model,
        )
    }

    /// How warm it is on average at a moment, as it is throughout once it is poured into something else.
    ///
    /// `read` is what a thermometer in its middle showed on the way, and when. What isn't known of its
    /// surroundings is in its ends, and so goes along with its film from then on: a little more than it does, and within
    /// two points of what a sample says.
    #[must_use]
    pub fn poured_at(
        &self,
        at: Moment,
        from: Estimate<Celsius>,
        surroundings: &Surroundings,
        start: Moment,
        read: Option<(Moment, Celsius)>,
    ) -> Estimate<Celsius> {
        let mean = |vessel: &Vessel, from: Celsius, around: &Surroundings| {
            let course = vessel.course(start, from, around);
            match read {
                Some((when, core)) => course.through(when, core, 1.0).mean_at(at),
                None => course.mean_at(at),
            }
        };
        let likely = mean(&self.likely, from.likely(), surroundings);
        let (mut below, mut above) = (0.0, 0.0);
        let mut aside = |other: Celsius| {
            let apart = (other - likely).get();
            *if apart < 0.0 { &mut below } else { &mut above } += apart * apart;
        };
        aside(mean(&self.fast, from.low(), surroundings));
        aside(mean(&self.slow, from.high(), surroundings));
        for around in surroundings.aside(start) {
            aside(mean(&self.likely, from.likely(), &around));
        }
        Estimate::new(
            likely - CelsiusDelta::clamped(below.sqrt()),
            likely,
            likely + CelsiusDelta::clamped(above.sqrt()),
            Basis::Model,
        )
    }
}
