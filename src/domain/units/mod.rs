//! Quantities, one type each, so that a mass can't be added to a temperature.
//!
//! Every quantity is a finite `f64` inside a published range, checked where it
//! enters. A temperature ([`Celsius`]) and a difference of temperatures
//! ([`CelsiusDelta`]) are different types, as are a share of all the flour
//! ([`BakersPercent`]) and a share of the whole ([`Share`]), and a moment
//! ([`Moment`]) and a length of time ([`Minutes`]).
//!
//! Only the operations that mean something exist:
//!
//! ```
//! use domain::units::{celsius, minutes, Moment};
//!
//! let warmed_by = celsius(26.0) - celsius(22.5);
//! assert_eq!((celsius(20.0) + warmed_by).get(), 23.5);
//!
//! let start = Moment::from_epoch_ms(0);
//! assert_eq!((start + minutes(90.0)) - start, minutes(90.0));
//! ```
//!
//! Two temperatures have no sum:
//!
//! ```compile_fail
//! use domain::units::celsius;
//! let nonsense = celsius(20.0) + celsius(20.0);
//! ```
//!
//! Nor do a mass and a temperature, two moments, or the two kinds of percentage:
//!
//! ```compile_fail
//! use domain::units::{celsius, grams};
//! let nonsense = grams(20.0) + celsius(20.0);
//! ```
//!
//! ```compile_fail
//! use domain::units::Moment;
//! let nonsense = Moment::from_epoch_ms(0) + Moment::from_epoch_ms(0);
//! ```
//!
//! ```compile_fail
//! use domain::units::{bakers_percent, share};
//! let nonsense = bakers_percent(2.0) + share(0.02);
//! ```
//!
//! Two masses have no product, and a difference of temperatures is no temperature:
//!
//! ```compile_fail
//! use domain::units::grams;
//! let nonsense = grams(2.0) * grams(2.0);
//! ```
//!
//! ```compile_fail
//! use domain::units::{celsius, Celsius};
//! let nonsense: Celsius = celsius(30.0) - celsius(20.0);
//! ```

mod arithmetic;
pub mod duration;
pub mod measures;
mod moment;
pub mod told;

pub use moment::Moment;

use std::fmt;

use crate::decimal::plain;

/// A value outside the range of its quantity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OutOfRange {
    /// What was being measured, in lower case: "temperature".
    pub label: &'static str,
    /// The offending value, in `unit`.
    pub value: f64,
    /// The least allowed value, in `unit`.
    pub min: f64,
    /// The greatest allowed value, in `unit`.
    pub max: f64,
    /// The unit as it is written: "°C".
    pub unit: &'static str,
}

impl fmt::Display for OutOfRange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            label,
            value,
            min,
            max,
            unit,
        } = self;
        write!(
            f,
            "{label} is {} {unit}, outside {} to {} {unit}",
            plain(*value, 2),
            plain(*min, 2),
            plain(*max, 2)
        )
    }
}

impl std::error::Error for OutOfRange {}

/// What every quantity can do, for code that is generic over them.
pub trait Quantity: Copy + PartialOrd + fmt::Debug {
    /// The bare number in the quantity's unit.
    fn get(self) -> f64;
    /// The nearest value in range; not-a-number becomes the least.
    fn clamped(value: f64) -> Self;
}

