//! Which food is meant, once it is in plain English.
//!
//! A head is the word that says what a thing is: in "rye flour" it is "flour", in "peanut butter"
//! "butter", and "egg" in "egg wash". Each has its foods, by the words that have to stand beside it.
//! Heads come in the order of their strength, so that no grammar is needed: "farine de seigle",
//! "rye flour" and "Roggenmehl" all hold "rye" and "flour", and flour is stronger.

mod dairy;
mod forms;
mod grain;
mod nuts;
mod savoury;
mod stuff;

use std::sync::OnceLock;

use super::Certainty;
use crate::index::Index;

/// The words that have to stand beside a head, the key of the food, and how sure that is.
pub(super) type Rule = (&'static str, &'static str, Certainty);

/// A head and its foods. Of those whose words are all there, the one with most of them is meant,
/// and the later of two with as many.
pub(super) type Head = (&'static str, &'static [Rule]);

/// All heads, the stronger first.
const HEADS: [&[Head]; 6] = [
    forms::HEADS,
    dairy::HEADS,
    stuff::HEADS,
    savoury::HEADS,
    nuts::HEADS,
    grain::HEADS,
];

/// How strong a head is that a word is; the strongest is nought.
pub(super) fn strength(word: &str) -> Option<u16> {
    static STRENGTHS: OnceLock<Index<u16>> = OnceLock::new();
    let strengths = STRENGTHS.get_or_init(|| {
        let heads = HEADS.into_iter().flatten();
        Index::of(heads.map(|(head, _)| *head).zip(0..))
    });
    strengths.get(word)
}

/// The head that is so strong.
pub(super) fn head(strength: u16) -> Option<&'static Head> {
    HEADS.into_iter().flatten().nth(usize::from(strength))
}

/// All heads, the stronger first.
#[cfg(test)]
pub(super) fn heads() -> impl Iterator<Item = &'static Head> {
    HEADS.into_iter().flatten()
}

/// Heads of which there are more kinds than the tables know: what has another food's name beside it
/// is of a kind that they don't ("chestnut flour"), and not the usual one.
pub(super) const OF_MANY_KINDS: &[&str] = &[
    "butter", "cream", "drink", "fat", "flour", "milk", "oil", "paste", "starch", "sugar", "syrup",
    "yoghurt",
];
