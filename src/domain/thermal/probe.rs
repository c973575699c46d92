//! What a reading in the middle of a body says about the rest of its way.
//!
//! A [`Course`] forecasts the centre of a body from how it began; a window round
//! it says how well that is known. A reading T at the moment t corrects both:
//!
//! - From t on the body goes through the reading. Its inside keeps the profile
//!   of the forecast, every gap to the surroundings multiplied by
//!   `(T − T∞) / (T_forecast − T∞)`. Conduction is linear, so this is again a
//!   solution of it; for a body of one mode it is Newton's
//!   `T∞ + (T − T∞) exp(−(t' − t) / τ)`. What bakes changes what is around it itself, as its surface comes to
//!   boil: it is taken to be as far on its way as the forecast is when it has T.
//! - How fast it goes is learnt from when the forecast has that temperature:
//!   `ln s = ln (t / t_forecast(T))`, as uncertain as a reading off by
//!   [`OFF`] makes it. It is weighed with what was believed, `ln s = 0` within
//!   the ends of the window for that temperature, by their squared spreads, as
//!   for two measurements of one quantity. A reading soon after the start thus
//!   says next to nothing about the pace, and a late one nearly everything.
//! - All lags from then on are multiplied by as much as that is worth for the
//!   rest. A stronger film quickens the end of a thick body more than its
//!   beginning, where the inside holds it up: with b the half width of a window
//!   in logarithms and t its likely time, the rest has
//!   `(t_target b_target − t_T b_T) / (t_target − t_T)` for each `b_T` that was seen.
//!
//! The window of what remains holds what was believed of s, as far as the
//! reading left it open, and the reading's own error, added in quadrature of
//! their logarithms as in [`crate::yeast::proof`]. A reading that is off misleads
//! twice: about where the body is, and about its pace. Both go the same way, so
//! they are moved together and not added as if they were independent.
//!
//! Over days drawn from what was believed, one end in ten comes before the
//! window opens and one in ten after it closes, within 3 percentage points.
//!
//! What nobody knows about the surroundings acts most towards the end, where the body comes near to
//! them, and is no matter of the pace. It isn't in the two windows, but comes as courses in surroundings
//! that are off. With c_T and c_R its distances, as logarithms, for the way to what was read
//! and for the rest, its squares `c_T²` join those of what was believed and seen, `c_T c_R` joins what the
//! reading says about the rest, and what a course that is off would have made of the reading is taken off its pace.
//!
//! Left out: where exactly the point of the thermometer was; changes of the
//! surroundings before the reading are followed, but count as a part of the pace.

use super::cooling::HORIZON;
use super::vessel::Course;
use crate::estimate::{Basis, Estimate};
use crate::units::{Celsius, CelsiusDelta, Minutes, Moment, celsius_delta};

/// How far a reading in the middle may be off.
///
/// ASSUMPTION: 1 K, half of it the thermometer's and half of it for a point beside the middle.
pub const OFF: CelsiusDelta = celsius_delta(1.0);

/// ASSUMPTION: nothing goes more than three times as fast or as slow as forecast, 1.1 = ln 3.
/// Where a reading says so, the body began otherwise than was thought.
const MOST_LN: f64 = 1.1;

/// A second, as a part of a minute: what remains is never less, so that it has a logarithm.
const A_SECOND: f64 = 1.0 / 60.0;

