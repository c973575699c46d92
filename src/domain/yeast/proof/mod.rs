//! When a dough has had enough: the integral of yeast's rate along its temperature.
//!
//! A formula says how long a step takes at a temperature: so many *reference
//! minutes*. A dough at temperature T gains them at the rate
//!
//! `dm/dt = γ(T(t)) / γ(T_ref)`
//!
//! - m: reference minutes had; t: minutes
//! - γ: relative rate of yeast, [`relative_rate`](super::activity::relative_rate) with [`Cardinals::DOUGH`]
//! - T(t): the mean temperature of the dough in its [`Vessel`], in °C
//!
//! and the step ends when m is what the formula asks for. What has been gained
//! stays gained: a change of the surroundings acts from its moment on.
//!
//! The integral is summed by three-point Gauss quadrature over the course's own
//! steps, which start small after each change of surroundings and never cross
//! one. Against the heat equation solved another way it is right to 0.00002 of its value.
//!
//! # The window
//!
//! Four things are uncertain, each with a tenth and a ninetieth percentile: the
//! formula's own range, the dough's temperature at the start, how much yeast
//! minds the cold, and how fast the dough follows its surroundings. Each is
//! moved alone to both percentiles, the proof is reckoned again, and the
//! distances of the logarithm of the time from the likely one are added in
//! quadrature, those to earlier and those to later apart. There are no random
//! numbers, so the same inputs give the same window. Of a sample of all inputs at
//! once a tenth lies beyond either end, within three percentage points and down
//! to a larder at 8 °C. Where the dough comes nearer to standing still the ends
//! are rough: one input alone then decides.
//!
//! What is measured or seen on the day moves and narrows it: [`Proof::measured`] and [`Proof::seen`].
//!
//! Left out: differences of temperature inside the dough, its heat of
//! fermentation, the yeast's lag and growth, sugar, salt and dose (the
//! formula's time already holds them at its own reference), and how well the
//! temperature of the kitchen is known.

mod backwards;
mod meter;
mod seen;
mod trace;

pub use self::backwards::{COLDEST_RISE, Unmet, WARMEST_RISE};
use self::meter::{Case, Meter};
pub use self::seen::Found;
pub use self::trace::Point;
use super::activity::Cardinals;
use crate::estimate::{Basis, Estimate};
use crate::thermal::vessel::{Surroundings, Vessel};
use crate::units::{Celsius, Minutes, Moment, Share, minutes};

/// How far ahead a proof is followed: five days.
pub const HORIZON: Minutes = minutes(5.0 * 24.0 * 60.0);

/// ASSUMPTION: one time in ten the dough's lag is larger, or smaller, than said by this factor.
///
/// The heat transfer coefficient is known to about 30 % (bowl, cover, draught), and the lag goes with its inverse.
const LAG_SPREAD: f64 = 1.3;

/// A dough that is fermenting, resting or proofing.
#[derive(Debug, Clone, PartialEq)]
pub struct Proof {
    /// The reference minutes that the formula asks for, at its reference temperature.
    pub range: Estimate<Minutes>,
    /// The temperature at which the formula's minutes are minutes of the clock.
    ///
    /// It should be a temperature at which dough is proofed, 15 °C or more; a
    /// cold retard is better given as a plain range of time.
    pub reference: Celsius,
    /// When the dough was at the temperature `dough`.
    pub start: Moment,
    /// The dough's temperature at the start, the same throughout.
    pub dough: Estimate<Celsius>,
    /// What is around it, from the start on.
    pub surroundings: Surroundings,
    /// How it follows its surroundings.
    pub vessel: Vessel,
    /// Reference minutes it already had at the start: 0 unless it was [measured](Self::measured) on the way.
    pub had: Minutes,
}

impl Proof {
    /// When it will be ready.
    ///
    /// What doesn't come within [`HORIZON`] of the start is given as that moment; see [`Self::stalls`].
    #[must_use]
    pub fn window(&self) -> Estimate<Moment> {
        let likely = self
            .ready_after(&Case::likely(self))
            .unwrap_or(HORIZON.get());
        let likely_log = self.log_of(likely);
        let (mut earlier, mut later) = (0.0, 0.0);
        for (one, other) in self.spreads() {
            let one = one.map_or(0.0, |case| self.log_after(&case) - likely_log);
            let other = other.map_or(0.0, |case| self.log_after(&case) - likely_log);
            earlier += one.min(other).min(0.0).powi(2);
            later += one.max(other).max(0.0).powi(2);
        }
        let moment = |after: f64| self.start + Minutes::clamped(after.clamp(0.0, HORIZON.get()));
        let at_log = |log: f64| moment(log.exp() - self.had.get());
        let basis = match self.dough.basis() {
            Basis::Measured => Basis::Measured,
            Basis::Formula | Basis::Model => Basis::Model,
        };
        Estimate::new(
            at_log(likely_log - earlier.sqrt()),
            moment(likely),
            at_log(likely_log + later.sqrt()),
            basis,
        )
    }

