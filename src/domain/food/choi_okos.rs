//! Heat properties of a food from what it is made of.
//!
//! For components i with mass shares x, at t in °C:
//!
//! - specific heat `c = sum(x_i c_i) / sum(x_i)`, in J/(g K);
//! - density `1/rho = sum(x_i / rho_i) / sum(x_i)`, in kg/m³, free of air;
//! - conductivity `k = sum(v_i k_i)` with volume shares `v_i = (x_i/rho_i) / sum(x/rho)`
//!   (the parallel model), in W/(m K).
//!
//! Components are water, protein, fat, digestible carbohydrate, fibre and ash.
//! Each `c_i`, `k_i`, `rho_i` is a polynomial in t.
//!
//! Source: Y. Choi and M. R. Okos (1986), "Effects of temperature and
//! composition on the thermal properties of foods", in *Food Engineering and
//! Process Applications* vol. 1; reprinted as tables 1 and 2 of the ASHRAE
//! Handbook, *Refrigeration* (2006), ch. 9. Valid from −40 to 150 °C for the
//! components; here for unfrozen food from 0 to 150 °C, and temperatures
//! outside are taken at the nearer end.
//!
//! DIFFERENCE: reprints give the constant of water's specific heat as 4.1762 or
//! 4.1289. At 20 °C these make 4.177 and 4.129, and IAPWS-95 says 4.184, so we
//! use 4.1762.
//!
//! Left out: crystalline sugar and salt (these terms are for what is
//! dissolved), alcohol, air, and every melting. For dry flour the specific heat
//! comes out 6 to 13 % too high.

use super::Composition;
use crate::units::{Celsius, JoulesPerGramKelvin, KilogramsPerCubicMetre, WattsPerMetreKelvin};

/// A component that Choi and Okos tell apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Component {
    /// Liquid water.
    Water,
    /// Protein.
    Protein,
    /// Fat, without its melting.
    Fat,
    /// Carbohydrate without fibre.
    Carbohydrate,
    /// Fibre.
    Fibre,
    /// Ash.
    Ash,
}

/// `a + b t + c t²`, lowest power first.
type Polynomial = [f64; 3];

fn at(polynomial: Polynomial, t: Celsius) -> f64 {
    let t_c = t.get().clamp(0.0, 150.0);
    let [a, b, c] = polynomial;
    a + b * t_c + c * t_c * t_c
}

impl Component {
    /// All six, in the order of the published tables.
    pub const ALL: [Self; 6] = [
        Self::Water,
        Self::Protein,
        Self::Fat,
        Self::Carbohydrate,
        Self::Fibre,
        Self::Ash,
    ];

    /// Its specific heat.
    #[must_use]
    pub fn specific_heat(self, t: Celsius) -> JoulesPerGramKelvin {
        let polynomial = match self {
            Self::Water => [4.1762, -9.0864e-5, 5.4731e-6],
            Self::Protein => [2.0082, 1.2089e-3, -1.3129e-6],
            Self::Fat => [1.9842, 1.4733e-3, -4.8008e-6],
            Self::Carbohydrate => [1.5488, 1.9625e-3, -5.9399e-6],
            Self::Fibre => [1.8459, 1.8306e-3, -4.6509e-6],
            Self::Ash => [1.0926, 1.8896e-3, -3.6817e-6],
        };
        JoulesPerGramKelvin::clamped(at(polynomial, t))
    }

    /// Its conductivity.
    #[must_use]
    pub fn conductivity(self, t: Celsius) -> WattsPerMetreKelvin {
        let polynomial = match self {
            Self::Water => [0.57109, 1.7625e-3, -6.7036e-6],
            Self::Protein => [0.17881, 1.1958e-3, -2.7178e-6],
            Self::Fat => [0.18071, -2.7604e-4, -1.7749e-7],
            Self::Carbohydrate => [0.20141, 1.3874e-3, -4.3312e-6],
            Self::Fibre => [0.18331, 1.2497e-3, -3.1683e-6],
            Self::Ash => [0.32962, 1.4011e-3, -2.9069e-6],
        };
        WattsPerMetreKelvin::clamped(at(polynomial, t))
    }

    /// Its density.
    #[must_use]
    pub fn density(self, t: Celsius) -> KilogramsPerCubicMetre {
        let polynomial = match self {
            Self::Water => [997.18, 3.1439e-3, -3.7574e-3],
            Self::Protein => [1329.9, -0.5184, 0.0],
            Self::Fat => [925.59, -0.41757, 0.0],
            Self::Carbohydrate => [1599.1, -0.31046, 0.0],
            Self::Fibre => [1311.5, -0.36589, 0.0],
            Self::Ash => [2423.8, -0.28063, 0.0],
        };
        KilogramsPerCubicMetre::clamped(at(polynomial, t))
    }
}

/// The six mass shares as the method wants them, made to sum to one.
///
/// Database rows sum to 0.99 to 1.01; a row of nothing counts as water.
fn shares(of: &Composition) -> [(Component, f64); 6] {
    let digestible = (of.carbohydrate.get() - of.fibre.get()).max(0.0);
    let raw = [
        of.water.get(),
        of.protein.get(),
        of.fat.get(),
        digestible,
        of.fibre.get(),
        of.ash.get(),
    ];
    let sum: f64 = raw.iter().sum();
    let mut result = Component::ALL.map(|component| (component, 0.0));
    for (slot, share) in result.iter_mut().zip(raw) {
        slot.1 = if sum > 0.0 { share / sum } else { 0.0 };
    }
    if sum <= 0.0 {
        result[0].1 = 1.0;
    }
    result
}

/// What a food is like as far as heat goes, free of air: its specific heat, its density, and its
/// conductivity by the parallel model.
#[must_use]
pub fn properties(
    of: &Composition,
    t: Celsius,
) -> (
    JoulesPerGramKelvin,
    KilogramsPerCubicMetre,
    WattsPerMetreKelvin,
) {
    let (mut heat, mut volume, mut conducts) = (0.0, 0.0, 0.0);
    for (component, x) in shares(of) {
        // c = sum(x_i c_i), 1/rho = sum(x_i / rho_i), k = sum(v_i k_i) with v_i = (x_i / rho_i) rho
        let part = x / component.density(t).get();
        heat += x * component.specific_heat(t).get();
        volume += part;
        conducts += part * component.conductivity(t).get();
    }
    (
        JoulesPerGramKelvin::clamped(heat),
        KilogramsPerCubicMetre::clamped(1.0 / volume),
        WattsPerMetreKelvin::clamped(conducts / volume),
    )
}

/// The specific heat of a food.
#[must_use]
pub fn specific_heat(of: &Composition, t: Celsius) -> JoulesPerGramKelvin {
    properties(of, t).0
}

/// The density of a food without air.
#[must_use]
pub fn density(of: &Composition, t: Celsius) -> KilogramsPerCubicMetre {
    properties(of, t).1
}

/// The conductivity of a food without air, by the parallel model.
#[must_use]
pub fn conductivity(of: &Composition, t: Celsius) -> WattsPerMetreKelvin {
    properties(of, t).2
}