macro_rules! quantities {
    ($($(#[$doc:meta])* $name:ident, $literal:ident, $label:literal, $unit:literal, $min:expr, $max:expr;)*) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            /// The least value of this quantity.
            pub const MIN: Self = Self($min);
            /// The greatest value of this quantity.
            pub const MAX: Self = Self($max);
            /// The unit as it is written.
            pub const UNIT: &'static str = $unit;

            /// A value that came from outside the program.
            ///
            /// # Errors
            /// [`OutOfRange`] when it is not finite or not between [`Self::MIN`] and [`Self::MAX`].
            pub fn new(value: f64) -> Result<Self, OutOfRange> {
                if ($min..=$max).contains(&value) {
                    Ok(Self(value))
                } else {
                    Err(OutOfRange { label: $label, value, min: $min, max: $max, unit: $unit })
                }
            }

            #[doc = concat!("The bare number, in ", $unit, ".")]
            #[must_use]
            pub const fn get(self) -> f64 {
                self.0
            }

            /// The nearest value in range; not-a-number becomes the least.
            #[must_use]
            pub const fn clamped(value: f64) -> Self {
                if value.is_nan() || value < $min {
                    Self($min)
                } else if value > $max {
                    Self($max)
                } else {
                    Self(value)
                }
            }

            /// The smaller of two.
            #[must_use]
            pub const fn min(self, other: Self) -> Self {
                if other.0 < self.0 { other } else { self }
            }

            /// The larger of two.
            #[must_use]
            pub const fn max(self, other: Self) -> Self {
                if other.0 > self.0 { other } else { self }
            }
        }

        impl Quantity for $name {
            fn get(self) -> f64 {
                self.0
            }
            fn clamped(value: f64) -> Self {
                Self::clamped(value)
            }
        }

        #[doc = concat!("A literal ", $label, " in ", $unit, ", for constants and tests.")]
        ///
        /// # Panics
        /// When the value is out of range; data from outside goes through `new`.
        #[must_use]
        pub const fn $literal(value: f64) -> $name {
            // A range's `contains` can't be called in a constant.
            #[allow(clippy::manual_range_contains, reason = "as above")]
            let fits = value >= $min && value <= $max;
            assert!(fits, "literal out of range");
            $name(value)
        }
    )*};
}

quantities! {
    /// A temperature, in °C. The range covers a deep freezer to the hottest home oven.
    Celsius, celsius, "temperature", "°C", -60.0, 400.0;
    /// A difference of two temperatures, in K.
    CelsiusDelta, celsius_delta, "temperature difference", "K", -460.0, 460.0;
    /// A mass, in g.
    Grams, grams, "mass", "g", 0.0, 100_000.0;
    /// A length of time, in min; negative when it has passed.
    Minutes, minutes, "duration", "min", -1_000_000.0, 1_000_000.0;
    /// A mass as a percentage of all the flour of a formula.
    BakersPercent, bakers_percent, "baker's percentage", "% of flour", 0.0, 10_000.0;
    /// A part of a whole, from 0 to 1.
    Share, share, "share", "of the whole", 0.0, 1.0;
    /// Specific heat, in J/(g K), which is the same number as kJ/(kg K).
    JoulesPerGramKelvin, joules_per_gram_kelvin, "specific heat", "J/(g K)", 0.0, 10.0;
    /// Heat taken or given per mass, in J/g, which is the same number as kJ/kg.
    JoulesPerGram, joules_per_gram, "heat per mass", "J/g", -1_000.0, 1_000.0;
    /// Thermal conductivity, in W/(m K).
    WattsPerMetreKelvin, watts_per_metre_kelvin, "thermal conductivity", "W/(m K)", 0.0, 500.0;
    /// Density, in kg/m³.
    KilogramsPerCubicMetre, kilograms_per_cubic_metre, "density", "kg/m³", 0.0, 10_000.0;
    /// How much heat passes between a surface and what surrounds it, in W/(m² K).
    WattsPerSquareMetreKelvin, watts_per_square_metre_kelvin, "heat transfer coefficient", "W/(m² K)", 0.0, 10_000.0;
    /// A length, in mm.
    Millimetres, millimetres, "length", "mm", 0.0, 2_000.0;
    /// Height above the sea, in m.
    Metres, metres, "altitude", "m", -500.0, 6_000.0;
    /// A volume, in mL.
    Millilitres, millilitres, "volume", "mL", 0.0, 1_000_000.0;
    /// Room taken per mass, in mL/g.
    MillilitresPerGram, millilitres_per_gram, "specific volume", "mL/g", 0.0, 1_000.0;
    /// Thermal diffusivity, in m²/s.
    SquareMetresPerSecond, square_metres_per_second, "thermal diffusivity", "m²/s", 0.0, 1.0;
    /// Pressure, in Pa.
    Pascals, pascals, "pressure", "Pa", 0.0, 1_000_000.0;
    /// Energy per amount of substance, in kJ/mol.
    KilojoulesPerMole, kilojoules_per_mole, "molar energy", "kJ/mol", -1_000.0, 1_000.0;
}