/// When the centre comes to `target`, after it was read off as `core` at the moment `at`.
///
/// `before` is the window without the reading, and `passing` the one for coming
/// to the temperature that was read; without it the whole way is taken to be
/// faster or slower alike. `aside` are courses in surroundings that are off, two for each that may be. A
/// centre that is there already gives the moment of the reading, the latest at
/// which it was; what doesn't come within [`HORIZON`] of the reading is given as that moment.
#[must_use]
pub fn window_after(
    course: &Course,
    before: &Estimate<Moment>,
    passing: Option<&Estimate<Moment>>,
    aside: &[Course],
    target: Celsius,
    at: Moment,
    core: Celsius,
) -> Estimate<Moment> {
    let rises = course.core_at(course.start()) < target;
    let is_there = |core: Celsius| {
        if rises {
            core >= target
        } else {
            core <= target
        }
    };
    if is_there(core) {
        return Estimate::exact(at, Basis::Measured);
    }
    let remains_of = |course: &Course, core: Celsius, ln_slower: f64| {
        if is_there(core) {
            return A_SECOND;
        }
        let rest = course.through(at, core, ln_slower.exp());
        let after = rest.core_reaches_after(target.get(), 0.0, HORIZON.get());
        after.unwrap_or(HORIZON.get()).max(A_SECOND)
    };
    let remains = |core, ln_slower| remains_of(course, core, ln_slower);
    let said = |course: &Course| course.core_reaches_after(core.get(), 0.0, HORIZON.get());
    let rest = remains(core, 0.0);
    // What each would have made of the way to the reading, and of the rest.
    let distances = aside.iter().map(|off| {
        let so_far = match (said(off), said(course)) {
            (Some(off), Some(said)) => (off.max(A_SECOND) / said.max(A_SECOND)).ln(),
            _ => 0.0,
        };
        (so_far, (remains_of(off, core, 0.0) / rest).ln())
    });
    let distances: Vec<(f64, f64)> = distances.collect();
    let pace = Pace::seen(course, before, passing, &distances, at, core);
    let (nearer, farther) = if rises {
        (core + OFF, core - OFF)
    } else {
        (core - OFF, core + OFF)
    };
    let likely = remains(core, pace.ln_slower);
    let apart = |minutes: f64| (minutes / likely).ln();
    let (faster, slower) = pace.believed;
    // What the reading is off by moves both where the body is and what was learnt of its pace, the same way.
    let ends = [
        remains(core, pace.ln_slower - faster),
        remains(nearer, pace.ln_slower - pace.by_reading),
        remains(core, pace.ln_slower + slower),
        remains(farther, pace.ln_slower + pace.by_reading),
    ];
    let aside = aside.iter().zip(&distances);
    let aside =
        aside.map(|(off, (so_far, _))| remains_of(off, core, pace.ln_slower - pace.says * so_far));
    let (mut early, mut late) = (0.0, 0.0);
    for end in aside.chain(ends) {
        let apart = apart(end);
        *if apart < 0.0 { &mut early } else { &mut late } += apart * apart;
    }
    let moment = |after: f64| at + Minutes::clamped(after.min(HORIZON.get()));
    Estimate::new(
        moment(likely * (-f64::sqrt(early)).exp()),
        moment(likely),
        moment(likely * f64::sqrt(late).exp()),
        Basis::Measured,
    )
}

/// How much slower than forecast the rest goes, as a logarithm.
struct Pace {
    ln_slower: f64,
    /// How much of what was seen that is.
    says: f64,
    /// What was believed leaves open, to faster and to slower.
    believed: (f64, f64),
    /// How much of it a reading that is off by [`OFF`] would have made up.
    by_reading: f64,
}

impl Pace {
    fn seen(
        course: &Course,
        before: &Estimate<Moment>,
        passing: Option<&Estimate<Moment>>,
        aside: &[(f64, f64)],
        at: Moment,
        core: Celsius,
    ) -> Self {
        let since = |moment: Moment| (moment - course.start()).get().max(A_SECOND);
        // Half the width, and how much of it lies on the faster and on the slower side.
        let likely = since(before.likely());
        let faster = (likely / since(before.low())).ln();
        let slower = (since(before.high()) / likely).ln();
        let whole = 0.5 * (faster + slower);
        let open = |rest: f64| {
            let share = rest / whole.max(1e-12);
            (share * faster, share * slower)
        };
        let taken = (at - course.start()).get();
        let by_reading = |core: Celsius| {
            let said = course.core_reaches_after(core.get(), 0.0, HORIZON.get())?;
            (taken > 0.0 && said > 0.0).then(|| (taken / said).ln())
        };
        // Where the forecast is nowhere within reach of the reading, the pace stays as believed.
        let (Some(ln_seen), Some(one), Some(other)) = (
            by_reading(core),
            by_reading(core - OFF),
            by_reading(core + OFF),
        ) else {
            return Self {
                ln_slower: 0.0,
                says: 0.0,
                believed: (faster, slower),
                by_reading: 0.0,
            };
        };
        let seen = 0.5 * (one - other).abs();
        let (so_far, rest) = passing.map_or((whole, whole), |passing| {
            let passed = since(passing.likely());
            let so_far = 0.5 * (since(passing.high()) / since(passing.low())).ln();
            let left = (likely - passed).max(A_SECOND);
            (so_far, ((likely * whole - passed * so_far) / left).max(0.0))
        });
        // What one unit of what was seen says about the rest.
        let (mut says, mut squared) = (so_far * rest, so_far * so_far + seen * seen);
        for (so_far, rest) in aside {
            // Two of them make one distance to either side.
            says += 0.5 * so_far * rest;
            squared += 0.5 * so_far * so_far;
        }
        let says = says / squared.max(1e-12);
        Self {
            says,
            ln_slower: says * ln_seen.clamp(-MOST_LN, MOST_LN),
            believed: open((rest - says * so_far).abs()),
            by_reading: says * seen,
        }
    }
}
