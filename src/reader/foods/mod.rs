//! What the words of an ingredient mean.
//!
//! The words of five languages become plain English ([`words`]), and of that the strongest head says
//! which food it is ([`rules`]). What only describes, or isn't known, is passed over.
//! Left out: brands, and whole dishes that go into a bread.

mod role;
mod rules;
mod words;

pub use role::Role;

use std::cmp::Reverse;

use domain::food::{Food, FoodKind, food, generic};
use words::Word;

/// How sure it is that a food is the one that was meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Certainty {
    /// It is what was named.
    Named,
    /// It is what such a name mostly means: "flour", "milk", "oil".
    Likely,
    /// Only its kind is known, and the food stands for that.
    KindOnly,
}

/// A food that was named.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Known {
    /// The food.
    pub food: &'static Food,
    /// What it does among the ingredients.
    pub role: Role,
    /// How sure that is.
    pub certainty: Certainty,
}

/// So many letters of a name are looked at.
const LONGEST: usize = 200;

/// Heads that are poured, whatever they are of.
const POURED: &[&str] = &[
    "drink",
    "juice",
    "liquid",
    "milk",
    "softdrink",
    "stock",
    "water",
];

/// The food that an ingredient's words mean, its amount apart.
///
/// `None` where no food is among them. "Yeast" alone is taken as dried; who has its weight can tell
/// fresh yeast by that.
///
/// ```
/// let known = reader::foods::known("Weizenmehl (Type 550)").expect("it is flour");
/// assert_eq!(known.food.key, "bread-flour");
/// assert_eq!(known.role.to_string(), "flour");
/// ```
#[must_use]
pub fn known(said: &str) -> Option<Known> {
    let end = said
        .char_indices()
        .nth(LONGEST)
        .map_or(said.len(), |(at, _)| at);
    let said = said.get(..end)?;
    // "Butter the size of an egg" is butter.
    let said = said.split(" size of ").next()?;
    let segments: Vec<Vec<Word>> = said
        .split([',', ';', ':', '(', ')', '/', '–', '—', '\n'])
        .map(words::plain)
        .collect();
    let find = |segments: &[Vec<Word>]| {
        segments.iter().enumerate().find_map(|(at, segment)| {
            // What stands elsewhere only describes.
            let beside = segments
                .iter()
                .enumerate()
                .filter(|(other, _)| *other != at);
            let beside: Vec<&str> = beside
                .flat_map(|(_, other)| other)
                .map(|word| word.plain)
                .collect();
            meant(segment, &beside)
        })
    };
    find(&segments).or_else(|| {
        // "Butterwürfel" is butter, though it says that it is dice.
        let parts = segments.iter().map(|segment| {
            let any = segment.iter().map(|word| Word {
                can_head: true,
                sure: false,
                ..*word
            });
            any.collect()
        });
        find(&parts.collect::<Vec<_>>())
    })
}

/// Whether a food is among the words.
#[must_use]
pub fn mentions(text: &str) -> bool {
    known(text).is_some()
}

/// The food of the strongest head of these words, by them and by what was said beside them.
fn meant(segment: &[Word], beside: &[&str]) -> Option<Known> {
    let mut heads: Vec<(u16, usize)> = segment
        .iter()
        .enumerate()
        .filter(|(_, word)| word.can_head)
        .filter_map(|(place, word)| Some((rules::strength(word.plain)?, place)))
        .collect();
    // The strongest first; of the same word twice the last.
    heads.sort_unstable_by_key(|&(strength, place)| (strength, Reverse(place)));
    heads.dedup_by_key(|(strength, _)| *strength);
    heads
        .into_iter()
        .find_map(|(strength, place)| headed(rules::head(strength)?, segment, place, beside))
}

/// The food of a head that stands at some place, if any of its rules fits.
fn headed(
    (head, rules): &rules::Head,
    segment: &[Word],
    place: usize,
    beside: &[&str],
) -> Option<Known> {
    let others = segment.iter().enumerate().filter(|(at, _)| *at != place);
    let others: Vec<&str> = others.map(|(_, word)| word.plain).collect();
    let said = |word: &str| others.contains(&word) || beside.contains(&word);
    let fits = |with: &str| with.split_terminator(' ').all(said);
    let words = |rule: &rules::Rule| rule.0.split_terminator(' ').count();
    let rule = rules
        .iter()
        .filter(|rule| fits(rule.0))
        .max_by_key(|rule| words(rule))?;
    let (with, key, certainty) = *rule;
    let food = food(key)?;
    let is_of_another = with.is_empty()
        && rules::OF_MANY_KINDS.contains(head)
        && others.iter().any(|other| names_a_food(other, rules));
    Some(if is_of_another {
        Known::of(generic(food.kind), head, Certainty::KindOnly)
    } else if segment[place].sure {
        Known::of(food, head, certainty)
    } else {
        Known::of(food, head, certainty.max(Certainty::Likely))
    })
}

/// Whether a word is a food's that none of the rules of another head knows.
fn names_a_food(word: &str, rules: &[rules::Rule]) -> bool {
    let is_known = rules
        .iter()
        .any(|(with, ..)| with.split(' ').any(|with| with == word));
    !is_known && rules::strength(word).is_some()
}

impl Known {
    fn of(food: &'static Food, head: &str, certainty: Certainty) -> Self {
        let is_generic = food.is_generic();
        let is_poured = is_generic && POURED.contains(&head) && food.kind != FoodKind::Yeast;
        Self {
            food,
            role: if is_poured {
                Role::Liquid
            } else {
                Role::of(food)
            },
            certainty: if is_generic {
                Certainty::KindOnly
            } else {
                certainty
            },
        }
    }
}

#[cfg(test)]
mod tests;
