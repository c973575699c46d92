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
    /// Those it had at the start.
    pub(super) had: f64,
    /// At the start.
    pub(super) dough: Celsius,
    /// How yeast minds the cold.
    pub(super) cardinals: Cardinals,
    /// Factor on the vessel's lags.
    pub(super) lag: f64,
    /// How many times its doubt each spot around it is warmer.
    pub(super) around: [f64; 3],
}

impl Case {
    /// The reference minutes still to reach.
    pub(super) fn missing(&self) -> f64 {
        self.wanted - self.had
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
                &proof.surroundings.shifted(&case.around),
            ),
            cardinals: case.cardinals,
            per_rate: 1.0 / reference_rate.max(LEAST_REFERENCE_RATE),
        }
    }

    /// dm/dt, `t` min after the start.
    fn rate(&self, t: f64) -> f64 {
        self.rate_of(self.course.mean_after(t))
    }

    fn rate_of(&self, dough: f64) -> f64 {
        rate_at(dough, &self.cardinals) * self.per_rate
    }

    /// The gain from `from` to `to` within one step of the course.
    fn gain(&self, from: f64, to: f64) -> f64 {
        summed(to - from, nodes(from, to).map(|t| self.rate(t)))
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
    pub(super) fn gains_after(self, wanted: f64) -> Option<f64> {
        gain_after(&[self], &[(0, wanted)])[0]
    }

    /// Where within a step the gain from its beginning is `wanted`, a part of the whole step's:
    /// Newton's method, halving where it strays.
    fn crossing(&self, from: f64, to: f64, wanted: f64, part: f64) -> f64 {
        let (mut low, mut high) = (from, to);
        let mut guess = from + (to - from) * part;
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
            if moved < 1e-6 {
                break;
            }
        }
        guess
    }
}

/// Where within a step the rates are summed: Gauss-Legendre nodes ±√(3/5) and 0, on half the step.
fn nodes(from: f64, to: f64) -> [f64; 3] {
    const NODE: f64 = 0.774_596_669_241_483_4;
    let half = 0.5 * (to - from);
    let middle = from + half;
    [middle - half * NODE, middle, middle + half * NODE]
}

/// The gain of a step from the rates at its nodes, with the weights 5/9 and 8/9.
///
/// All weights are positive, so a dough that is warmer throughout never gains less.
fn summed(step: f64, [first, middle, last]: [f64; 3]) -> f64 {
    step / 18.0 * (5.0 * first + 8.0 * middle + 5.0 * last)
}

/// When, within the horizon, some of these have gained so much: which, and how much.
///
/// They are of one vessel and one lag, and their surroundings change at the same moments. So they take the same
/// steps, and what is left of every mode at a node, which takes longest to reckon, is reckoned once for all.
pub(super) fn gain_after(meters: &[Meter], wanted: &[(usize, f64)]) -> Vec<Option<f64>> {
    let horizon = HORIZON.get();
    let at_once = |&(_, wanted): &(usize, f64)| (wanted <= 0.0).then_some(0.0);
    let mut after: Vec<Option<f64>> = wanted.iter().map(at_once).collect();
    let mut gained = vec![0.0; meters.len()];
    let mut left = [Vec::new(), Vec::new(), Vec::new()];
    let mut from = 0.0;
    while from < horizon && after.contains(&None) {
        let to = meters[0].course.step_end(from).min(horizon);
        let mut stretch = 0;
        for (t, left) in nodes(from, to).into_iter().zip(&mut left) {
            stretch = meters[0].course.decays_after(t, left);
        }
        for (which, meter) in meters.iter().enumerate() {
            let rates = left
                .each_ref()
                .map(|left| meter.rate_of(meter.course.mean_of(stretch, left)));
            let gain = summed(to - from, rates);
            for (&(_, wanted), after) in wanted
                .iter()
                .zip(&mut after)
                .filter(|((of, _), after)| *of == which && after.is_none())
            {
                let missing = wanted - gained[which];
                if gain >= missing {
                    *after = Some(meter.crossing(from, to, missing, missing / gain));
                }
            }
            gained[which] += gain;
        }
        from = to;
    }
    after
}
