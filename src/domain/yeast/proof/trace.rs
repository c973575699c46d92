//! How a rise goes from its start to its end, for whoever would rather look than read.
//!
//! At each moment the uncertain inputs are moved as for the [window](Proof::window):
//! each alone to both percentiles, and the distances from the likely course added in
//! quadrature, those to either side apart. Of the temperature they are distances in K,
//! of the progress they are those of its logarithm. At a constant temperature progress
//! is in proportion to time, and the band then reaches the whole exactly where the
//! window begins and ends; elsewhere the two differ by a few hundredths.

use super::Proof;
use super::inputs::RANGE;
use super::meter::{Case, Meter};
use super::seen::widths;
use crate::estimate::{Basis, Estimate};
use crate::units::{Celsius, Minutes, Moment, Share};

/// A dough at one moment of its rise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// The moment.
    pub at: Moment,
    /// Its mean temperature.
    pub dough: Estimate<Celsius>,
    /// How far it is, as a share of the reference minutes that it needs; it never falls.
    pub progress: Estimate<Share>,
}

/// One choice of the uncertain inputs on its way: one pass over the course.
struct Walk {
    meter: Meter,
    /// Reference minutes to reach.
    wanted: f64,
    /// Those it has had.
    had: f64,
    /// How far it has come, in min after the start.
    from: f64,
}

impl Walk {
    fn new(proof: &Proof, case: &Case) -> Self {
        Self {
            meter: Meter::new(proof, case),
            wanted: case.wanted.max(A_SECOND),
            had: case.had,
            from: 0.0,
        }
    }

    /// Goes on to so many minutes after the start: the dough's temperature in °C, and the
    /// logarithm of its progress.
    fn to(&mut self, after: f64) -> [f64; 2] {
        self.had += self.meter.gained_since(&mut self.from, after);
        let progress = self.had / self.wanted;
        [self.meter.dough_after(after), progress.max(NOTHING).ln()]
    }
}

/// A rise of no length, in min, would be ready before it began; a second is as good as none.
const A_SECOND: f64 = 1.0 / 60.0;

/// What has not begun to rise has no logarithm, and a billionth of the way is as good as none of it.
const NOTHING: f64 = 1e-9;

impl Proof {
    /// The dough from one moment to another, neither before the start, at so many steps of equal length.
    #[must_use]
    pub fn trace(&self, from: Moment, until: Moment, steps: u16) -> Vec<Point> {
        let [first, last] = [from, until].map(|at| (at - self.start).get());
        let mut likely = Walk::new(self, &self.likely());
        let mut pairs = Vec::new();
        for (input, ends) in self.spreads() {
            pairs.push((input, ends.map(|case| Walk::new(self, &case))));
        }
        // A longer way has come less far all along.
        let (less, more) = widths(&self.range);
        let own = self.learnt.own()[RANGE];
        let mut apart = [[[0.0; 2]; 7]; 2];
        apart[1][RANGE] = [less * own, -more * own];
        let basis = self.dough.basis().max(Basis::Model);
        let (mut least, mut most) = (Share::MIN, Share::MIN);
        let mut points = Vec::new();
        for step in 0..=steps {
            let part = f64::from(step) / f64::from(steps.max(1));
            let after = first + (last - first) * part;
            let here = likely.to(after);
            for (input, walks) in &mut pairs {
                let [one, other] = walks.each_mut().map(|walk| walk.to(after));
                for of in 0..2 {
                    apart[of][*input] = [one[of] - here[of], other[of] - here[of]];
                }
            }
            let [warmth, way] = apart.map(|apart| self.learnt.together(&apart));
            let dough = |off: f64| Celsius::clamped(here[0] + off);
            let progress = |off: f64| Share::clamped((here[1] + off).exp());
            // Where a dough comes near to standing still its spread can grow faster than itself,
            // but what has risen stays risen.
            least = least.max(progress(-way.0));
            most = most.max(progress(way.1));
            let [coldest, warmest] = [dough(-warmth.0), dough(warmth.1)];
            points.push(Point {
                at: self.start + Minutes::clamped(after),
                dough: Estimate::new(coldest, dough(0.0), warmest, basis),
                progress: Estimate::new(least, progress(0.0), most, basis),
            });
        }
        points
    }
}