    /// Whether it is too cold, or too hot, ever to be ready within [`HORIZON`].
    #[must_use]
    pub fn stalls(&self) -> bool {
        self.ready_after(&Case::likely(self)).is_none()
    }

    /// The reference minutes it has had at a moment.
    #[must_use]
    pub fn reference_minutes_at(&self, now: Moment) -> Minutes {
        let case = Case::likely(self);
        let until = (now - self.start).get().min(HORIZON.get());
        let meter = Meter::new(self, &case);
        Minutes::clamped(self.had.get() + meter.gained_after(until))
    }

    /// How far it is at a moment, as a share of the likely reference minutes.
    #[must_use]
    pub fn progress(&self, now: Moment) -> Share {
        let wanted = self.range.likely().get();
        if wanted <= 0.0 {
            return Share::MAX;
        }
        Share::clamped(self.reference_minutes_at(now).get() / wanted)
    }

    /// The moment at which it will have had so many reference minutes, at the latest [`HORIZON`] after the start.
    #[must_use]
    pub fn moment_when(&self, reference: Minutes) -> Moment {
        let case = Case {
            wanted: reference.get(),
            ..Case::likely(self)
        };
        let after = self.ready_after(&case).unwrap_or(HORIZON.get());
        self.start + Minutes::clamped(after)
    }

    /// The dough's likely mean temperature at a moment.
    #[must_use]
    pub fn dough_at(&self, moment: Moment) -> Celsius {
        let course = self.vessel.for_mean(1.0);
        course
            .course(self.start, self.dough.likely(), &self.surroundings)
            .mean_at(moment)
    }

    /// The same proof after someone took the dough's temperature.
    ///
    /// It keeps the reference minutes it has had and goes on from what was measured.
    #[must_use]
    pub fn measured(&self, at: Moment, dough: Estimate<Celsius>) -> Self {
        Self {
            start: at,
            dough,
            had: self.reference_minutes_at(at),
            ..self.clone()
        }
    }

    /// The same proof after the dough was poured into something else, as warm throughout as it was on average.
    #[must_use]
    pub fn poured(&self, at: Moment, vessel: Vessel, surroundings: Surroundings) -> Self {
        let old = self.vessel.for_mean(1.0);
        let mean = |dough| {
            old.course(self.start, dough, &self.surroundings)
                .mean_at(at)
        };
        Self {
            start: at,
            dough: self.dough.map(mean),
            had: self.reference_minutes_at(at),
            surroundings,
            vessel,
            ..self.clone()
        }
    }

    /// The uncertain inputs, each at its two percentiles; `None` where there is nothing to reckon again.
    fn spreads(&self) -> [(Option<Case>, Option<Case>); 4] {
        let likely = Case::likely(self);
        let wanted = |wanted: Minutes| {
            (wanted != self.range.likely()).then_some(Case {
                wanted: wanted.get(),
                ..likely
            })
        };
        let dough =
            |dough: Celsius| (dough != self.dough.likely()).then_some(Case { dough, ..likely });
        let cardinals = |cardinals| {
            Some(Case {
                cardinals,
                ..likely
            })
        };
        let lag = |lag| Some(Case { lag, ..likely });
        [
            (wanted(self.range.low()), wanted(self.range.high())),
            (dough(self.dough.low()), dough(self.dough.high())),
            (
                cardinals(Cardinals::DOUGH_HARDY),
                cardinals(Cardinals::DOUGH_TENDER),
            ),
            (lag(LAG_SPREAD), lag(1.0 / LAG_SPREAD)),
        ]
    }

    /// Minutes from the start until a case is ready, if that is within the horizon.
    fn ready_after(&self, case: &Case) -> Option<f64> {
        let wanted = case.wanted - self.had.get();
        if wanted <= 0.0 {
            return Some(0.0);
        }
        Meter::new(self, case).gains_after(wanted)
    }

    fn log_after(&self, case: &Case) -> f64 {
        self.log_of(self.ready_after(case).unwrap_or(HORIZON.get()))
    }

    /// The logarithm of the whole time, counting what was had before the start.
    fn log_of(&self, after: f64) -> f64 {
        // A proof of no length would have no logarithm; a second is as good as none.
        (self.had.get() + after).max(1.0 / 60.0).ln()
    }
}
