//! What a cup, a spoon, a piece or a packet of a food weighs, and how that is known.
//!
//! Sources: USDA National Nutrient Database for Standard Reference, release 26 (2013), file WEIGHT,
//! public domain ([`pantry::measures`]); what trade packs hold ([`trade`]) is common practice.
//! Left out: how people fill a cup, which varies by a tenth and more for flour, and that a
//! tablespoon of 15 mL and one of 14.79 mL differ by 1.4 %: both are the same here.

mod said;
mod trade;
mod weighed_as;

use super::{Food, FoodKind, density, pantry};
use crate::units::measures::Measure;
use crate::units::{Grams, celsius};
use said::Manner;

/// What people measure by who don't weigh.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Household {
    /// US cup of 236.6 mL.
    Cup,
    /// Level tablespoon, of 14.8 or 15 mL.
    Tablespoon,
    /// Level teaspoon, of 4.9 or 5 mL.
    Teaspoon,
    /// US fluid ounce of 29.6 mL.
    FluidOunce,
    /// Millilitre: decilitres, litres and metric cups are so many of them.
    Millilitre,
    /// One of them: an egg, an apple, a leek; of a juice or a peel, that of one fruit.
    Piece,
    /// A slice of bread, cheese or ham.
    Slice,
    /// A clove of garlic.
    Clove,
    /// A stick of butter.
    Stick,
    /// A packet or sachet, as it is sold.
    Packet,
    /// A cube of fresh yeast or sugar.
    Cube,
    /// A tin or can.
    Tin,
    /// A bunch of herbs or leaves.
    Bunch,
    /// A sprig of a herb.
    Sprig,
    /// A leaf: of a herb, or of gelatine.
    Leaf,
    /// As much as two fingers hold.
    Pinch,
    /// A few shakes.
    Dash,
    /// A lump of butter.
    Knob,
    /// As much as a hand holds.
    Handful,
}

/// What a weight rests on, the surest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Basis {
    /// The published weight of that food for this measure; the database's description of it.
    Published(&'static str),
    /// The published weight of that food for another measure of volume.
    Scaled(&'static str),
    /// Common practice: what the trade packs, without a source.
    Trade,
    /// Volume by density, which follows from what the food is made of (Choi and Okos), free of air.
    Density,
    /// The published weight of another food that is like it.
    Likened(&'static str),
    /// ASSUMPTION: nobody measures it; a usual amount.
    Assumed,
}

/// A weight, and how it is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weighed {
    /// The weight of one.
    pub mass: Grams,
    /// What it rests on.
    pub basis: Basis,
}

impl Household {
    /// How much it holds, where it is a measure of volume; in mL.
    const fn volume_ml(self) -> Option<f64> {
        Some(match self {
            Self::Cup => Measure::UsCup.volume().get(),
            Self::Tablespoon => Measure::UsTablespoon.volume().get(),
            Self::Teaspoon => Measure::UsTeaspoon.volume().get(),
            Self::FluidOunce => Measure::UsFluidOunce.volume().get(),
            Self::Millilitre => 1.0,
            _ => return None,
        })
    }

    /// The measure that a description of the database begins with; what names no measure is a piece.
    fn of_description(description: &str) -> Self {
        match description.split([' ', ',']).next().unwrap_or_default() {
            "cup" => Self::Cup,
            "tbsp" | "tablespoon" => Self::Tablespoon,
            "tsp" => Self::Teaspoon,
            "fl" => Self::FluidOunce,
            "slice" | "slices" => Self::Slice,
            "clove" | "cloves" => Self::Clove,
            "stick" => Self::Stick,
            "packet" | "package" | "envelope" => Self::Packet,
            // "serving 1 cube" of sugar; a "cake" of yeast.
            "serving" | "cake" => Self::Cube,
            "can" => Self::Tin,
            "bunch" => Self::Bunch,
            "sprigs" => Self::Sprig,
            "leaf" | "leaves" => Self::Leaf,
            "dash" => Self::Dash,
            _ => Self::Piece,
        }
    }

    /// Measures of volume that another may be scaled from, the likeliest to be filled alike first.
    const fn next_to(self) -> &'static [Self] {
        match self {
            Self::Cup => &[Self::FluidOunce, Self::Tablespoon, Self::Teaspoon],
            Self::FluidOunce => &[Self::Cup, Self::Tablespoon, Self::Teaspoon],
            Self::Tablespoon => &[Self::Teaspoon, Self::FluidOunce, Self::Cup],
            Self::Teaspoon => &[Self::Tablespoon, Self::FluidOunce, Self::Cup],
            Self::Millilitre => &[
                Self::Cup,
                Self::FluidOunce,
                Self::Tablespoon,
                Self::Teaspoon,
            ],
            _ => &[],
        }
    }
}

