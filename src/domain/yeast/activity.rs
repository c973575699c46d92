//! How fast yeast works at a temperature.
//!
//! The cardinal temperature model with inflection: for `Tmin < T < Tmax`
//!
//! `γ(T) = (T − Tmax)(T − Tmin)² / {(Topt − Tmin)[(Topt − Tmin)(T − Topt) − (Topt − Tmax)(Topt + Tmin − 2T)]}`
//!
//! and 0 outside, with temperatures in °C. γ is 1 at the optimum.
//!
//! Source: Rosso, Lobry & Flandrois, J. Theor. Biol. 162 (1993) 447, made for
//! growth. We use its form for gas production in dough, with cardinals of our
//! own ([`Cardinals::DOUGH`]).
//!
//! What is known about gas in dough, as the factor Q10 from 20 to 30 °C:
//!
//! | Q10 | from |
//! |---|---|
//! | 1.58 | proofing time to constant height, 13 to 57 °C (Freilich 1949 in Siffring & Bruinsma, Cereal Chem. 70 (1993) 351); a lower bound, the dough lags its box |
//! | 1.64 | this model with the growth cardinals |
//! | 1.90 | maltose uptake, 47.3 kJ/mol (Gee & Ramirez; attribution from memory) |
//! | 2.08 | the trade's doubling per 17 °F: what we follow |
//! | 2.59 | the trade's 10 % per °C (Bake magazine, The science of fermentation) |
//!
//! No measured activation energy for gas in dough was found.
//!
//! Left out: death. Yeast in bun dough dies tenfold in 18.7 min at 52 °C and
//! in 1.0 min at 58 °C (Channaiah et al., J. Food Prot. 79 (2016) 544). The
//! model stops at Tmax and lets yeast resume when cooled, which is wrong above
//! about 50 °C and of no matter below. Sugar, salt and the dose are left to
//! the formula's own reference time; what others would make of it, [`dose`](super::dose)
//! and [`slowing`](super::slowing) say.

use crate::units::{Celsius, celsius};

/// The three temperatures that give the curve its shape, coldest first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cardinals {
    /// At and below this nothing happens.
    pub minimum: Celsius,
    /// Here yeast is fastest.
    pub optimum: Celsius,
    /// At and above this nothing happens.
    pub maximum: Celsius,
}

impl Cardinals {
    /// Gas production in dough.
    ///
    /// ASSUMPTION: chosen, not measured. With them Q10 from 20 to 30 °C is
    /// 2.07, the trade's doubling per 17 °F; the optimum lies in the 32 to
    /// 40 °C given for gas (Bake magazine), and yeast stands still in a fridge.
    pub const DOUGH: Self = Self::new_const(2.0, 38.0, 48.0);

    /// ASSUMPTION: one time in ten yeast minds the cold less than this: Q10 1.85.
    pub const DOUGH_HARDY: Self = Self::new_const(-2.0, 38.0, 48.0);

    /// ASSUMPTION: one time in ten yeast minds the cold more than this: Q10 2.43.
    pub const DOUGH_TENDER: Self = Self::new_const(6.0, 38.0, 48.0);

    /// Growth of *S. cerevisiae*: optimum and maximum from Salvadó et al.,
    /// Appl. Environ. Microbiol. 77 (2011) 2292; the minimum lies in that
    /// paper's 1.3 to 4.3 °C for the genus, its value is from memory.
    pub const GROWTH: Self = Self::new_const(2.8, 32.3, 45.4);

    const fn new_const(minimum: f64, optimum: f64, maximum: f64) -> Self {
        Self {
            minimum: celsius(minimum),
            optimum: celsius(optimum),
            maximum: celsius(maximum),
        }
    }
}

/// γ, the rate of yeast as a part of its rate at the optimum, 0 to 1.
///
/// Cardinals out of order, or with the optimum nearer the minimum than the
/// maximum, are outside the model; the result then stays between 0 and 1 and means nothing.
///
/// ```
/// use domain::units::celsius;
/// use domain::yeast::activity::{Cardinals, relative_rate};
///
/// let warm = relative_rate(celsius(30.0), &Cardinals::DOUGH);
/// let cool = relative_rate(celsius(20.0), &Cardinals::DOUGH);
/// assert!((warm / cool - 2.07).abs() < 0.01);
/// ```
#[must_use]
pub fn relative_rate(temperature: Celsius, cardinals: &Cardinals) -> f64 {
    rate_at(temperature.get(), cardinals)
}

/// The same for a bare number of °C, for integration.
pub(crate) fn rate_at(t: f64, cardinals: &Cardinals) -> f64 {
    let min = cardinals.minimum.get();
    let opt = cardinals.optimum.get();
    let max = cardinals.maximum.get();
    if t <= min || t >= max {
        return 0.0;
    }
    let above_min = t - min;
    let span = opt - min;
    let rate = (t - max) * above_min * above_min
        / (span * (span * (t - opt) - (opt - max) * (opt + min - 2.0 * t)));
    // Badly ordered cardinals can bring the denominator to zero.
    if rate.is_nan() {
        0.0
    } else {
        rate.clamp(0.0, 1.0)
    }
}
