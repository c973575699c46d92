//! What a reading in the middle of a body says about the rest of its way.
//!
//! A [`Course`] forecasts the centre of a body from how it began; a window round
//! it says how well that is known. A reading T at the moment t corrects both:
//!
//! - From t on the body goes through the reading. Its inside keeps the profile
//!   of the forecast, every gap to the surroundings multiplied by
//!   `(T − T∞) / (T_forecast − T∞)`. Conduction is linear, so this is again a
//!   solution of it; for a body of one mode it is Newton's
//!   `T∞ + (T − T∞) exp(−(t' − t) / τ)`.
//! - How fast it goes is learnt from when the forecast has that temperature:
//!   `ln s = ln (t / t_forecast(T))`, as uncertain as a reading off by
//!   [`OFF`] makes it. It is weighed with what was believed, `ln s = 0` within
//!   the window's ends, by their squared spreads, as for two measurements of
//!   one quantity. All lags from then on are multiplied by the s so found. A
//!   reading soon after the start thus says next to nothing about the pace,
//!   and a late one nearly everything.
//!
//! The window of what remains holds the spread of s and the reading's own,
//! added in quadrature of their logarithms as in [`crate::yeast::proof`].
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
/// `before` is the window without the reading. A centre that is there already
/// gives the moment of the reading, the latest at which it was; what doesn't
/// come within [`HORIZON`] of the reading is given as that moment.
#[must_use]
pub fn window_after(
    course: &Course,
    before: &Estimate<Moment>,
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
    let pace = Pace::seen(course, before, at, core);
    let remains = |core: Celsius, ln_slower: f64| {
        if is_there(core) {
            return A_SECOND;
        }
        let rest = course.through(at, core, ln_slower.exp());
        let after = rest.core_reaches_after(target.get(), 0.0, HORIZON.get());
        after.unwrap_or(HORIZON.get()).max(A_SECOND)
    };
    let (nearer, farther) = if rises {
        (core + OFF, core - OFF)
    } else {
        (core - OFF, core + OFF)
    };
    let likely = remains(core, pace.ln_slower);
    let apart = |minutes: f64| (minutes / likely).ln().abs();
    let together = |one: f64, other: f64| (one * one + other * other).sqrt();
    let early = together(
        apart(remains(core, pace.ln_slower - pace.faster)),
        apart(remains(nearer, pace.ln_slower)),
    );
    let late = together(
        apart(remains(core, pace.ln_slower + pace.slower)),
        apart(remains(farther, pace.ln_slower)),
    );
    let moment = |after: f64| at + Minutes::clamped(after.min(HORIZON.get()));
    Estimate::new(
        moment(likely * (-early).exp()),
        moment(likely),
        moment(likely * late.exp()),
        Basis::Measured,
    )
}

/// How much slower than forecast a body goes, as a logarithm, with the distances to its percentiles.
struct Pace {
    ln_slower: f64,
    faster: f64,
    slower: f64,
}

impl Pace {
    fn seen(course: &Course, before: &Estimate<Moment>, at: Moment, core: Celsius) -> Self {
        let since = |moment: Moment| (moment - course.start()).get().max(A_SECOND);
        let likely = since(before.likely());
        let believed = Self {
            ln_slower: 0.0,
            faster: (likely / since(before.low())).ln(),
            slower: (since(before.high()) / likely).ln(),
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
            return believed;
        };
        let seen_squared = (0.5 * (one - other)).powi(2);
        // v = v₀ v₁ / (v₀ + v₁) for squared spreads, of what was believed and of what was seen
        let both = |spread: f64| {
            let squared = spread * spread;
            (squared * seen_squared / (squared + seen_squared).max(1e-12)).sqrt()
        };
        let believed_squared = (0.5 * (believed.faster + believed.slower)).powi(2);
        let weight = believed_squared / (believed_squared + seen_squared).max(1e-12);
        Self {
            ln_slower: weight * ln_seen.clamp(-MOST_LN, MOST_LN),
            faster: both(believed.faster),
            slower: both(believed.slower),
        }
    }
}
