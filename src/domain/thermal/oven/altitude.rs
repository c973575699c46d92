//! Air pressure and boiling point above the sea.
//!
//! Pressure: `p = 101325 (1 - 2.25577e-5 z)^5.25588`, p in Pa, z in m. Source:
//! International Standard Atmosphere (ICAO Doc 7488; the same as the U.S.
//! Standard Atmosphere 1976 below 11 km). Weather moves it by up to 3 %, which
//! is 0.9 K of boiling.
//!
//! Boiling point: the saturation-temperature equation of IAPWS-IF97 (Revised
//! Release 2007, eq. 31, table 34), with `beta = (p / 1 MPa)^0.25`:
//!
//! `E = beta² + n3 beta + n6`, `F = n1 beta² + n4 beta + n7`, `G = n2 beta² + n5 beta + n8`,
//! `D = 2 G / (-F - sqrt(F² - 4 E G))`,
//! `T = (n10 + D - sqrt((n10 + D)² - 4 (n9 + n10 D))) / 2`, T in K.
//!
//! Valid here from −500 to 6,000 m, the range of [`Metres`]. Left out: what is
//! dissolved in the water of crumb, which raises boiling by less than 1 K.

use crate::units::{Celsius, Metres, Pascals, metres};

/// Up to here height changes nothing: boiling by a kelvin, as the weather does, and no formula says where it was written.
pub const LOW: Metres = metres(300.0);

/// From here on a rise is stopped at double, before it runs away: doughs are said to rise 25 to 50 %
/// faster above 3,000 ft (magazine), and a quarter less yeast is advised at about 6,000 ft (Ask
/// Extension; a magazine has a third).
pub const HIGH: Metres = metres(1000.0);

/// Standard pressure at sea level, in Pa.
const SEA_LEVEL_PA: f64 = 101_325.0;

/// n1 to n10 of IAPWS-IF97, table 34.
const N: [f64; 10] = [
    0.116_705_214_527_67e4,
    -0.724_213_167_032_06e6,
    -0.170_738_469_400_92e2,
    0.120_208_247_024_70e5,
    -0.323_255_503_223_33e7,
    0.149_151_086_135_30e2,
    -0.482_326_573_615_91e4,
    0.405_113_405_420_57e6,
    -0.238_555_575_678_49,
    0.650_175_348_447_98e3,
];

/// Air pressure as a part of that at sea level; above one below the sea.
///
/// Its inverse is how much more room the same gas takes, so how much further dough rises.
#[must_use]
pub fn pressure_ratio(altitude: Metres) -> f64 {
    // p / 101325 = (1 - 2.25577e-5 z)^5.25588
    // a^b as exp(b ln a): both are linked anyway, and a general power is as large as the two.
    (5.255_88 * (1.0 - 2.255_77e-5 * altitude.get()).ln()).exp()
}

/// Air pressure.
#[must_use]
pub fn pressure(altitude: Metres) -> Pascals {
    Pascals::clamped(SEA_LEVEL_PA * pressure_ratio(altitude))
}

/// The temperature at which water boils.
///
/// ```
/// use domain::thermal::oven::altitude::boiling_point;
/// use domain::units::metres;
///
/// assert!((boiling_point(metres(1500.0)).get() - 94.98).abs() < 0.02);
/// ```
#[must_use]
pub fn boiling_point(altitude: Metres) -> Celsius {
    saturation(SEA_LEVEL_PA * pressure_ratio(altitude))
}

/// IAPWS-IF97 eq. 31.
fn saturation(pressure_pa: f64) -> Celsius {
    let [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = N;
    // β = (p / 1 MPa)^0.25
    let beta = (pressure_pa / 1e6).sqrt().sqrt();
    let e = beta * beta + n3 * beta + n6;
    let f = n1 * beta * beta + n4 * beta + n7;
    let g = n2 * beta * beta + n5 * beta + n8;
    let d = 2.0 * g / (-f - (f * f - 4.0 * e * g).sqrt());
    let sum = n10 + d;
    let kelvin = (sum - (sum * sum - 4.0 * (n9 + n10 * d)).sqrt()) / 2.0;
    Celsius::clamped(kelvin - 273.15)
}

#[cfg(test)]
mod tests {
    use super::saturation;

    /// IAPWS-IF97 (Revised Release 2007), table 36: T in K at p in MPa. The release
    /// prints nine digits; 1e-6 K allows for their rounding and ours.
    #[test]
    fn saturation_meets_the_release_s_verification_values() {
        for (pressure_mpa, expected_k) in [(0.1, 372.755_919), (1.0, 453.035_632)] {
            let got_k = saturation(pressure_mpa * 1e6).get() + 273.15;
            assert!(
                (got_k - expected_k).abs() < 1e-6,
                "at {pressure_mpa} MPa: got {got_k} K, expected {expected_k} K"
            );
        }
    }
}
