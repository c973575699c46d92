//! Words of five languages, as plain English.
//!
//! A table for each language: `folded words=plain English`, a line each, in the order of the words.
//! As texts they weigh half of what tables with pointers would. A word that means different foods
//! in two languages is in one of them only: "prune" is English, "lard" too, and "piment" German.

use std::sync::OnceLock;

use domain::food::folded;

use crate::index::Index;

const TABLES: [&str; 5] = [
    include_str!("en.txt"),
    include_str!("de.txt"),
    include_str!("fr.txt"),
    include_str!("es.txt"),
    include_str!("no.txt"),
];

/// Between these words and what they belong to nothing is lost by leaving them out.
const FILLERS: &[&str] = &[
    "a", "al", "an", "au", "aux", "av", "d", "das", "de", "del", "der", "des", "die", "du", "el",
    "en", "l", "la", "las", "le", "les", "los", "of", "the", "vom", "von",
];

/// Behind these words stands something else: an alternative, what it is for, what it lies in.
const STOPS: &[&str] = &[
    "and", "aus", "avec", "con", "dans", "eller", "et", "for", "fra", "from", "fur", "i", "im",
    "in", "into", "med", "mit", "no", "o", "oder", "og", "ohne", "on", "or", "ou", "para", "plus",
    "pour", "pr", "sans", "sin", "statt", "til", "und", "uten", "with", "without", "y", "zum",
    "zur",
];

/// Endings of plurals and of adjectives, and what stands in their place.
const ENDINGS: &[(&str, &str)] = &[
    ("s", ""),
    ("es", ""),
    ("ies", "y"),
    ("n", ""),
    ("en", ""),
    ("e", ""),
    ("er", ""),
    ("r", ""),
    ("em", ""),
    ("ene", ""),
    ("ne", ""),
    ("nen", ""),
    ("x", ""),
    ("te", ""),
];

/// The longest phrase that is looked for, in words.
const LONGEST_PHRASE: usize = 4;
/// Words longer than this are no food's name.
const LONGEST_WORD: usize = 40;
/// Parts of a compound are no shorter than this, and where the last part only is known it is no shorter than that.
const SHORTEST_PART: usize = 3;
/// But for "-öl".
const SHORT_PART: &str = "ol";
const SHORTEST_END: usize = 4;
const SHORTEST_INFLECTED_END: usize = 7;

/// A word of plain English that a text holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Word {
    /// The word.
    pub(super) plain: &'static str,
    /// Whether it can say what the thing is; the first parts of a compound can't.
    pub(super) can_head: bool,
    /// Whether all of what was written is known; not so of a compound with an unknown part.
    pub(super) sure: bool,
}

/// What a text says, in plain English, as far as the words are known; up to the first word behind
/// which something else stands.
pub(super) fn plain(text: &str) -> Vec<Word> {
    let text = folded(text);
    let all = text.split(' ').filter(|word| !FILLERS.contains(word));
    let words: Vec<&str> = all.collect();
    let mut found = Vec::new();
    let mut at = 0;
    while at < words.len() {
        if let Some((length, meaning)) = phrase(&words[at..]) {
            found.extend(meaning.split(' ').map(Word::whole));
            at += length;
        } else if STOPS.contains(&words[at]) {
            break;
        } else {
            if let Some(meaning) = stemmed(words[at]) {
                found.extend(meaning.split(' ').map(Word::whole));
            } else {
                compound(words[at], 2, &mut found);
            }
            at += 1;
        }
    }
    found
}

impl Word {
    const fn whole(plain: &'static str) -> Self {
        Self {
            plain,
            can_head: true,
            sure: true,
        }
    }
}

/// The longest phrase that these words begin with, and how many they are.
fn phrase(words: &[&str]) -> Option<(usize, &'static str)> {
    if !may_begin_a_phrase(words.first()?) {
        return None;
    }
    let longest = words.len().min(LONGEST_PHRASE);
    (2..=longest).rev().find_map(|length| {
        let said = &words[..length];
        let singular: Vec<&str> = said.iter().map(|word| singular(word)).collect();
        let found = exact(&said.join(" ")).or_else(|| exact(&singular.join(" ")));
        let (last, before) = said.split_last()?;
        let before = before.join(" ");
        let found = found.or_else(|| in_a_form(last, &before));
        Some((length, found?))
    })
}

