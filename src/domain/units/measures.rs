//! Cups, spoons, ounces and the heat units of the trade.
//!
//! - The US gallon is 231 cubic inches of 2.54 cm, 3785.411784 mL; a cup is a
//!   sixteenth of it, a fluid ounce a 128th, a tablespoon a 256th, a teaspoon a 768th.
//! - The imperial gallon is 4546.09 mL; a fluid ounce is a 160th of it.
//! - Metric spoons and cups are round: teaspoon 5 mL, tablespoon 15 mL (20 mL in
//!   Australia), cup 250 mL.
//! - The pound is 453.59237 g, the ounce a sixteenth of it.
//! - A watt hour is 3600 J; a BTU per pound is 2.326 J/g (the international table's BTU).
//!
//! Exact by definition: NIST SP 811, appendix B, for what is not metric; Standards
//! Association of Australia as in New South Wales Government, *Healthy Kids*, conversion
//! chart, for what is. Left out: how people fill a cup, which varies by a tenth and more
//! for flour ([`crate::food::pantry`] has weighed cups).

use super::{Grams, JoulesPerGram, Millilitres, OutOfRange, grams, millilitres};

const US_GALLON_ML: f64 = 3_785.411_784;
const IMPERIAL_GALLON_ML: f64 = 4_546.09;

/// The avoirdupois pound.
pub const POUND: Grams = grams(453.592_37);

/// The avoirdupois ounce.
pub const OUNCE: Grams = grams(453.592_37 / 16.0);

/// A spoon, cup or fluid ounce.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// US cup.
    UsCup,
    /// US fluid ounce.
    UsFluidOunce,
    /// US tablespoon.
    UsTablespoon,
    /// US teaspoon.
    UsTeaspoon,
    /// Imperial fluid ounce.
    ImperialFluidOunce,
    /// Metric cup.
    MetricCup,
    /// Metric tablespoon, as in Britain and New Zealand.
    MetricTablespoon,
    /// Australian tablespoon.
    AustralianTablespoon,
    /// Metric teaspoon.
    MetricTeaspoon,
}

impl Measure {
    /// How much it holds, levelled.
    ///
    /// ```
    /// use domain::units::measures::Measure;
    ///
    /// assert_eq!(Measure::MetricCup.volume().get(), 250.0);
    /// ```
    #[must_use]
    pub const fn volume(self) -> Millilitres {
        millilitres(match self {
            Self::UsCup => US_GALLON_ML / 16.0,
            Self::UsFluidOunce => US_GALLON_ML / 128.0,
            Self::UsTablespoon => US_GALLON_ML / 256.0,
            Self::UsTeaspoon => US_GALLON_ML / 768.0,
            Self::ImperialFluidOunce => IMPERIAL_GALLON_ML / 160.0,
            Self::MetricCup => 250.0,
            Self::MetricTablespoon => 15.0,
            Self::AustralianTablespoon => 20.0,
            Self::MetricTeaspoon => 5.0,
        })
    }
}

impl JoulesPerGram {
    /// Reads work given in Wh/kg, as mixers are rated.
    ///
    /// # Errors
    /// [`OutOfRange`] when it lies outside the range of [`JoulesPerGram`].
    pub fn from_watt_hours_per_kilogram(value: f64) -> Result<Self, OutOfRange> {
        Self::new(value * 3.6)
    }

    /// Reads heat given in BTU/lb.
    ///
    /// # Errors
    /// [`OutOfRange`] when it lies outside the range of [`JoulesPerGram`].
    pub fn from_btu_per_pound(value: f64) -> Result<Self, OutOfRange> {
        Self::new(value * 2.326)
    }
}
