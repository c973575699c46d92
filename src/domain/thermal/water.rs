//! Liquid water at the pressure of a kitchen, as measured.
//!
//! Specific heat, in J/(g K), and density, in kg/m³, at 0.1 MPa:
//!
//! - `c = -R (c3 + tau (sum n_i (n_i + 1) a_i alpha^(n_i + 2) + sum m_i (m_i + 1) b_i beta^(m_i + 2)))`
//! - `v = R T_r / p (a5 + sum a_i alpha^n_i + sum b_i beta^m_i)` and `rho = 1 / v`
//! - `tau = T / T_r`, `alpha = T_r / (593 K - T)`, `beta = T_r / (T - 232 K)`, `T_r = 10 K`,
//!   T in K, `R = 0.46151805` J/(g K), `p = 0.1` MPa
//!
//! Source: IAPWS, *Revised Supplementary Release on Properties of Liquid Water at 0.1 MPa*
//! (2011), coefficients as in the Python library iapws 1.5.5. Valid there from −20 to 110 °C; here
//! from 0 to 100, and temperatures outside are taken at the nearer end. The weather's and the
//! mountain's change of pressure moves neither by more than 0.01 %.
//!
//! Foods go by [`choi_okos`](crate::food::choi_okos), whose water takes 0.2 % less at 20 °C and 1 % less near freezing.

use crate::units::{Celsius, JoulesPerGramKelvin, KilogramsPerCubicMetre};

const R: f64 = 0.461_518_05;
const T_R: f64 = 10.0;
const C3: f64 = -8.983_025_854;
const A5: f64 = 1.937_631_57e-2;

/// Exponents and coefficients of the specific heat: n and a, then m and b.
const HEAT_A: [(i32, f64); 3] = [
    (4, -1.661_470_539e5),
    (5, 2.708_781_640e6),
    (7, -1.557_191_544e8),
];
const HEAT_B: [(i32, f64); 4] = [
    (2, -8.237_426_256e-1),
    (3, 1.908_956_353),
    (4, -2.017_597_384),
    (5, 8.546_361_348e-1),
];

/// The same for the volume.
const VOLUME_A: [(i32, f64); 5] = [
    (4, 6.744_584_46e3),
    (5, -2.225_216_04e5),
    (7, 1.002_312_47e8),
    (8, -1.635_521_18e9),
    (9, 8.322_996_58e9),
];
const VOLUME_B: [(i32, f64); 6] = [
    (1, 5.785_452_92e-3),
    (2, -1.531_956_65e-2),
    (3, 3.113_378_59e-2),
    (4, -4.235_462_41e-2),
    (5, 3.387_135_07e-2),
    (6, -1.199_467_61e-2),
];

/// T in K, alpha and beta.
fn variables(at: Celsius) -> (f64, f64, f64) {
    let t = at.get().clamp(0.0, 100.0) + 273.15;
    (t, T_R / (593.0 - t), T_R / (t - 232.0))
}

/// How much heat it takes to warm water.
///
/// ```
/// use domain::thermal::water::specific_heat;
/// use domain::units::celsius;
///
/// assert!((specific_heat(celsius(20.0)).get() - 4.184).abs() < 0.001);
/// ```
#[must_use]
pub fn specific_heat(at: Celsius) -> JoulesPerGramKelvin {
    let (t, alpha, beta) = variables(at);
    let sum = |terms: &[(i32, f64)], x: f64| -> f64 {
        let of = |(n, a): &(i32, f64)| f64::from(n * (n + 1)) * a * x.powi(n + 2);
        terms.iter().map(of).sum()
    };
    let tau = t / T_R;
    JoulesPerGramKelvin::clamped(-R * (C3 + tau * (sum(&HEAT_A, alpha) + sum(&HEAT_B, beta))))
}

/// How dense water is.
#[must_use]
pub fn density(at: Celsius) -> KilogramsPerCubicMetre {
    let (_, alpha, beta) = variables(at);
    let sum =
        |terms: &[(i32, f64)], x: f64| -> f64 { terms.iter().map(|(n, a)| a * x.powi(*n)).sum() };
    // R T_r / p in J/(g K) K / MPa is cm³/g, and a thousandth of that m³/kg.
    let cm3_per_g = R * T_R / 0.1 * (A5 + sum(&VOLUME_A, alpha) + sum(&VOLUME_B, beta));
    KilogramsPerCubicMetre::clamped(1000.0 / cm3_per_g)
}
