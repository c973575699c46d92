//! Why a size can't be had, in words with value, unit and bound.

use std::fmt;

use crate::decimal::{fixed, plain};
use crate::formula::ComponentId;
use crate::units::{Grams, Share};

/// Why a size can't be had.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ScaleError {
    /// No pieces, no dough, no tin or no flour was asked for.
    Nothing,
    /// More dough than anybody kneads at home.
    TooMuch {
        /// What was asked for.
        dough: Grams,
        /// The most this program scales to.
        most: Grams,
    },
    /// So little that scales can't show it.
    TooLittle {
        /// What was asked for.
        dough: Grams,
        /// The least this program scales to.
        least: Grams,
    },
    /// Pieces so light that scales can't show them.
    TooLight {
        /// What one would weigh.
        piece: Grams,
        /// The least a piece weighs.
        least: Grams,
    },
    /// More pieces than can be counted.
    TooMany {
        /// How many.
        pieces: u32,
        /// The most there can be.
        most: u32,
    },
    /// A loss in baking that leaves no bread.
    TooGreatALoss {
        /// The share of the dough that would be lost.
        loss: Share,
        /// The most that is taken for one.
        most: Share,
    },
    /// What is short isn't in the formula.
    NoSuchIngredient {
        /// The component that should have it.
        component: ComponentId,
        /// Where in it, from nought.
        place: usize,
    },
}

impl fmt::Display for ScaleError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Nothing => write!(f, "nothing to bake was asked for"),
            Self::TooMuch { dough, most } => write!(
                f,
                "that is {} g of dough, more than the {} g this model covers",
                fixed(dough.get(), 0),
                fixed(most.get(), 0)
            ),
            Self::TooLittle { dough, least } => write!(
                f,
                "that is {} g of dough, less than the {} g this model covers",
                fixed(dough.get(), 0),
                fixed(least.get(), 0)
            ),
            Self::TooLight { piece, least } => write!(
                f,
                "each piece would weigh {} g, less than the {} g that scales show",
                plain(piece.get(), 3),
                plain(least.get(), 0)
            ),
            Self::TooMany { pieces, most } => {
                write!(f, "that is {pieces} pieces, more than {most} pieces")
            }
            Self::TooGreatALoss { loss, most } => write!(
                f,
                "a loss of {} % in baking is more than the {} % this model covers",
                plain(loss.get() * 100.0, 1),
                plain(most.get() * 100.0, 1)
            ),
            Self::NoSuchIngredient {
                component: ComponentId(id),
                place,
            } => write!(
                f,
                "component {id} of the formula has no ingredient {}",
                place.saturating_add(1)
            ),
        }
    }
}

impl std::error::Error for ScaleError {}
