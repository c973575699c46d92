//! Kinds of baker's yeast, and how much of one does the work of another.
//!
//! One of fresh does as much as 0.40 of active dry or 0.33 of instant. Source: a
//! bread-baking textbook's table "Yeast conversions, fresh to dry". DIFFERENCE: older use
//! has 0.5 for active dry; by solids (30, 92 and 95 %, AACC 89-01.01) it would be 0.33 and 0.32.
//!
//! Left out: the water of fresh yeast, 3 % of the flour in the starters' buns, and that some of an old packet is dead.

use crate::units::Grams;

/// A kind of baker's yeast.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum YeastKind {
    /// Instant dry, mixed into the flour.
    Instant,
    /// Active dry, woken in warm liquid.
    ActiveDry,
    /// Pressed, about 30 % solids.
    Fresh,
}

impl YeastKind {
    /// All kinds, the commonest in formulas first.
    pub const ALL: [Self; 3] = [Self::Instant, Self::ActiveDry, Self::Fresh];

    /// The kind that a yeast is among the foods; what isn't known to be dry counts as fresh.
    #[must_use]
    pub fn of_key(food_key: &str) -> Self {
        let known = Self::ALL.into_iter().find(|kind| kind.key() == food_key);
        known.unwrap_or(Self::Fresh)
    }

    /// Its key among the [foods](crate::food::food).
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Fresh => "yeast-fresh",
            Self::ActiveDry => "yeast-active-dry",
            Self::Instant => "yeast-instant",
        }
    }

    /// How much of it does the work of one of fresh.
    const fn for_one_of_fresh(self) -> f64 {
        match self {
            Self::Fresh => 1.0,
            Self::ActiveDry => 0.40,
            Self::Instant => 0.33,
        }
    }

    /// How much of another kind does the same work.
    ///
    /// ```
    /// use domain::units::grams;
    /// use domain::yeast::kinds::YeastKind;
    ///
    /// let dry = YeastKind::Fresh.as_kind(grams(30.0), YeastKind::ActiveDry);
    /// assert!((dry.get() - 12.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn as_kind(self, mass: Grams, other: Self) -> Grams {
        mass * (other.for_one_of_fresh() / self.for_one_of_fresh())
    }
}
