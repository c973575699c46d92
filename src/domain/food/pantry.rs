//! What some four hundred baking foods are made of, and what a cup of them weighs.
//!
//! Composition: USDA National Nutrient Database for Standard Reference, release 28 (2015),
//! file ABBREV. Household weights: release 26 (2013), file WEIGHT. Both are in the public
//! domain; numbers are the database's NDB numbers and descriptions its own short ones.
//!
//! Foods that formulas are made of are in [`super::all`]; this is for everything that may
//! come with somebody else's formula or figures. Left out: rows without a value for fibre,
//! brands, and cooked dishes but for a few. Cups are weighed as the database's cooks filled
//! them; flour differs by a tenth between dipped and spooned.

mod more_weights;
mod rows;
mod weights;

use super::{Composition, table};
use crate::units::Grams;

/// A number, the database's description, and seven values per 100 g.
type Row = (u32, &'static str, [f64; 7]);

/// The values per 100 g of the row of that number, for tables that are made when this is compiled.
///
/// # Panics
/// When the pantry lacks it, which then stops the compiler.
pub(super) const fn row(ndb: u32) -> [f64; 7] {
    match find(ndb) {
        Some(row) => row.2,
        None => panic!("the pantry lacks a row that a food is made of"),
    }
}

const fn find(ndb: u32) -> Option<&'static Row> {
    let mut half = 0;
    while half < rows::ROWS.len() {
        let rows = rows::ROWS[half];
        let (mut from, mut to) = (0, rows.len());
        while from < to {
            let middle = usize::midpoint(from, to);
            let number = rows[middle].0;
            if number == ndb {
                return Some(&rows[middle]);
            }
            if number < ndb {
                from = middle + 1;
            } else {
                to = middle;
            }
        }
        half += 1;
    }
    None
}

/// What the food of that number is made of.
///
/// ```
/// let brown_sugar = domain::food::pantry::composition(19334).expect("the pantry has it");
/// assert!((brown_sugar.sugar.get() - 0.9702).abs() < 1e-9);
/// ```
#[must_use]
pub fn composition(ndb: u32) -> Option<Composition> {
    find(ndb).map(|(_, _, row)| table::per_100_g(*row))
}

/// All numbers with their descriptions, in the order of the numbers.
pub fn all() -> impl Iterator<Item = (u32, &'static str)> {
    let rows = rows::ROWS.iter().flat_map(|half| half.iter());
    rows.map(|(number, name, _)| (*number, *name))
}

/// The household measures of that number that formulas are read with: each with the database's
/// description of it ("cup, sifted", "tbsp", "medium") and the grams of one.
#[must_use]
pub fn measures(ndb: u32) -> &'static [(&'static str, f64)] {
    let table = weights::WEIGHTS;
    let found = table.binary_search_by_key(&ndb, |(number, _)| *number);
    found.map_or(&[], |place| table[place].1)
}

/// What one measure of a food weighs: "cup", "tbsp", "tsp", or "each" for an egg.
///
/// `said` is how somebody describes it; see [`fitting`].
///
/// ```
/// use domain::food::pantry::household_weight;
///
/// let large = household_weight(1123, "each", "egg, large").expect("the database has eggs");
/// assert_eq!(large.get(), 50.0);
/// ```
#[must_use]
pub fn household_weight(ndb: u32, measure: &str, said: &str) -> Option<Grams> {
    let mut tables = weights::WEIGHTS.iter().chain(more_weights::MORE_WEIGHTS);
    let (_, measures) = tables.find(|(number, _)| *number == ndb)?;
    let in_grams = measures
        .iter()
        .map(|&(description, mass_g)| (description, Grams::clamped(mass_g)));
    fitting(in_grams, measure, said)
}

/// Of a food's measures, described as the database does, the one that is meant.
///
/// Of several cups ("sifted", "packed", "ground") or sizes ("large") it is the one that shares
/// most words with what was said and has fewest others, and the first where that leaves several.
pub fn fitting<'a>(
    measures: impl IntoIterator<Item = (&'a str, Grams)>,
    measure: &str,
    said: &str,
) -> Option<Grams> {
    let said = words(said);
    let mut best: Option<(isize, Grams)> = None;
    for (description, mass) in measures {
        // A remark in brackets describes no other way of filling it.
        let plain = description.split(" (").next().unwrap_or(description);
        let by_the_piece = measure == "each" && SIZES.iter().any(|size| plain.starts_with(size));
        let manner = if by_the_piece {
            plain
        } else {
            match plain.strip_prefix(measure) {
                Some(manner) if !manner.starts_with(char::is_alphanumeric) => manner,
                _ => continue,
            }
        };
        let described = words(manner);
        let word_fits = |word| if said.contains(word) { 1 } else { -1 };
        let fit: isize = described.iter().map(word_fits).sum();
        if best.is_none_or(|(best, _)| fit > best) {
            best = Some((fit, mass));
        }
    }
    best.map(|(_, mass)| mass)
}

/// How the database begins what is counted by the piece.
const SIZES: [&str; 5] = ["small", "medium", "large", "extra large", "jumbo"];

fn words(text: &str) -> Vec<String> {
    text.split(|letter: char| !letter.is_alphabetic())
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect()
}
