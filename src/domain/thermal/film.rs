//! How much heat passes between a body and still air, from first principles.
//!
//! - Natural convection at a sphere: `Nu = 2 + 0.589 Ra^(1/4) / (1 + (0.469 / Pr)^(9/16))^(4/9)`,
//!   `h = Nu k / D`, `Ra = g beta dT D³ Pr / nu²`, `beta = 1 / T_film`. Source: S. W. Churchill
//!   (1983), as in Incropera & DeWitt, ch. 9 (from memory). Valid for Ra up to 1e11 and Pr above 0.7.
//! - Radiation between grey surfaces not far apart in temperature: `h = 4 epsilon sigma T_m³`,
//!   T_m the mean of both in K, `sigma = 5.670374e-8` W/(m² K⁴).
//!
//! Air at 101,325 Pa: an ideal gas with Sutherland's laws for viscosity,
//! `1.716e-5 (T/273.15)^1.5 (273.15 + 110.4)/(T + 110.4)` Pa s, and conductivity,
//! `0.0241 (T/273.15)^1.5 (273.15 + 194)/(T + 194)` W/(m K), T in K (F. M. White, *Viscous
//! Fluid Flow*, from memory; within 2 % from −20 to 200 °C), and c of 1006 J/(kg K).
//!
//! Left out: draughts, which easily double the first part, evaporation, and faces that see
//! something of another temperature than the air.

use crate::units::{Celsius, Millimetres, Share, WattsPerSquareMetreKelvin};

const GRAVITY: f64 = 9.806_65;
const STEFAN_BOLTZMANN: f64 = 5.670_374e-8;

/// Temperature half-way between two, in K.
fn film_k(surface: Celsius, air: Celsius) -> f64 {
    f64::midpoint(surface.get(), air.get()) + 273.15
}

/// h by natural convection at a sphere.
#[must_use]
pub fn convection_at_sphere(
    diameter: Millimetres,
    surface: Celsius,
    air: Celsius,
) -> WattsPerSquareMetreKelvin {
    let t = film_k(surface, air);
    let diameter_m = diameter.get().max(0.1) / 1000.0;
    let sutherland = |s: f64| (t / 273.15).powf(1.5) * (273.15 + s) / (t + s);
    let viscosity = 1.716e-5 * sutherland(110.4);
    let conductivity = 0.0241 * sutherland(194.0);
    // rho = p / (R T), with R of air in J/(kg K)
    let kinematic = viscosity / (101_325.0 / (287.05 * t));
    let prandtl = viscosity * 1006.0 / conductivity;
    let difference_k = (surface - air).get().abs();
    // Ra = g beta dT D³ Pr / nu²
    let rayleigh =
        GRAVITY / t * difference_k * diameter_m.powi(3) * prandtl / (kinematic * kinematic);
    let nusselt = 2.0
        + 0.589 * rayleigh.powf(0.25) / (1.0 + (0.469 / prandtl).powf(9.0 / 16.0)).powf(4.0 / 9.0);
    WattsPerSquareMetreKelvin::clamped(nusselt * conductivity / diameter_m)
}

/// h by radiation.
#[must_use]
pub fn radiation(
    surface: Celsius,
    surroundings: Celsius,
    emissivity: Share,
) -> WattsPerSquareMetreKelvin {
    // h = 4 epsilon sigma T_m³
    let t = film_k(surface, surroundings);
    WattsPerSquareMetreKelvin::clamped(4.0 * emissivity.get() * STEFAN_BOLTZMANN * t.powi(3))
}
