//! Sine and cosine of the angles that occur here.
//!
//! The standard library's take any number at all, and bring two hundred digits of 2/π for it. Some ten
//! thousand turns are enough: the angle is brought into an eighth of a turn by multiples of π/2 in three parts
//! (Cody and Waite, *Software Manual for the Elementary Functions*, 1980), and the
//! polynomials there are those of FDLIBM (Sun Microsystems, 1993: `k_sin.c`, `k_cos.c`).

use std::f64::consts::FRAC_2_PI;

/// π/2 in three parts; the first two have 33 bits, so that whole multiples of them are exact.
const HALF_PI: [f64; 3] = [
    1.570_796_326_734_125_6,
    6.077_100_506_303_966e-11,
    2.022_266_248_795_950_6e-21,
];

const SINE: [f64; 6] = [
    -1.666_666_666_666_663_2e-1,
    8.333_333_333_322_49e-3,
    -1.984_126_982_985_795e-4,
    2.755_731_370_707_006_8e-6,
    -2.505_076_025_340_686_3e-8,
    1.589_690_995_211_55e-10,
];

const COSINE: [f64; 6] = [
    4.166_666_666_666_66e-2,
    -1.388_888_888_887_411e-3,
    2.480_158_728_947_673e-5,
    -2.755_731_435_139_066_3e-7,
    2.087_572_321_298_175e-9,
    -1.135_964_755_778_819_5e-11,
];

/// Sine and cosine of an angle in radians, up to 100,000 either way; right to the last digit or two.
///
/// ```
/// let (sine, cosine) = domain::trig::sin_cos(1.0);
/// assert!((sine * sine + cosine * cosine - 1.0).abs() < 1e-15);
/// ```
#[must_use]
pub fn sin_cos(angle: f64) -> (f64, f64) {
    let quarters = (angle * FRAC_2_PI).round();
    let [first, second, third] = HALF_PI;
    let x = ((angle - quarters * first) - quarters * second) - quarters * third;
    let squared = x * x;
    let polynomial = |terms: &[f64; 6]| {
        terms
            .iter()
            .rev()
            .fold(0.0, |sum, term| sum * squared + term)
    };
    let sine = x + x * squared * polynomial(&SINE);
    let cosine = 1.0 - 0.5 * squared + squared * squared * polynomial(&COSINE);
    match (quarters as i64).rem_euclid(4) {
        0 => (sine, cosine),
        1 => (cosine, -sine),
        2 => (-sine, -cosine),
        _ => (-cosine, sine),
    }
}

/// Sine alone.
#[must_use]
pub fn sin(angle: f64) -> f64 {
    sin_cos(angle).0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The standard library's own, on whatever machine this runs.
    #[test]
    fn it_agrees_with_the_standard_library() {
        for step in -200_000..=200_000_i32 {
            let angle = f64::from(step) * 0.499_7;
            let (sine, cosine) = sin_cos(angle);
            let off = (sine - angle.sin()).abs().max((cosine - angle.cos()).abs());
            assert!(off < 4e-16, "{off} at {angle}");
        }
    }
}