/// What one such measure of a food weighs, `None` where nobody can say.
///
/// `said` is how the baker put it ("brown sugar, packed", "große Eier"): of several weights of a
/// measure it is the one that fits that best, and what is usual where nothing was said.
///
/// ```
/// use domain::food::{food, household::{Household, weighs}};
///
/// let egg = food("egg").expect("eggs are in the table");
/// let medium = weighs(egg, Household::Piece, "medium eggs").expect("eggs are counted");
/// assert_eq!(medium.mass.get(), 44.0);
/// ```
#[must_use]
pub fn weighs(food: &Food, measure: Household, said: &str) -> Option<Weighed> {
    if let Some(packed) = trade::of(food.key, measure) {
        return Some(packed);
    }
    let manner = Manner::of(food.key, said);
    let published = Published::of(food);
    let counted = measure.volume_ml().is_none();
    // Nothing is known of what stands for a kind but that it can be spooned and poured.
    if !(counted && food.is_generic() && food.kind != FoodKind::Egg) {
        let found = published.find(measure, &manner);
        if let Some(found) = found.or_else(|| published.scaled(measure, &manner)) {
            return Some(found);
        }
    }
    by_density(food, measure).or_else(|| assumed(food, measure, said))
}

/// A food's own published weights, or those of one that is like it.
struct Published {
    measures: &'static [(&'static str, f64)],
    likened: bool,
}

impl Published {
    fn of(food: &Food) -> Self {
        let other = weighed_as::of(food.key);
        let measures = other.or(food.ndb).map(pantry::measures);
        Self {
            measures: measures.unwrap_or_default(),
            likened: other.is_some() || food.is_generic(),
        }
    }

    fn best(&self, measure: Household, manner: &Manner) -> Option<(isize, &'static str, f64)> {
        let mut best: Option<(isize, &'static str, f64)> = None;
        for &(description, mass_g) in self.measures {
            if Household::of_description(description) != measure {
                continue;
            }
            let fit = manner.fit(description);
            if best.is_none_or(|(best, ..)| fit > best) {
                best = Some((fit, description, mass_g));
            }
        }
        best
    }

    fn find(&self, measure: Household, manner: &Manner) -> Option<Weighed> {
        let (_, description, mass_g) = self.best(measure, manner)?;
        Some(Weighed {
            mass: Grams::clamped(mass_g),
            basis: if self.likened {
                Basis::Likened(description)
            } else {
                Basis::Published(description)
            },
        })
    }

    fn scaled(&self, measure: Household, manner: &Manner) -> Option<Weighed> {
        let wanted_ml = measure.volume_ml()?;
        let mut best: Option<(isize, &'static str, f64)> = None;
        for &other in measure.next_to() {
            let Some((fit, description, mass_g)) = self.best(other, manner) else {
                continue;
            };
            if best.is_none_or(|(best, ..)| fit > best) {
                best = Some((fit, description, mass_g * wanted_ml / other.volume_ml()?));
            }
        }
        let (_, description, mass_g) = best?;
        Some(Weighed {
            mass: Grams::clamped(mass_g),
            basis: if self.likened {
                Basis::Likened(description)
            } else {
                Basis::Scaled(description)
            },
        })
    }
}

/// A drink's weight by its volume: what is wet enough holds no air.
fn by_density(food: &Food, measure: Household) -> Option<Weighed> {
    let volume_ml = measure.volume_ml()?;
    let flows = food.composition.water.get() > 0.8 || food.composition.fat.get() > 0.95;
    flows.then(|| Weighed {
        mass: Grams::clamped(volume_ml * density(food, celsius(20.0)).get() / 1000.0),
        basis: Basis::Density,
    })
}

/// What nobody weighs: a usual amount of it.
fn assumed(food: &Food, measure: Household, said: &str) -> Option<Weighed> {
    let of = |part: f64, of: Household| Some(weighs(food, of, said)?.mass.get() * part);
    let mass_g = match measure {
        Household::Pinch => {
            of(trade::PINCH_OF_TEASPOON, Household::Teaspoon).unwrap_or(trade::PINCH_G)
        }
        Household::Dash => of(trade::DASH_OF_TEASPOON, Household::Teaspoon)?,
        Household::Knob => trade::KNOB_G,
        Household::Handful => of(trade::HANDFUL_OF_CUP, Household::Cup)?,
        Household::Sprig if food.kind == FoodKind::Spice => trade::SPRIG_G,
        Household::Bunch if food.kind == FoodKind::Spice => trade::BUNCH_G,
        _ => return None,
    };
    Some(Weighed {
        mass: Grams::clamped(mass_g),
        basis: Basis::Assumed,
    })
}

#[cfg(test)]
mod tests;
