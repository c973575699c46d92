//! How long the middle of a body takes from one temperature to another, and its time constants.
//!
//! The product of the series of [`transient`](super::transient) along each direction is solved for the time at
//! which `θ = (T − T∞) / (T₀ − T∞)` is wanted:
//!
//! `Π θ_i(α t / L_i²) = θ`, with `α = k / (ρ c)`
//!
//! - lumped time constant `τ = ρ c (V / A) / h`, right below `Bi = h (V/A) / k` of 0.1
//! - slow time constant `1/τ = Σ α ζ_i² / L_i²`, the first root in each direction: what is left
//!   of the series late
//!
//! Sources, validity and what is left out are those of [`transient`](super::transient). A [`Vessel`](super::vessel::Vessel)
//! follows surroundings that change; this is for one change and any combination of material and film.

use super::crossing::first_fall;
use super::transient::{Axis, centre_ratio, one_term};
use super::vessel::Material;
use crate::units::{Celsius, Minutes, SquareMetresPerSecond, WattsPerSquareMetreKelvin};

/// A body of one to three directions in a film: a short cylinder is a cylinder and a slab, a brick three slabs.
#[derive(Debug, Clone, PartialEq)]
pub struct Solid {
    /// Its directions.
    pub axes: Vec<Axis>,
    /// What it is made of.
    pub material: Material,
    /// h, at its cooled faces.
    pub film: WattsPerSquareMetreKelvin,
}

/// How fast heat spreads in a material: `α = k / (ρ c)`.
#[must_use]
pub fn diffusivity(material: &Material) -> SquareMetresPerSecond {
    // J/(g K) is kJ/(kg K).
    let heat_j_m3k = material.density.get() * material.specific_heat.get() * 1000.0;
    SquareMetresPerSecond::clamped(material.conductivity.get() / heat_j_m3k)
}

/// How far ahead a time is looked for: a hundred days.
const HORIZON_MIN: f64 = 100.0 * 24.0 * 60.0;

impl Solid {
    fn biot(&self, axis: Axis) -> f64 {
        self.film.get() * axis.length_m() / self.material.conductivity.get().max(1e-9)
    }

    fn ratio_after(&self, minutes: f64) -> f64 {
        let alpha = diffusivity(&self.material).get();
        let along = |axis: &Axis| {
            let fourier = alpha * minutes * 60.0 / axis.length_m().powi(2);
            centre_ratio(axis.shape, self.biot(*axis), fourier)
        };
        self.axes.iter().map(along).product()
    }

    /// When its middle has a temperature, or `None` where that lies beyond the surroundings,
    /// behind the beginning, or more than a hundred days away.
    #[must_use]
    pub fn time_to(&self, from: Celsius, ambient: Celsius, to: Celsius) -> Option<Minutes> {
        let wanted = (to - ambient) / (from - ambient);
        if !(wanted > 0.0 && wanted <= 1.0) {
            return None;
        }
        if wanted == 1.0 {
            return Some(Minutes::clamped(0.0));
        }
        let left = |minutes: f64| self.ratio_after(minutes) - wanted;
        first_fall(1e-3, HORIZON_MIN, &left).map(Minutes::clamped)
    }

    /// τ as if it had one temperature throughout.
    #[must_use]
    pub fn lumped_time_constant(&self) -> Minutes {
        let heat_j_m3k = self.material.density.get() * self.material.specific_heat.get() * 1000.0;
        let area_per_volume: f64 = self.axes.iter().map(|axis| axis.area_per_volume()).sum();
        // τ = ρ c (V / A) / h
        Minutes::clamped(heat_j_m3k / area_per_volume / self.film.get().max(1e-9) / 60.0)
    }

    /// τ of the slowest mode.
    #[must_use]
    pub fn slow_time_constant(&self) -> Minutes {
        let alpha = diffusivity(&self.material).get();
        let rate = |axis: &Axis| {
            let zeta = one_term(axis.shape, self.biot(*axis)).eigenvalue;
            alpha * (zeta / axis.length_m()).powi(2)
        };
        Minutes::clamped(1.0 / self.axes.iter().map(rate).sum::<f64>() / 60.0)
    }
}
