//! Units of mass and volume, spoons and packets, in five languages.
//!
//! Left out: imperial pints and fluid ounces, which nobody tells from American ones, and spoons of 20 ml.

mod table;

use super::{Input, Result, peeked_word};
use table::{KILO, UNITS};

/// What an amount is counted in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Unit {
    /// So many grams each.
    Grams(f64),
    /// So many millilitres each.
    Millilitres(f64),
    Cup,
    Tablespoon,
    Teaspoon,
    /// A stick of butter.
    Stick,
    /// A sachet or an envelope, as yeast and vanilla sugar are sold.
    Packet,
    /// A cube of fresh yeast.
    Cube,
    Pinch,
    Knob,
    Clove,
    Slice,
    Leaf,
    Bunch,
    Sprig,
    Handful,
    /// Tins, jars and bags, whose size nobody knows unless it is told.
    Container,
    /// Pieces: eggs, leeks.
    Piece,
}

impl Unit {
    /// Whether it is as exact as scales are.
    pub(crate) fn is_mass(self) -> bool {
        matches!(self, Self::Grams(_))
    }

    /// The better of two ways to say one amount has the smaller number: masses, volumes, measures, pieces.
    pub(crate) fn vagueness(self) -> u8 {
        match self {
            // Scales that show grams were read more finely than those that show ounces.
            Self::Grams(grams) if grams == 1.0 || grams == KILO => 0,
            Self::Grams(_) => 1,
            Self::Millilitres(millilitres) if METRIC.contains(&millilitres) => 2,
            Self::Millilitres(_) => 3,
            Self::Cup | Self::Tablespoon | Self::Teaspoon => 4,
            Self::Packet | Self::Stick | Self::Cube => 5,
            Self::Clove | Self::Sprig | Self::Slice | Self::Leaf | Self::Piece => 6,
            Self::Pinch | Self::Knob | Self::Bunch | Self::Handful | Self::Container => 7,
        }
    }
}

/// Millilitre, centilitre, decilitre and litre: no pint is told from another by them.
const METRIC: [f64; 4] = [1.0, 10.0, 100.0, 1000.0];

/// A unit, as one word or several: "g", "fl. oz.", "c. à soupe".
pub(crate) fn unit(input: &mut Input<'_, '_>) -> Result<Unit> {
    let first = peeked_word(input)?;
    // In a notebook only a capital tells the larger spoon.
    let is_tablespoon = matches!(first.text, "T" | "Tb" | "TB");
    let from = UNITS.partition_point(|(written, _)| first_word(written) < first.word.as_str());
    let candidates = UNITS[from..]
        .iter()
        .take_while(|(written, _)| first_word(written) == first.word);
    let found = super::meaning(input, candidates)?;
    Ok(if is_tablespoon {
        Unit::Tablespoon
    } else {
        found
    })
}

fn first_word(written: &str) -> &str {
    written.split(' ').next().unwrap_or(written)
}

#[cfg(test)]
mod tests;
