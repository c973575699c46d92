//! How much a tin holds, and how much dough goes into it.
//!
//! - box with sloping sides: `V = h/6 · (L W + (L + l)(W + w) + l w)`, rim `L × W` and bottom `l × w`
//! - round with a sloping side: `V = π h/12 · (D² + D d + d²)`
//!
//! Both are geometry (the prismoidal formula) and exact but for rounded corners and rolled rims. A
//! tin filled with water and weighed says its volume best: a gram is a millilitre.
//!
//! - dough for a formula that was written for a tin: in proportion to the volumes, a tin with a lid
//!   counting for less by the ratio of the [rooms](Lid::room_for_dough)
//! - dough for any other: volume / room

use std::f64::consts::PI;

use super::ScaleError;
use crate::estimate::{Basis, Estimate};
use crate::units::{
    Grams, Millilitres, MillilitresPerGram, Millimetres, OutOfRange, millilitres_per_gram,
};

/// Whether a tin is open on top.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lid {
    /// Open: the bread rises over the rim.
    Off,
    /// Closed with a lid that the bread grows against.
    On,
}

impl Lid {
    /// The room in the tin for each gram of dough.
    ///
    /// ASSUMPTION: common practice, no source. A proved dough fills an open tin to its rim or a little
    /// less and then rises over it, so that 2.2 mL go with a gram, fewer with a heavy dough (1.8) and
    /// more with a light one (3.1); under a lid the whole bread has to fit, 3.0 mL a gram (2.6 to 3.5).
    /// For comparison: a small bread of white flour was measured at 2.97 mL/g when proved and at
    /// 5.04 mL/g when baked, and large bakeries give an open tin 4.4 mL/g at least (7.6 in³ an ounce,
    /// a trade text without an author), for bread lighter than is baked at home.
    #[must_use]
    pub fn room_for_dough(self) -> Estimate<MillilitresPerGram> {
        let [low, likely, high] = match self {
            Self::Off => [1.8, 2.2, 3.1],
            Self::On => [2.6, 3.0, 3.5],
        }
        .map(millilitres_per_gram);
        Estimate::new(low, likely, high, Basis::Model)
    }
}

/// A tin, by what it holds to the rim.
///
/// ```
/// use domain::formula::{Lid, Tin};
/// use domain::units::{grams, millimetres};
///
/// let [length, width, height] = [200.0, 100.0, 100.0].map(millimetres);
/// let tin = Tin::square([length, width], [length, width], height, Lid::Off)?;
/// assert!((tin.volume().get() - 2000.0).abs() < 1e-9);
/// # Ok::<(), domain::units::OutOfRange>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tin {
    volume: Millilitres,
    lid: Lid,
}

/// A number that a tin has to keep to.
fn within(
    value: f64,
    label: &'static str,
    unit: &'static str,
    (min, max): (f64, f64),
) -> Result<f64, OutOfRange> {
    if (min..=max).contains(&value) {
        return Ok(value);
    }
    Err(OutOfRange {
        label,
        value,
        min,
        max,
        unit,
    })
}

/// From rim to rim or wall to wall, in cm.
fn side(length: Millimetres) -> Result<f64, OutOfRange> {
    within(length.get(), "a tin's side", Millimetres::UNIT, SIDES_MM).map(|mm| mm / 10.0)
}

/// From the bottom to the rim, in cm.
fn height(length: Millimetres) -> Result<f64, OutOfRange> {
    within(
        length.get(),
        "a tin's height",
        Millimetres::UNIT,
        HEIGHTS_MM,
    )
    .map(|mm| mm / 10.0)
}

/// A bun tin's cup is 30 mm across at its bottom, and a home oven 600 mm wide.
const SIDES_MM: (f64, f64) = (20.0, 600.0);
/// From a shallow tray to a tin for panettone.
const HEIGHTS_MM: (f64, f64) = (10.0, 300.0);
/// From the cup of a bun tin to a roasting tin.
const VOLUMES_ML: (f64, f64) = (30.0, 20_000.0);

