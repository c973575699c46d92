//! A mass in the units that scales show: kilograms, ounces, pounds, and pounds with ounces.
//!
//! The pound is 453.59237 g exactly, the ounce a sixteenth of it: NIST SP 811, appendix B.

use super::measures::{OUNCE, POUND};
use super::{Grams, OutOfRange};

/// A mass in whole pounds and the ounces beside them, rounded as it is shown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PoundsAndOunces {
    /// Whole pounds.
    pub pounds: u32,
    /// Ounces beside them, below 16.
    pub ounces: f64,
}

impl Grams {
    /// Reads a mass given in kg.
    ///
    /// # Errors
    /// [`OutOfRange`] when it lies outside the range of [`Grams`].
    pub fn from_kilograms(value: f64) -> Result<Self, OutOfRange> {
        Self::new(value * 1000.0)
    }

    /// The same mass in kg.
    #[must_use]
    pub fn to_kilograms(self) -> f64 {
        self.get() / 1000.0
    }

    /// Reads a mass given in ounces.
    ///
    /// # Errors
    /// [`OutOfRange`] when it lies outside the range of [`Grams`].
    pub fn from_ounces(value: f64) -> Result<Self, OutOfRange> {
        Self::new(value * OUNCE.get())
    }

    /// The same mass in ounces.
    #[must_use]
    pub fn to_ounces(self) -> f64 {
        self / OUNCE
    }

    /// Reads a mass given in pounds.
    ///
    /// # Errors
    /// [`OutOfRange`] when it lies outside the range of [`Grams`].
    pub fn from_pounds(value: f64) -> Result<Self, OutOfRange> {
        Self::new(value * POUND.get())
    }

    /// The same mass in pounds.
    #[must_use]
    pub fn to_pounds(self) -> f64 {
        self / POUND
    }

    /// Reads a mass given in pounds and ounces, of which there may be more than 16.
    ///
    /// # Errors
    /// [`OutOfRange`] when it lies outside the range of [`Grams`].
    pub fn from_pounds_and_ounces(pounds: f64, ounces: f64) -> Result<Self, OutOfRange> {
        Self::from_ounces(pounds * 16.0 + ounces)
    }

    /// The same mass in pounds and ounces, to the nearest of so many parts of an ounce (none counts as
    /// one), so that what is nearly a pound is a pound and never 16 ounces.
    ///
    /// ```
    /// use domain::units::grams;
    ///
    /// let shown = grams(680.0).to_pounds_and_ounces(4);
    /// assert_eq!((shown.pounds, shown.ounces), (1, 8.0));
    /// ```
    #[must_use]
    pub fn to_pounds_and_ounces(self, parts: u32) -> PoundsAndOunces {
        let parts = f64::from(parts.max(1));
        let ounces = (self.to_ounces() * parts).round() / parts;
        let pounds = (ounces / 16.0).floor();
        PoundsAndOunces {
            // At most 221: a `Grams` is 100 kg at most.
            pounds: pounds as u32,
            ounces: ounces - pounds * 16.0,
        }
    }
}
