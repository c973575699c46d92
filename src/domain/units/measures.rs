//! Cups, spoons, pints, inches and the heat units of the trade.
//!
//! - The US gallon is 231 cubic inches of 2.54 cm, 3785.411784 mL; a quart is
//!   a quarter of it, a pint an eighth, a cup a sixteenth, a fluid ounce a 128th, a tablespoon a
//!   256th, a teaspoon a 768th.
//! - The imperial gallon is 4546.09 mL; a pint is an eighth of it, a fluid ounce a 160th.
//! - Metric spoons and cups are round: teaspoon 5 mL, tablespoon 15 mL (20 mL in
//!   Australia), cup 250 mL.
//! - The pound is 453.59237 g, the ounce a sixteenth of it; how a mass is told in them is in
//!   [`told`](super::told).
//! - The inch is 25.4 mm.
//! - A watt hour is 3600 J; a BTU per pound is 2.326 J/g (the international table's BTU).
//!
//! Exact by definition: NIST SP 811, appendix B, for what is not metric; Standards
//! Association of Australia as in New South Wales Government, *Healthy Kids*, conversion
//! chart, for what is. Left out: how people fill a cup, which varies by a tenth and more
//! for flour ([`crate::food::pantry`] has weighed cups).

use super::{
    Grams, JoulesPerGram, Millilitres, Millimetres, OutOfRange, grams, millilitres, millimetres,
};

const US_GALLON_ML: f64 = 3_785.411_784;
const IMPERIAL_GALLON_ML: f64 = 4_546.09;

/// The avoirdupois pound.
pub const POUND: Grams = grams(453.592_37);

/// The avoirdupois ounce.
pub const OUNCE: Grams = grams(453.592_37 / 16.0);

/// The inch.
pub const INCH: Millimetres = millimetres(25.4);

/// A spoon, cup, pint or fluid ounce.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// US liquid quart.
    UsQuart,
    /// US liquid pint.
    UsPint,
    /// US cup.
    UsCup,
    /// US fluid ounce.
    UsFluidOunce,
    /// US tablespoon.
    UsTablespoon,
    /// US teaspoon.
    UsTeaspoon,
    /// Imperial pint.
    ImperialPint,
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
    /// All of them, each system from its largest on.
    pub const ALL: [Self; 12] = [
        Self::UsQuart,
        Self::UsPint,
        Self::UsCup,
        Self::UsFluidOunce,
        Self::UsTablespoon,
        Self::UsTeaspoon,
        Self::ImperialPint,
        Self::ImperialFluidOunce,
        Self::MetricCup,
        Self::MetricTablespoon,
        Self::AustralianTablespoon,
        Self::MetricTeaspoon,
    ];

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
            Self::UsQuart => US_GALLON_ML / 4.0,
            Self::UsPint => US_GALLON_ML / 8.0,
            Self::UsCup => US_GALLON_ML / 16.0,
            Self::UsFluidOunce => US_GALLON_ML / 128.0,
            Self::UsTablespoon => US_GALLON_ML / 256.0,
            Self::UsTeaspoon => US_GALLON_ML / 768.0,
            Self::ImperialPint => IMPERIAL_GALLON_ML / 8.0,
            Self::ImperialFluidOunce => IMPERIAL_GALLON_ML / 160.0,
            Self::MetricCup => 250.0,
            Self::MetricTablespoon => 15.0,
            Self::AustralianTablespoon => 20.0,
            Self::MetricTeaspoon => 5.0,
        })
    }
}

impl Millilitres {
    /// So many cups, spoons or ounces, levelled.
    ///
    /// # Errors
    /// [`OutOfRange`] when it lies outside the range of [`Millilitres`].
    pub fn from_measures(count: f64, measure: Measure) -> Result<Self, OutOfRange> {
        Self::new(count * measure.volume().get())
    }

    /// How many cups, spoons or ounces it fills.
    #[must_use]
    pub fn to_measures(self, measure: Measure) -> f64 {
        self / measure.volume()
    }
}

impl Millimetres {
    /// Reads a length given in cm.
    ///
    /// # Errors
    /// [`OutOfRange`] when it lies outside the range of [`Millimetres`].
    pub fn from_centimetres(value: f64) -> Result<Self, OutOfRange> {
        Self::new(value * 10.0)
    }

    /// The same length in cm.
    #[must_use]
    pub fn to_centimetres(self) -> f64 {
        self.get() / 10.0
    }

    /// Reads a length given in inches.
    ///
    /// # Errors
    /// [`OutOfRange`] when it lies outside the range of [`Millimetres`].
    pub fn from_inches(value: f64) -> Result<Self, OutOfRange> {
        Self::new(value * INCH.get())
    }

    /// The same length in inches.
    #[must_use]
    pub fn to_inches(self) -> f64 {
        self / INCH
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
