//! What doughs usually hold, so that a slipped digit is noticed.
//!
//! Ranges are percentages of flour for enriched and tin-loaf doughs. They
//! bracket Gisslen, *Professional Baking* (2008) ch. 9 (brioche, sweet doughs)
//! and Kleinwächter, *The Sourdough Framework* (baker's-math example); the
//! outer ends are common practice, no source. "Enriched" as sugar and fat from
//! a tenth of the flour follows the *Oxford Companion to Sugar and Sweets*
//! (2015): sugar 1:10 to 1:4, fat 1:10 to 9:10 in rich breads.

use super::Draft;
use crate::food::{Food, FoodKind};
use crate::units::{BakersPercent, bakers_percent, grams};
use crate::yeast::kinds::YeastKind;

/// One thing looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// Water of everything but the flour.
    Hydration,
    /// Added sugar and honey.
    Sugar,
    /// Fat of everything.
    Fat,
    /// Added salt.
    Salt,
    /// Yeast, reckoned as fresh.
    FreshYeast,
}

/// A measure with what is usual.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// What was looked at.
    pub measure: Measure,
    /// What the formula has.
    pub found: BakersPercent,
    /// The least that is usual.
    pub least: BakersPercent,
    /// The most that is usual.
    pub most: BakersPercent,
}

impl Reading {
    /// Whether it lies within the usual range.
    #[must_use]
    pub fn is_usual(&self) -> bool {
        self.found >= self.least && self.found <= self.most
    }
}

/// How much fresh yeast one gram of each kind stands for.
///
/// Where that is from stands in [`kinds`](crate::yeast::kinds).
#[must_use]
pub fn fresh_yeast_per_gram(food_key: &str) -> f64 {
    YeastKind::of_key(food_key)
        .as_kind(grams(1.0), YeastKind::Fresh)
        .get()
}

/// Every measure of a formula's dough with its usual range.
#[must_use]
pub fn readings(formula: &Draft) -> Vec<Reading> {
    let reading = |measure, found, least: f64, most: f64| Reading {
        measure,
        found,
        least: bakers_percent(least),
        most: bakers_percent(most),
    };
    vec![
        reading(Measure::Hydration, formula.hydration(), 50.0, 85.0),
        reading(
            Measure::Sugar,
            formula.dough_percent(FoodKind::Sugar),
            0.0,
            25.0,
        ),
        reading(Measure::Fat, formula.fat(), 0.0, 75.0),
        reading(
            Measure::Salt,
            formula.dough_percent(FoodKind::Salt),
            1.5,
            2.2,
        ),
        reading(
            Measure::FreshYeast,
            formula.percent_of_flour(formula.fresh_yeast()),
            0.2,
            8.0,
        ),
    ]
}

/// The most that anybody means one ingredient of a dough to be of its flour. More is a slipped digit.
///
/// Common practice, no source, and far beyond it: a brioche has 70 % of butter, a sweet dough 30 % of sugar, doughs
/// with much old dough or fruit as much of that as flour.
#[must_use]
pub fn most_of(food: &Food) -> BakersPercent {
    let is_dry = food.composition.water.get() < 0.2;
    bakers_percent(match food.kind {
        FoodKind::Flour => 100.0,
        FoodKind::Yeast if is_dry => 8.0,
        FoodKind::Yeast => 20.0,
        FoodKind::Salt => 6.0,
        FoodKind::Sugar | FoodKind::Fat => 150.0,
        FoodKind::Egg => 200.0,
        FoodKind::Water | FoodKind::Milk => 250.0,
        FoodKind::Spice | FoodKind::Starch => 60.0,
        FoodKind::Nut | FoodKind::Fruit | FoodKind::Other => 300.0,
    })
}
