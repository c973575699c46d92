//! Counts reference minutes along the course of a dough.

use super::{HORIZON, Proof};
use crate::thermal::crossing::newton_within;
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

    /// Where within a step the gain from its beginning is `wanted`, a part of the whole step's.
    fn crossing(&self, from: f64, to: f64, wanted: f64, part: f64) -> f64 {
        let guess = from + (to - from) * part;
        let near = |moved, _| moved < 1e-6;
        newton_within((from, to), guess, true, near, |t| {
            (self.gain(from, t) - wanted, self.rate(t))
        })
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

/// A dough on its way to what it asks for.
pub(super) struct Goal {
    meter: Meter,
    /// What it still has to gain.
    missing: f64,
    /// When it has, in min after the start: at the horizon at the latest.
    pub(super) after: f64,
}

impl Goal {
    pub(super) fn of(proof: &Proof, case: &Case) -> Self {
        let missing = case.wanted - case.had;
        Self {
            meter: Meter::new(proof, case),
            missing,
            after: if missing > 0.0 { HORIZON.get() } else { 0.0 },
        }
    }
}

/// Follows doughs of one vessel and one lag, in surroundings that change at the same moments, to their goals.
///
/// They take the same steps, and what is left of every mode at a node, which takes longest to
/// reckon, is reckoned once for all.
pub(super) fn reach(goals: &mut [Goal]) {
    let horizon = HORIZON.get();
    let mut left = [Vec::new(), Vec::new(), Vec::new()];
    let mut from = 0.0;
    while from < horizon && goals.iter().any(|goal| goal.missing > 0.0) {
        let course = &goals[0].meter.course;
        let to = course.step_end(from).min(horizon);
        let mut stretch = 0;
        for (t, left) in nodes(from, to).into_iter().zip(&mut left) {
            stretch = course.decays_after(t, left);
        }
        for goal in &mut *goals {
            if goal.missing > 0.0 {
                let meter = &goal.meter;
                let rates = left
                    .each_ref()
                    .map(|left| meter.rate_of(meter.course.mean_of(stretch, left)));
                let gain = summed(to - from, rates);
                if gain >= goal.missing {
                    goal.after = meter.crossing(from, to, goal.missing, goal.missing / gain);
                }
                goal.missing -= gain;
            }
        }
        from = to;
    }
}
