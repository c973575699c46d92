//! Where a dough or a filling stands, and how well heat passes there.

use crate::thermal::constants::ICE_BATH;
use crate::thermal::vessel::Cooling;
use crate::units::{Celsius, WattsPerSquareMetreKelvin, celsius};

/// No fridge that food is kept in is colder than this.
pub const COLDEST_PLACE: Celsius = celsius(-5.0);
/// ASSUMPTION: warmer than this nobody lets a dough stand; yeast slows from 38 °C on.
pub const WARMEST_PLACE: Celsius = celsius(45.0);

/// Where a dough or a filling stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Place {
    /// Out in the kitchen.
    Kitchen,
    /// In the fridge.
    Fridge,
    /// In air of its own, as warm as a thermometer beside it says: a proofer, or the
    /// switched-off oven with its lamp on. It is taken to stay so warm.
    Warm(Celsius),
    /// Its bowl or dish in water, taken to be kept at its temperature.
    Water(Celsius),
}

impl Place {
    /// A dish in water with ice.
    pub const ICE_WATER: Self = Self::Water(ICE_BATH);

    /// h, the heat transfer coefficient.
    ///
    /// Air as in still air, also under an oven's lamp. Water as around a thin dish in an ice bath:
    /// a thick glass bowl passes half of that, which makes the lag of a dough about a tenth
    /// longer (39 to 42 min for 680 g), because the dough itself is what hinders most.
    #[must_use]
    pub const fn film(self) -> WattsPerSquareMetreKelvin {
        match self {
            Self::Kitchen | Self::Fridge | Self::Warm(_) => Cooling::Kitchen.film(),
            Self::Water(_) => Cooling::IceBath.film(),
        }
    }

    /// What a filling's dish stands in when its cooling begins.
    #[must_use]
    pub const fn of(cooling: Cooling) -> Self {
        match cooling {
            Cooling::Kitchen => Self::Kitchen,
            Cooling::Fridge => Self::Fridge,
            Cooling::IceBath => Self::ICE_WATER,
        }
    }
}
