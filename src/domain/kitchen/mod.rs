//! The kitchen a bake happens in: how warm it is and what it works with.

mod place;
mod scales;

pub use place::{COLDEST_PLACE, Place, WARMEST_PLACE};
pub use scales::{FineScales, Scales};

use crate::thermal::constants::{CHECKED_OVEN, FRIDGE, UNCHECKED_OVEN};
use crate::thermal::kneading::KneadingMethod;
use crate::thermal::oven::Fan;
use crate::units::{
    Celsius, CelsiusDelta, Metres, Minutes, celsius, celsius_delta, metres, minutes,
};

/// How an oven heats, which says what to set it to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OvenKind {
    /// Top and bottom heat: what formulas are written for.
    Conventional,
    /// With its fan on.
    Fan,
    /// Gas, set by marks.
    Gas,
}

impl OvenKind {
    /// Whether it blows its air about.
    #[must_use]
    pub fn fan(self) -> Fan {
        match self {
            Self::Fan => Fan::On,
            Self::Conventional | Self::Gas => Fan::Off,
        }
    }
}

/// An oven further than this from what its dial says, either way, is broken or was mistyped.
pub const FURTHEST_OVEN: CelsiusDelta = celsius_delta(40.0);

/// Kitchen air colder than this was mistyped.
pub const COLDEST_AIR: Celsius = celsius(-10.0);
/// Kitchen air warmer than this was mistyped.
pub const WARMEST_AIR: Celsius = celsius(50.0);

/// ASSUMPTION: so many bowls, tins and trays a home fridge takes beside what is in it anyway, until the baker says
/// otherwise (judgement).
pub const FRIDGE_HOLDS: u32 = 4;
/// Room for more was mistyped.
pub const MOST_FRIDGE_HOLDS: u32 = 20;

/// The facts about a kitchen that the models need.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Kitchen {
    /// The air around the dough.
    pub air: Celsius,
    /// The flour, where somebody measured it; otherwise it is as warm as the air.
    pub flour: Option<Celsius>,
    /// The fridge.
    pub fridge: Celsius,
    /// How many bowls, tins and trays fit into it beside what is in it anyway.
    pub fridge_holds: u32,
    /// How the dough is kneaded.
    pub kneading: KneadingMethod,
    /// How the oven heats.
    pub oven: OvenKind,
    /// How much hotter it is than its dial says, where somebody measured it; less than nothing where it is cooler.
    pub oven_off: Option<CelsiusDelta>,
    /// How long it takes from cold.
    pub oven_heats_in: Minutes,
    /// What the baker weighs with.
    pub scales: Scales,
    /// How high the kitchen lies, which lowers the boiling point.
    pub altitude: Metres,
}

impl Kitchen {
    /// A kitchen nobody has measured yet.
    pub const UNMEASURED: Self = Self {
        air: celsius(21.0),
        flour: None,
        fridge: FRIDGE,
        fridge_holds: FRIDGE_HOLDS,
        kneading: KneadingMethod::Hand,
        oven: OvenKind::Conventional,
        oven_off: None,
        oven_heats_in: minutes(20.0),
        scales: Scales::KITCHEN,
        altitude: metres(0.0),
    };

    /// What the dial has to say for the oven to have a temperature.
    #[must_use]
    pub fn dial_for(&self, wanted: Celsius) -> Celsius {
        self.oven_off.map_or(wanted, |off| wanted - off)
    }

    /// How far the oven may be from a temperature that it is set to.
    #[must_use]
    pub fn oven_spread(&self) -> CelsiusDelta {
        match self.oven_off {
            Some(_) => CHECKED_OVEN,
            None => UNCHECKED_OVEN,
        }
    }

    /// The flour's temperature.
    #[must_use]
    pub fn flour_temperature(&self) -> Celsius {
        self.flour.unwrap_or(self.air)
    }
}
