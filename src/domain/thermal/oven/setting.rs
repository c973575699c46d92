//! How to set the oven: fan or not, °C, °F or gas mark.
//!
//! Formulas state the temperature of an oven without fan.
//!
//! - Fan: 20 K lower (New South Wales Government, *Healthy Kids*, conversion
//!   chart); other charts say 25 K.
//! - °F: `F = 1.8 C + 32`.
//! - Gas mark: `F = 250 + 25 mark` from mark 1; marks ½ and ¼ are 250 and 225 °F.
//!   The trade's rounded °C beside them differ between tables by up to 10 K for
//!   marks ½, 1 and 3.
//!
//! Rounding: dials go by 5 °C or 25 °F, and by whole marks; a setting is the
//! nearest of these. So 180 °C is set as 350 °F (356 exactly) or mark 4, as the
//! printed tables have it. A gas oven's mark stays that of the oven without fan.

use crate::thermal::constants::FAN_OFFSET;
use crate::units::{Celsius, WattsPerSquareMetreKelvin, celsius, watts_per_square_metre_kelvin};
use std::fmt;

/// How the oven moves its heat.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fan {
    /// Top and bottom heat, still air.
    Off,
    /// A fan blows the air about.
    On,
}

impl Fan {
    /// h at what bakes, radiation included.
    ///
    /// 20 to 48 W/(m² K) were measured at cakes in a tunnel oven of 186 to 225 °C, rising with the
    /// air's speed and three quarters of it radiation: Baik, Grabowski, Trigui, Marcotte and
    /// Castaigne (1999), *J. Food Sci.* 64:688 (abstract). Still air: 21, of which 15 are radiation
    /// from walls of 190 °C to a surface of 100 °C and 6 natural convection (computed).
    /// ASSUMPTION: 30 with a fan; it would take 25 to make up for the 20 K of [`FAN_OFFSET`] exactly,
    /// and a piece of 100 g is done 5 % sooner than the chart has it.
    #[must_use]
    pub const fn film(self) -> WattsPerSquareMetreKelvin {
        watts_per_square_metre_kelvin(match self {
            Self::Off => 21.0,
            Self::On => 30.0,
        })
    }
}

/// What the oven's dial shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dial {
    /// °C.
    Celsius,
    /// °F.
    Fahrenheit,
    /// Gas marks.
    Gas,
}

/// A British gas mark.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum GasMark {
    /// ¼.
    Quarter,
    /// ½.
    Half,
    /// 1.
    One,
    /// 2.
    Two,
    /// 3.
    Three,
    /// 4.
    Four,
    /// 5.
    Five,
    /// 6.
    Six,
    /// 7.
    Seven,
    /// 8.
    Eight,
    /// 9.
    Nine,
}

impl GasMark {
    /// All marks, coolest first.
    pub const ALL: [Self; 11] = [
        Self::Quarter,
        Self::Half,
        Self::One,
        Self::Two,
        Self::Three,
        Self::Four,
        Self::Five,
        Self::Six,
        Self::Seven,
        Self::Eight,
        Self::Nine,
    ];

    /// Its temperature in °F, 25 apart from 225.
    #[must_use]
    pub const fn fahrenheit(self) -> u16 {
        225 + 25 * (self as u16)
    }

    /// The temperature itself.
    #[must_use]
    pub fn exact(self) -> Celsius {
        Celsius::clamped((f64::from(self.fahrenheit()) - 32.0) / 1.8)
    }

    /// The rounded temperature that tables print.
    #[must_use]
    pub const fn rounded(self) -> Celsius {
        celsius(match self {
            Self::Quarter => 110.0,
            Self::Half => 120.0,
            Self::One => 140.0,
            Self::Two => 150.0,
            Self::Three => 160.0,
            Self::Four => 180.0,
            Self::Five => 190.0,
            Self::Six => 200.0,
            Self::Seven => 220.0,
            Self::Eight => 230.0,
            Self::Nine => 240.0,
        })
    }

    /// The mark nearest to a temperature, or `None` more than a mark beyond the coolest or hottest.
    #[must_use]
    pub fn nearest(to: Celsius) -> Option<Self> {
        let away_k = |mark: &Self| (mark.exact() - to).get().abs();
        Self::ALL
            .into_iter()
            .min_by(|one, other| away_k(one).total_cmp(&away_k(other)))
            .filter(|mark| away_k(mark) <= 25.0 / 1.8)
    }
}

impl fmt::Display for GasMark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Quarter => f.write_str("¼"),
            Self::Half => f.write_str("½"),
            whole => write!(f, "{}", (*whole as u8) - 1),
        }
    }
}

/// What to turn the dial to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DialSetting {
    /// °C.
    Celsius(i32),
    /// °F.
    Fahrenheit(i32),
    /// A gas mark.
    Gas(GasMark),
}

impl DialSetting {
    /// What the setting means without fan, as formulas state it: the way back from [`dial_setting`],
    /// to half a step of the dial (2.5 K, 12.5 °F, half a mark). Clamped to the range of [`Celsius`].
    ///
    /// ```
    /// use domain::thermal::oven::{DialSetting, Fan};
    ///
    /// assert_eq!(DialSetting::Celsius(160).without_fan(Fan::On).get(), 180.0);
    /// ```
    #[must_use]
    pub fn without_fan(self, fan: Fan) -> Celsius {
        let set = match self {
            // A gas oven's mark is that of the oven without fan.
            Self::Gas(mark) => return mark.exact(),
            Self::Celsius(set) => Celsius::clamped(f64::from(set)),
            Self::Fahrenheit(set) => Celsius::clamped((f64::from(set) - 32.0) / 1.8),
        };
        match fan {
            Fan::Off => set,
            Fan::On => without_fan(set),
        }
    }
}

/// What to turn the dial to for a temperature stated without fan, or `None` off the gas marks.
///
/// ```
/// use domain::thermal::oven::{Dial, DialSetting, Fan, dial_setting};
/// use domain::units::celsius;
///
/// let setting = dial_setting(celsius(200.0), Fan::On, Dial::Celsius);
/// assert_eq!(setting, Some(DialSetting::Celsius(180)));
/// ```
#[must_use]
pub fn dial_setting(without_fan: Celsius, fan: Fan, dial: Dial) -> Option<DialSetting> {
    let set = match fan {
        Fan::Off => without_fan,
        Fan::On => with_fan(without_fan),
    };
    match dial {
        Dial::Celsius => Some(DialSetting::Celsius(nearest_step(set.get(), 5.0))),
        Dial::Fahrenheit => Some(DialSetting::Fahrenheit(nearest_step(
            set.to_fahrenheit(),
            25.0,
        ))),
        Dial::Gas => GasMark::nearest(without_fan).map(DialSetting::Gas),
    }
}

/// What an oven with fan is set to for a temperature stated without.
#[must_use]
pub fn with_fan(without_fan: Celsius) -> Celsius {
    without_fan - FAN_OFFSET
}

/// What a setting with fan means without.
#[must_use]
pub fn without_fan(with_fan: Celsius) -> Celsius {
    with_fan + FAN_OFFSET
}

/// The nearest multiple of a dial's step. Oven temperatures are far inside an `i32`.
fn nearest_step(value: f64, step: f64) -> i32 {
    ((value / step).round() * step) as i32
}