impl Tin {
    /// A tin that holds so much, 30 mL to 20 L, filled to the rim.
    ///
    /// # Errors
    /// [`OutOfRange`] where no tin at home holds that.
    pub fn holding(volume: Millilitres, lid: Lid) -> Result<Self, OutOfRange> {
        let (label, unit) = ("a tin's volume", Millilitres::UNIT);
        within(volume.get(), label, unit, VOLUMES_ML)?;
        Ok(Self { volume, lid })
    }

    /// A tin with four corners: length and width inside at the rim and at the bottom, 20 to 600 mm,
    /// and its height inside, 10 to 300 mm. Where the sides stand upright both are the same.
    ///
    /// # Errors
    /// [`OutOfRange`] where a measure, or what it holds, is no tin's.
    pub fn square(
        rim: [Millimetres; 2],
        bottom: [Millimetres; 2],
        high: Millimetres,
        lid: Lid,
    ) -> Result<Self, OutOfRange> {
        let ([long, wide], [short, narrow]) = (rim, bottom);
        let (rim, bottom) = ((side(long)?, side(wide)?), (side(short)?, side(narrow)?));
        // V = h/6 · (L W + (L + l)(W + w) + l w)
        let middle = (rim.0 + bottom.0) * (rim.1 + bottom.1);
        let areas = rim.0 * rim.1 + middle + bottom.0 * bottom.1;
        let volume_ml = height(high)? / 6.0 * areas;
        Self::holding(Millilitres::clamped(volume_ml), lid)
    }

    /// A round tin: its diameter inside at the rim and at the bottom, 20 to 600 mm, and its height
    /// inside, 10 to 300 mm.
    ///
    /// # Errors
    /// [`OutOfRange`] where a measure, or what it holds, is no tin's.
    pub fn round(
        rim: Millimetres,
        bottom: Millimetres,
        high: Millimetres,
        lid: Lid,
    ) -> Result<Self, OutOfRange> {
        let (rim, bottom) = (side(rim)?, side(bottom)?);
        // V = π h/12 · (D² + D d + d²)
        let squares = rim * rim + rim * bottom + bottom * bottom;
        let volume_ml = PI * height(high)? / 12.0 * squares;
        Self::holding(Millilitres::clamped(volume_ml), lid)
    }

    /// What it holds, filled to the rim.
    #[must_use]
    pub fn volume(self) -> Millilitres {
        self.volume
    }

    /// Whether it is closed.
    #[must_use]
    pub fn lid(self) -> Lid {
        self.lid
    }

    /// The dough that goes into it, where the formula says nothing of tins.
    #[must_use]
    pub fn dough(self) -> Estimate<Grams> {
        let room = self.lid.room_for_dough();
        let filled = |room: MillilitresPerGram| Grams::clamped(self.volume.get() / room.get());
        // The most room goes with the least dough.
        Estimate::new(
            filled(room.high()),
            filled(room.likely()),
            filled(room.low()),
            room.basis(),
        )
    }
}

/// So many tins, all alike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tins {
    /// How many.
    pub count: u16,
    /// What each is.
    pub tin: Tin,
}

impl Tins {
    /// How many pieces go into all of them.
    pub(super) fn pieces(self, each: u16) -> Result<u16, ScaleError> {
        let pieces = u32::from(self.count) * u32::from(each);
        let most = u32::from(u16::MAX);
        u16::try_from(pieces).map_err(|_| ScaleError::TooMany { pieces, most })
    }

    /// The dough that fills them, in g: by the formula's own dough and tins, or else by the room.
    pub(super) fn dough_g(self, own: Option<Self>, own_dough_g: f64) -> f64 {
        let filled_g = |tins: Self| f64::from(tins.count) * tins.tin.dough().likely().get();
        match own {
            Some(own) if own.count == 0 => 0.0,
            // As often as its own tins are filled, so that these are filled as they were.
            Some(own) => own_dough_g * (filled_g(self) / filled_g(own)),
            None => filled_g(self),
        }
    }
}