fn singular(word: &str) -> &str {
    word.strip_suffix(['s', 'x']).unwrap_or(word)
}

/// Whether any phrase has this as its first word.
fn may_begin_a_phrase(word: &str) -> bool {
    static FIRST_WORDS: OnceLock<Index<()>> = OnceLock::new();
    let first_words = FIRST_WORDS.get_or_init(|| {
        let first = lines().filter_map(|(said, _)| said.split_once(' '));
        Index::of(first.map(|(first, _)| (first, ())))
    });
    let is_one = |word: &str| first_words.get(word).is_some();
    let is_any = |word: &str| is_one(word) || with_umlauts(word).is_some_and(|word| is_one(&word));
    is_any(word) || is_any(singular(word))
}

/// What a word means, in whatever form it stands.
fn stemmed(word: &str) -> Option<&'static str> {
    exact(word).or_else(|| in_a_form(word, ""))
}

/// What some words mean, the last of which has one of the endings that it may have.
fn in_a_form(last: &str, before: &str) -> Option<&'static str> {
    let mut said = String::new();
    ENDINGS.iter().find_map(|(ending, instead)| {
        let stem = last.strip_suffix(ending)?;
        if stem.len() < SHORTEST_PART {
            return None;
        }
        said.clear();
        for part in [
            before,
            if before.is_empty() { "" } else { " " },
            stem,
            instead,
        ] {
            said.push_str(part);
        }
        exact(&said)
    })
}

/// What a word means that is written in one, part by part, the last of which says what it is.
///
/// Returns whether it means anything. What only ends in a known word counts as that, but isn't sure.
fn compound(word: &str, depth: usize, found: &mut Vec<Word>) -> bool {
    if !word.is_ascii() || word.len() > LONGEST_WORD {
        return false;
    }
    let mut end_only = None;
    for split in SHORTEST_PART..word.len() {
        let (first, last) = word.split_at(split);
        if last.len() < SHORTEST_PART && last != SHORT_PART {
            continue;
        }
        let Some(meaning) = stemmed(last) else {
            continue;
        };
        let mut parts = Vec::new();
        if first_part(first, depth, &mut parts) {
            found.extend(parts.into_iter().map(|part| Word {
                can_head: false,
                ..part
            }));
            found.extend(meaning.split(' ').map(Word::whole));
            return true;
        }
        // An ending that is only nearly a word is hardly ever one.
        let is_exact = last.len() >= SHORTEST_END && exact(last).is_some();
        if is_exact || last.len() >= SHORTEST_INFLECTED_END {
            end_only = end_only.or(Some(meaning));
        }
    }
    let Some(meaning) = end_only else {
        return false;
    };
    found.extend(meaning.split(' ').map(|plain| Word {
        sure: false,
        ..Word::whole(plain)
    }));
    true
}

fn first_part(part: &str, depth: usize, found: &mut Vec<Word>) -> bool {
    // "Kirsch-" of "Kirsche", where the whole word has lost an ending.
    let meaning = stemmed(part).or_else(|| exact(&format!("{part}e")));
    if let Some(meaning) = meaning {
        found.extend(meaning.split(' ').map(Word::whole));
        return true;
    }
    depth > 1 && compound(part, depth - 1, found) && found.iter().all(|word| word.sure)
}

/// What a folded word or phrase means, as it stands or with its umlauts written out.
fn exact(said: &str) -> Option<&'static str> {
    static MEANINGS: OnceLock<Index<&str>> = OnceLock::new();
    let meanings = MEANINGS.get_or_init(|| Index::of(lines()));
    let find = |said: &str| meanings.get(said);
    find(said).or_else(|| find(&with_umlauts(said)?))
}

/// "Kaese" as "kase", which is how "Käse" is folded.
fn with_umlauts(said: &str) -> Option<String> {
    let is_written_out = ["ae", "oe", "ue"].iter().any(|pair| said.contains(pair));
    is_written_out.then(|| {
        said.replace("ae", "a")
            .replace("oe", "o")
            .replace("ue", "u")
    })
}

/// All words and phrases with their meanings, table by table.
fn lines() -> impl Iterator<Item = (&'static str, &'static str)> {
    TABLES
        .into_iter()
        .flat_map(str::lines)
        .filter_map(|line| line.split_once('='))
}

#[cfg(test)]
mod tests;
