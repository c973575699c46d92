//! Baker's percentages on their own, without the foods: what any written formula comes to.
//!
//! - `percent = mass / flour × 100`
//! - `mass = dough × percent / sum of percents`, or `flour × percent / 100`
//! - water brought by the ingredients: `sum(percent × share of water)`
//! - a bake loses a share of the dough, mostly water: `dough = baked / (1 − loss)`
//!
//! Source: Gisslen, *Professional Baking* (2008), ch. 1 and 6, who has a loss of 10 to 13 % of the
//! dough for bread. A loss is of the dough, not of the bread: ten percent of loss want eleven
//! percent more dough.

use crate::units::{BakersPercent, Grams, Share};

/// The masses as percentages of the flour; none where there is no flour.
#[must_use]
pub fn percents(masses: &[Grams], flour: Grams) -> Vec<BakersPercent> {
    if flour.get() <= 0.0 {
        return Vec::new();
    }
    let percent = |mass: &Grams| BakersPercent::clamped(*mass / flour * 100.0);
    masses.iter().map(percent).collect()
}

/// What the percentages come to together.
#[must_use]
pub fn total(percents: &[BakersPercent]) -> BakersPercent {
    percents.iter().copied().sum()
}

/// The masses for so much flour.
#[must_use]
pub fn masses_for_flour(flour: Grams, percents: &[BakersPercent]) -> Vec<Grams> {
    percents.iter().map(|percent| flour * *percent).collect()
}

/// The masses for so much dough; none where the percentages are nothing.
///
/// ```
/// use domain::formula::bakers::masses_for_dough;
/// use domain::units::{bakers_percent, grams};
///
/// let percents = [100.0, 65.0, 2.0].map(bakers_percent);
/// let masses = masses_for_dough(grams(835.0), &percents);
/// assert!((masses[0].get() - 500.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn masses_for_dough(dough: Grams, percents: &[BakersPercent]) -> Vec<Grams> {
    let sum = total(percents);
    if sum.get() <= 0.0 {
        return Vec::new();
    }
    let mass = |percent: &BakersPercent| dough * (*percent / sum);
    percents.iter().map(mass).collect()
}

/// The water that ingredients bring, as a percentage of the flour.
#[must_use]
pub fn water(parts: &[(BakersPercent, Share)]) -> BakersPercent {
    let brought = |(percent, water): &(BakersPercent, Share)| *percent * water.get();
    parts.iter().map(brought).sum()
}

/// How much dough makes so much bread, or `None` where all is lost.
#[must_use]
pub fn dough_for(baked: Grams, loss: Share) -> Option<Grams> {
    // dough = baked / (1 − loss)
    let kept = 1.0 - loss.get();
    (kept > 0.0).then(|| baked * (1.0 / kept))
}
