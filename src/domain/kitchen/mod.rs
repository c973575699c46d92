//! The kitchen a bake happens in: how warm it is and what it works with.

mod place;
mod scales;

pub use place::Place;
pub use scales::{FineScales, Scales};

use crate::thermal::constants::FRIDGE;
use crate::thermal::kneading::KneadingMethod;
use crate::units::{Celsius, Metres, Minutes, celsius, metres, minutes};

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

/// Kitchen air colder than this was mistyped.
pub const COLDEST_AIR: Celsius = celsius(-10.0);
/// Kitchen air warmer than this was mistyped.
pub const WARMEST_AIR: Celsius = celsius(50.0);

/// The facts about a kitchen that the models need.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Kitchen {
    /// The air around the dough.
    pub air: Celsius,
    /// The flour, where somebody measured it; otherwise it is as warm as the air.
    pub flour: Option<Celsius>,
    /// The fridge.
    pub fridge: Celsius,
    /// How the dough is kneaded.
    pub kneading: KneadingMethod,
    /// How the oven heats.
    pub oven: OvenKind,
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
        kneading: KneadingMethod::Hand,
        oven: OvenKind::Conventional,
        oven_heats_in: minutes(20.0),
        scales: Scales::KITCHEN,
        altitude: metres(0.0),
    };

    /// The flour's temperature.
    #[must_use]
    pub fn flour_temperature(&self) -> Celsius {
        self.flour.unwrap_or(self.air)
    }
}
