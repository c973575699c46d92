//! Why a text is not taken as a formula.

use std::fmt;

use domain::formula::StepKind;

use crate::MOST_BYTES;
use crate::foods::{Certainty, Role};
use crate::found::Found;
use crate::rows::Row;

/// Why a text is not taken as a formula.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Refusal {
    /// It is larger than anything with one formula in it.
    TooLarge {
        /// Its size in bytes.
        bytes: usize,
    },
    /// Nothing stands in it.
    Empty,
    /// Its bytes are no text.
    NotText,
    /// It is JSON, but cut short or damaged.
    BrokenJson {
        /// What the parser found.
        cause: String,
    },
    /// A page or file that is made to hold recipes, without one.
    NoRecipe,
    /// It has no ingredients as a formula has.
    NotAFormula,
    /// It has prices: something to buy, not to bake.
    Prices,
    /// It has more parts, ingredients or steps than one formula.
    TooMuch,
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLarge { bytes } => write!(
                f,
                "this has {} MB, and a formula is never larger than {} MB; copy only the part with the ingredients and the steps",
                bytes.div_ceil(1_000_000),
                MOST_BYTES / 1_000_000
            ),
            Self::Empty => write!(
                f,
                "nothing stands in it; copy the ingredients and the steps"
            ),
            Self::NotText => write!(f, "this is no text; open a text, a page or a JSON file"),
            Self::BrokenJson { cause } => {
                write!(
                    f,
                    "the file is cut short or damaged ({cause}); get it once more"
                )
            }
            Self::NoRecipe => write!(f, "no recipe stands in this page; copy its text instead"),
            Self::NotAFormula => write!(
                f,
                "this doesn't look like a formula: it has no flour with other ingredients and their amounts"
            ),
            Self::Prices => write!(f, "this looks like something to buy: it has prices"),
            Self::TooMuch => write!(
                f,
                "this is more than one formula can hold; copy only the part that you want to bake"
            ),
        }
    }
}

impl std::error::Error for Refusal {}

/// The most that one formula holds.
const MOST_PARTS: usize = 30;
const MOST_INGREDIENTS: usize = 250;
const MOST_STEPS: usize = 400;

/// Whether what was found is a formula at all.
pub(crate) fn judge(rows: &[Row<'_>], found: &Found) -> Result<(), Refusal> {
    let ingredients = || found.parts.iter().flat_map(|part| &part.ingredients);
    if found.parts.len() > MOST_PARTS
        || ingredients().count() > MOST_INGREDIENTS
        || found.steps.len() > MOST_STEPS
    {
        return Err(Refusal::TooMuch);
    }
    let priced = rows.iter().filter(|row| row.has_price).count();
    let listed = ingredients().count();
    if priced >= 2 && priced * 3 >= listed {
        return Err(Refusal::Prices);
    }
    let role = |role: Role| {
        ingredients().any(|one| one.known.as_ref().is_some_and(|known| known.role == role))
    };
    let measured = ingredients()
        .filter(|one| one.known.is_some() && (one.mass.is_some() || one.percent.is_some()));
    let measured = measured.count();
    let unknown = ingredients().filter(|one| one.known.is_none()).count();
    let wet = role(Role::Liquid) || role(Role::Egg) || role(Role::Fat);
    let worked = found.steps.iter().filter(|step| {
        matches!(
            step.kind,
            Some(
                StepKind::Knead
                    | StepKind::Bake
                    | StepKind::Bulk
                    | StepKind::FinalProof
                    | StepKind::Mix
                    | StepKind::Shape
            )
        )
    });
    let is_worked = worked.count() > 0;
    // Stone meal and bone meal are flours by their names alone: such need an oven or a kneading.
    let is_named = ingredients().any(|one| {
        one.known
            .as_ref()
            .is_some_and(|known| known.role == Role::Flour && known.certainty < Certainty::KindOnly)
    });
    let is_baked = found
        .steps
        .iter()
        .any(|step| matches!(step.kind, Some(StepKind::Bake | StepKind::Knead)));
    let is_bread =
        (is_named || (role(Role::Flour) && is_baked)) && (role(Role::Yeast) || wet || is_worked);
    if measured >= 2 && is_bread && unknown <= listed.div_ceil(2) {
        Ok(())
    } else {
        Err(Refusal::NotAFormula)
    }
}
