//! How well the temperatures of a bake's places are known.
//!
//! The kitchen counts as measured once somebody said during the bake how warm it is; one that was
//! said to be as it is anyway leaves no entry, and so counts as before. So does one that was set just before the start:
//! the settings keep how warm it is and not when that was said. A fridge counts as measured when it
//! has another temperature than the usual one that stands there until somebody looks.

use super::state::State;
use crate::kitchen::Place;
use crate::thermal::constants::{
    BATH_OFF, FRIDGE, ICE_BATH_OFF, MEASURED_AIR, MEASURED_FRIDGE, UNMEASURED_AIR,
    UNMEASURED_FRIDGE, WARM_PLACE_OFF,
};
use crate::thermal::vessel::{Doubt, Spot};
use crate::units::celsius;

impl State {
    /// How well the temperature of a place is known.
    pub(super) fn doubt(&self, place: Place) -> Doubt {
        let measured_fridge = self.fridge.iter().any(|&(_, reading)| reading != FRIDGE);
        let (of, off) = match place {
            Place::Kitchen if self.air.len() > 1 => (Spot::Kitchen, MEASURED_AIR),
            Place::Kitchen => (Spot::Kitchen, UNMEASURED_AIR),
            Place::Fridge if measured_fridge => (Spot::Fridge, MEASURED_FRIDGE),
            Place::Fridge => (Spot::Fridge, UNMEASURED_FRIDGE),
            Place::Warm(_) => (Spot::Own, WARM_PLACE_OFF),
            // Ice is in it.
            Place::Water(at) if at < celsius(4.0) => (Spot::Own, ICE_BATH_OFF),
            Place::Water(_) => (Spot::Own, BATH_OFF),
        };
        Doubt { of, off }
    }
}
