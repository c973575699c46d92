//! Counts reference minutes along the course of a dough.

use super::{HORIZON, Proof};
use crate::thermal::vessel::Course;
use crate::units::Celsius;
use crate::yeast::activity::{Cardinals, rate_at};

/// A reference temperature can't serve as a yardstick where yeast hardly works;
/// rates below this part of the optimum's count as this.
const LEAST_REFERENCE_RATE: f64 = 1e-3;

/// One choice of the uncertain inputs.
#[derive(Clone, Copy)]
pub(super) struct Case {
    /// Reference minutes to reach.
    pub(super) wanted: f64,
    /// At the start.
    pub(super) dough: Celsius,
    /// How yeast minds the cold.
    pub(super) cardinals: Cardinals,
    /// Factor on the vessel's lags.
    pub(super) lag: f64,
}

impl Case {
    pub(super) fn likely(proof: &Proof) -> Self {
        Self {
            wanted: proof.range.likely().get(),
            dough: proof.dough.likely(),
            cardinals: Cardinals::DOUGH,
            lag: 1.0,
        }
    }
}

/// Counts reference minutes along a course.
pub(super) struct Meter {
    course: Course,
    cardinals: Cardinals,
    /// 1 / γ(T_ref)
    per_rate: f64,
}

impl Meter {
    pub(super) fn new(proof: &Proof, case: &Case) -> Self {
        let reference_rate = rate_at(proof.reference.get(), &case.cardinals);
        Self {
            course: proof.vessel.for_mean(case.lag).course(
                proof.start,
                case.dough,
                &proof.surroundings,
            ),
            cardinals: case.cardinals,
            per_rate: 1.0 / reference_rate.max(LEAST_REFERENCE_RATE),
        }
    }

    /// dm/dt, `t` min after the start.
    fn rate(&self, t: f64) -> f64 {
        rate_at(self.course.mean_after(t), &self.cardinals) * self.per_rate
    }

    /// The gain from `from` to `to` within one step of the course.
    ///
    /// All weights are positive, so a dough that is warmer throughout never gains less.
    fn gain(&self, from: f64, to: f64) -> f64 {
        // Gauss-Legendre nodes ±√(3/5) and 0, weights 5/9 and 8/9, on half the step.
        const NODE: f64 = 0.774_596_669_241_483_4;
        let half = 0.5 * (to - from);
        let middle = from + half;
        half / 9.0
            * (5.0 * self.rate(middle - half * NODE)
                + 8.0 * self.rate(middle)
                + 5.0 * self.rate(middle + half * NODE))
    }

    /// The gain from the start to `until`.
    pub(super) fn gained_after(&self, until: f64) -> f64 {
        self.gained_since(&mut 0.0, until)
    }

    /// The gain from `from` to `until`, where `from` is moved to.
    pub(super) fn gained_since(&self, from: &mut f64, until: f64) -> f64 {
        let mut gained = 0.0;
        while *from < until {
            let to = self.course.step_end(*from).min(until);
            gained += self.gain(*from, to);
            *from = to;
        }
        gained
    }

    /// The mean temperature in °C, `t` min after the start.
    pub(super) fn dough_after(&self, t: f64) -> f64 {
        self.course.mean_after(t)
    }

    /// When so much has been gained, if it is within the horizon.
    pub(super) fn gains_after(&self, wanted: f64) -> Option<f64> {
        let horizon = HORIZON.get();
        let (mut gained, mut from) = (0.0, 0.0);
        while from < horizon {
            let to = self.course.step_end(from).min(horizon);
            let gain = self.gain(from, to);
            if gained + gain >= wanted {
                return Some(self.crossing(from, to, wanted - gained));
            }
            gained += gain;
            from = to;
        }
        None
    }

    /// Where within a step the gain from its beginning is `wanted`: Newton's method, halving where it strays.
    fn crossing(&self, from: f64, to: f64, wanted: f64) -> f64 {
        let (mut low, mut high) = (from, to);
        let mut guess = 0.5 * (from + to);
        for _ in 0..60 {
            let missing = wanted - self.gain(from, guess);
            if missing > 0.0 {
                low = guess;
            } else {
                high = guess;
            }
            let newton = guess + missing / self.rate(guess);
            let next = if newton > low && newton < high {
                newton
            } else {
                0.5 * (low + high)
            };
            let moved = (next - guess).abs();
            guess = next;
            if moved < 1e-7 {
                break;
            }
        }
        guess
    }
}
