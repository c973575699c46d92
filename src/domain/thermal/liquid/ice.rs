//! Cooling water with ice: how much of the water to replace.
//!
//! Water w at `T_tap` and ice i at `T_ice` below zero together count as water at `T`:
//!
//! `i (L + c_i (0 - T_ice) + c T) = w c (T_tap - T)` with `i + w = W`, so
//! `i = W c (T_tap - T) / (L + c T_tap - c_i T_ice)`
//!
//! with masses in g, temperatures in °C, L in J/g, c in J/(g K); the values are
//! in [`constants`](crate::thermal::constants). The balance also holds for T
//! below zero: then some ice is left, which melts in the dough.
//!
//! The trade takes ice at 0 °C and L/c as 80 K: `i = W (T_tap - T) / (T_tap + 80)`,
//! in °F `W (T_tap - T) / (T_tap + 112)`, from 144 BTU/lb (*Baking Business*).
//! A freezer's ice is colder and cools more, so we ask for about 8 % less.
//!
//! Left out: wet ice, whose film of water is mostly 2 to 5 % of it (a guess), so that as much
//! more is needed, and water that warms as it waits, by about 0.4 K a minute for 300 g in a
//! jug in a kitchen at 30 °C (10 W/(m² K) on 0.03 m², less evaporation). Other liquids
//! beside the water are [`frozen`](super::frozen)'s business.
//!
//! Asked only by the checks so far: the page asks [`frozen`](super::frozen), whose balance this is for water alone.

use super::frozen::taken_j_per_g;
use crate::thermal::constants::{COLD_WATER_SPECIFIC_HEAT, FREEZER, ICE_HEAT_OF_FUSION};
use crate::units::{
    Celsius, CelsiusDelta, Grams, JoulesPerGramKelvin, Share, celsius_delta, share,
};

/// What the trade's formula takes the melting of ice to be worth in kelvin of water: 144 BTU/lb.
pub const TRADE_MELTING: CelsiusDelta = celsius_delta(80.0);

/// How many kelvin of water the melting of as much ice is worth: L/c.
#[must_use]
pub fn melting_in_kelvin(water: JoulesPerGramKelvin) -> CelsiusDelta {
    CelsiusDelta::clamped(ICE_HEAT_OF_FUSION.get() / water.get())
}

/// How much of the water must be ice of a temperature; none when the tap is cold enough.
#[must_use]
pub fn ice_at(total: Grams, tap: Celsius, wanted: Celsius, ice_at: Celsius) -> Grams {
    // i = W c (T_tap - T) / (L + c T_tap - c_i T_ice)
    let cooled_j_per_g = COLD_WATER_SPECIFIC_HEAT.get() * (tap - wanted).get();
    let taken = taken_j_per_g(COLD_WATER_SPECIFIC_HEAT, share(1.0), tap, ice_at);
    total * Share::clamped(cooled_j_per_g / taken)
}

/// How much of the water must be ice straight from the freezer.
#[must_use]
pub fn ice_for(total: Grams, tap: Celsius, wanted: Celsius) -> Grams {
    ice_at(total, tap, wanted, FREEZER)
}

/// What the trade's formula says, to compare; `None` where it has no meaning.
///
/// Printed examples sometimes put the wanted temperature into the denominator,
/// which asks for too much ice.
#[must_use]
pub fn trade_ice(total: Grams, tap: Celsius, wanted: Celsius) -> Option<Grams> {
    // i = W (T_tap - T) / (T_tap + 80)
    let share = (tap - wanted).get() / (tap.get() + TRADE_MELTING.get());
    (0.0..=1.0)
        .contains(&share)
        .then(|| total * Share::clamped(share))
}
