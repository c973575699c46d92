//! The operations on quantities that mean something, and no others.

use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub};

use super::{
    BakersPercent, Celsius, CelsiusDelta, Grams, JoulesPerGram, Millilitres, MillilitresPerGram,
    Millimetres, Minutes, OutOfRange, Share,
};

impl Sub for Celsius {
    type Output = CelsiusDelta;
    fn sub(self, other: Self) -> CelsiusDelta {
        CelsiusDelta(self.0 - other.0)
    }
}

impl Add<CelsiusDelta> for Celsius {
    type Output = Self;
    fn add(self, by: CelsiusDelta) -> Self {
        Self::clamped(self.0 + by.0)
    }
}

impl Sub<CelsiusDelta> for Celsius {
    type Output = Self;
    fn sub(self, by: CelsiusDelta) -> Self {
        Self::clamped(self.0 - by.0)
    }
}

impl Celsius {
    /// Reads a temperature given in °F.
    ///
    /// # Errors
    /// [`OutOfRange`] when it lies outside the range of [`Celsius`].
    pub fn from_fahrenheit(value: f64) -> Result<Self, OutOfRange> {
        Self::new((value - 32.0) / 1.8)
    }

    /// The same temperature in °F.
    #[must_use]
    pub const fn to_fahrenheit(self) -> f64 {
        self.0 * 1.8 + 32.0
    }
}

impl CelsiusDelta {
    /// Reads a difference given in °F.
    ///
    /// # Errors
    /// [`OutOfRange`] when it lies outside the range of [`CelsiusDelta`].
    pub fn from_fahrenheit(value: f64) -> Result<Self, OutOfRange> {
        Self::new(value / 1.8)
    }

    /// The same difference in °F: five ninths, and never minus 32.
    #[must_use]
    pub const fn to_fahrenheit(self) -> f64 {
        self.0 * 1.8
    }
}

macro_rules! additive {
    ($($name:ident)*) => {$(
        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self::clamped(self.0 + other.0)
            }
        }
        impl AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                *self = *self + other;
            }
        }
        impl Sub for $name {
            type Output = Self;
            /// Stops at the least value of the quantity.
            fn sub(self, other: Self) -> Self {
                Self::clamped(self.0 - other.0)
            }
        }
        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self::clamped(self.0 * factor)
            }
        }
        impl Div for $name {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.0 / other.0
            }
        }
        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(values: I) -> Self {
                values.fold(Self::clamped(0.0), Add::add)
            }
        }
    )*};
}

additive!(Grams Minutes CelsiusDelta BakersPercent Millimetres JoulesPerGram Millilitres);

impl Div<Grams> for Millilitres {
    type Output = MillilitresPerGram;
    /// The room that a gram takes; nothing weighs nothing and takes the most there is.
    fn div(self, mass: Grams) -> MillilitresPerGram {
        MillilitresPerGram::clamped(self.0 / mass.0.max(f64::MIN_POSITIVE))
    }
}

impl Neg for Minutes {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Neg for CelsiusDelta {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Mul<Share> for Grams {
    type Output = Self;
    fn mul(self, part: Share) -> Self {
        Self(self.0 * part.0)
    }
}

impl Mul<BakersPercent> for Grams {
    type Output = Self;
    /// The mass that a baker's percentage means for this much flour.
    fn mul(self, percent: BakersPercent) -> Self {
        Self::clamped(self.0 * percent.0 / 100.0)
    }
}
