//! How sugar and salt slow yeast.
//!
//! `r = exp(−k_sugar max(0, s − s0) − k_salt z)`
//!
//! - r: the rate of yeast as a part of its rate in the same dough without sugar and salt, without unit
//! - s, z: added sugar and salt, in % of the flour
//! - s0: the sugar below which none slows it, 3 % of the flour
//! - k: the share, about, that each further percent takes away, in 1/%
//!
//! What is known:
//!
//! | r | in | from |
//! |---|---|---|
//! | 0.80 | 5 % of glucose, 2.5 % of yeast, in 2 h | the only two doughs that were measured alike: table of a commercial baker's strain in Appl. Environ. Microbiol. (Rincón, Codón, Castrejón & Benítez 2001; attribution from memory), standard error below a tenth |
//! | about 0.30 | 10 % of sucrose, 5.6 % of yeast | the same table; plain dough of so much yeast by extrapolation, so a lower bound |
//! | 0.5 to 0.6 | 20 % of sugar | from memory, for yeast that bears sugar: an upper bound |
//! | no slowing | up to about 3 to 5 % | Marek & Bushuk, Cereal Chem. 44 (1967) 300 (abstract): it falls above 5 %; trade pages |
//! | slows at any amount | salt | the same abstract, without a number |
//!
//! A formula's own times hold its own sugar and salt already, so r is only ever used as a ratio of
//! two doughs ([`pace`]): what a formula with other amounts would come to. A formula's page says so of
//! its dough and a [lean](LEAN) one. Nothing in the app changes a formula's sugar or salt, so no window hangs on
//! these numbers; the starters' first rises, written apart from them, agree with them within a tenth.
//!
//! Validity: sugar up to 26 %, salt up to 3 % of the flour. Left out: that a little sugar quickens
//! a dough without any, that a wetter dough thins its sugar (osmotic pressure goes with the water,
//! not with the flour), milk's and flour's own sugar, and which yeast it is: at 26 % of sucrose
//! strains differed by a factor of three, as much as the spread here between its ends.

use crate::estimate::{Basis, Estimate};
use crate::units::{BakersPercent, bakers_percent};

/// Sugar up to so much slows nothing.
const HARMLESS_SUGAR: BakersPercent = bakers_percent(3.0);

/// ASSUMPTION: k of sugar, in 1/%. The likely one goes through 0.80 at 5 %; the others through
/// 0.55 at 20 %, and 0.30 at 10 %, the bounds of what was found.
const SUGAR: [f64; 3] = [0.035, 0.11, 0.172];

/// ASSUMPTION: k of salt, in 1/%. Judgement without a number to go by: 2 % of the flour slow a
/// dough by a tenth, a fifth or a third. By osmotic pressure alone salt would do as much as six
/// times its mass of glucose, which no baker finds.
const SALT: [f64; 3] = [0.05, 0.10, 0.20];

/// What slows the yeast of a dough, as percentages of its flour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slowing {
    /// Added sugar and honey.
    pub sugar: BakersPercent,
    /// Added salt.
    pub salt: BakersPercent,
}

/// A lean dough: flour, water and the 1.8 to 2.2 % of salt that are common practice, no source.
pub const LEAN: Slowing = Slowing {
    sugar: bakers_percent(0.0),
    salt: bakers_percent(2.0),
};

/// How many times as fast a dough ferments that has `now` in the place of `before`.
///
/// ```
/// use domain::units::bakers_percent;
/// use domain::yeast::slowing::{Slowing, pace};
///
/// let plain = Slowing { sugar: bakers_percent(0.0), salt: bakers_percent(2.0) };
/// let sweet = Slowing { sugar: bakers_percent(14.0), ..plain };
/// let slower = pace(plain, sweet);
/// assert!(slower.high() < 0.75 && slower.low() > 0.14);
/// ```
#[must_use]
pub fn pace(before: Slowing, now: Slowing) -> Estimate<f64> {
    let felt = |sugar: BakersPercent| (sugar - HARMLESS_SUGAR).get();
    let sugar = felt(now.sugar) - felt(before.sugar);
    let salt = now.salt.get() - before.salt.get();
    let by = |sensitivities: [f64; 3], more: f64| {
        let [least, likely, most] = sensitivities.map(|k| -k * more);
        (least.min(most) - likely, likely, least.max(most) - likely)
    };
    let together = |one: f64, other: f64| (one * one + other * other).sqrt();
    let (sugar, salt) = (by(SUGAR, sugar), by(SALT, salt));
    // Sugar and salt are uncertain each for itself: their logarithms add in quadrature.
    let likely = sugar.1 + salt.1;
    Estimate::new(
        (likely - together(sugar.0, salt.0)).exp(),
        likely.exp(),
        (likely + together(sugar.2, salt.2)).exp(),
        Basis::Model,
    )
}
