//! The liquid's temperature by the heat balance alone, without kneading's exchange with the room.
//!
//! `T_l = T + missing(T) / (m_l c_l)`, where `missing` is the heat that the balance of
//! [`mixing`](crate::thermal::mixing) lacks when all, the liquid too, is at the target T. This is
//! the trade's calorimetric sum; what kneading takes from hands and kitchen afterwards is
//! [`liquid_temperature`](super::liquid_temperature)'s business, and differs from it by several kelvin
//! in the liquid: for a mixer in a kitchen at the dough's own temperature by 10 K or so (2 K of
//! friction in a dough of which the liquid is a third of the heat), by hand by any amount.
//!
//! Validity and what is left out are those of [`mixing`](crate::thermal::mixing). Milk fat that the
//! liquid itself brings is counted as melted at the target; for milk at 5 °C that asks for 0.1 K too little.

use crate::thermal::mixing::{Part, Sources, missing_heat_j};
use crate::units::Celsius;

/// How warm the liquid must be for all to settle at `target`; its own temperature isn't looked at.
///
/// `None` without liquid, or where the answer leaves the range of [`Celsius`].
#[must_use]
pub fn liquid_for(
    parts: &[Part],
    liquid: &Part,
    target: Celsius,
    sources: &Sources,
) -> Option<Celsius> {
    let capacity_j_per_k = liquid.mass.get() * liquid.specific_heat.get();
    if capacity_j_per_k <= 0.0 {
        return None;
    }
    let mut all = parts.to_vec();
    all.push(Part {
        temperature: target,
        ..*liquid
    });
    let missing_j = missing_heat_j(&all, sources, target.get());
    Celsius::new(target.get() + missing_j / capacity_j_per_k).ok()
}
