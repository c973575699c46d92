//! A forecast is never a bare number: it is a window with what it rests on.

use crate::units::Quantity;

/// What a forecast rests on, weakest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Basis {
    /// The formula's own words ("8 to 12 minutes").
    Formula,
    /// A model, from temperatures nobody has measured today.
    Model,
    /// A model, from a temperature measured today.
    Measured,
}

/// A window: nine times in ten the truth is later than `low`, and nine in ten it is earlier than `high`.
///
/// ```
/// use domain::estimate::{Basis, Estimate};
/// use domain::units::minutes;
///
/// let bulk = Estimate::new(minutes(80.0), minutes(95.0), minutes(115.0), Basis::Model);
/// assert!(bulk.low() <= bulk.likely() && bulk.likely() <= bulk.high());
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate<T> {
    // Always low <= likely <= high; the constructors see to it.
    low: T,
    likely: T,
    high: T,
    basis: Basis,
}

impl<T: Copy + PartialOrd> Estimate<T> {
    /// A window around its likely value. Ends on the wrong side of it are moved to it.
    pub fn new(low: T, likely: T, high: T, basis: Basis) -> Self {
        Self {
            low: if low < likely { low } else { likely },
            likely,
            high: if high > likely { high } else { likely },
            basis,
        }
    }

    /// A window of no width, for what is known.
    pub fn exact(value: T, basis: Basis) -> Self {
        Self {
            low: value,
            likely: value,
            high: value,
            basis,
        }
    }

    /// One time in ten the truth is below this.
    pub fn low(&self) -> T {
        self.low
    }

    /// As often below as above.
    pub fn likely(&self) -> T {
        self.likely
    }

    /// One time in ten the truth is above this.
    pub fn high(&self) -> T {
        self.high
    }

    /// What it rests on.
    pub fn basis(&self) -> Basis {
        self.basis
    }

    /// The same window seen through a function that never reverses order.
    pub fn map<U: Copy + PartialOrd>(&self, monotone: impl Fn(T) -> U) -> Estimate<U> {
        Estimate::new(
            monotone(self.low),
            monotone(self.likely),
            monotone(self.high),
            self.basis,
        )
    }
}

impl<T: Quantity> Estimate<T> {
    /// The same window on another footing.
    pub fn on(self, basis: Basis) -> Self {
        Self { basis, ..self }
    }
}
