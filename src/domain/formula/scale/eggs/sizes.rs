//! What an egg weighs.
//!
//! Without shell, USDA SR26 (file WEIGHT, NDB 01123 to 01125) has for a small egg 38, a medium one 44,
//! a large one 50 and an extra large one 56 g, for the yolk of a large one 17 g and for its white 33 g.
//! The sizes are the American ones. In the European Union an egg of size M weighs 53 to 63 g in its
//! shell (from memory), of which an eighth is shell (USDA SR28), so it is nearest to a large one of
//! these; beside the number, the grams should be shown.

use crate::food::Food;
use crate::units::{Grams, grams};

/// The size of an egg, by its mass without shell.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum EggSize {
    /// 38 g.
    Small,
    /// 44 g.
    Medium,
    /// 50 g.
    Large,
    /// 56 g.
    ExtraLarge,
}

/// What of an egg is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EggPart {
    /// All but the shell.
    Whole,
    /// The yolk.
    Yolk,
    /// The white.
    White,
}

/// A yolk of a large egg, as a share of it: 17 of 50 g.
///
/// ASSUMPTION: the same in an egg of any size, the database having parts of large ones only.
const YOLK: f64 = 17.0 / 50.0;
/// A white of a large egg, as a share of it: 33 of 50 g.
///
/// ASSUMPTION: the same in an egg of any size, as with the yolk.
const WHITE: f64 = 33.0 / 50.0;

impl EggPart {
    /// What of an egg a food is, or none where it isn't egg.
    #[must_use]
    pub fn of(food: &Food) -> Option<Self> {
        match food.key {
            "egg" => Some(Self::Whole),
            "egg-yolk" => Some(Self::Yolk),
            "egg-white" => Some(Self::White),
            _ => None,
        }
    }
}

impl EggSize {
    /// All of them, smallest first.
    pub const ALL: [Self; 4] = [Self::Small, Self::Medium, Self::Large, Self::ExtraLarge];

    /// What that part of one weighs: 38 to 56 g for the whole egg without its shell, within 3 g either
    /// way, which is half of what American classes are apart (from memory).
    #[must_use]
    pub fn mass(self, part: EggPart) -> Grams {
        let whole = grams(match self {
            Self::Small => 38.0,
            Self::Medium => 44.0,
            Self::Large => 50.0,
            Self::ExtraLarge => 56.0,
        });
        match part {
            EggPart::Whole => whole,
            EggPart::Yolk => whole * YOLK,
            EggPart::White => whole * WHITE,
        }
    }
}
