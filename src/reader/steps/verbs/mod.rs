//! What is done in a step, told by its verbs in five languages.
//!
//! Left out: grammar. "Knead until the dough rests" is taken for what weighs most of the two.

mod table;

use std::sync::OnceLock;

use domain::formula::StepKind;

use crate::grammar::tokens::Token;
use table::VERBS;

/// What a single word tells, if it is such a verb.
pub(crate) fn verb(word: &str) -> Option<StepKind> {
    static BY_LETTER: OnceLock<[Vec<u16>; LETTERS]> = OnceLock::new();
    let by_letter = BY_LETTER.get_or_init(|| {
        let mut places = [const { Vec::new() }; LETTERS];
        for (place, (written, _)) in VERBS.iter().enumerate() {
            places[letter(written)].push(place as u16);
        }
        places
    });
    let candidates = by_letter[letter(word)].iter();
    let mut candidates = candidates.map(|&place| VERBS[usize::from(place)]);
    let fits = |(written, _): &(&str, StepKind)| match written.strip_suffix('*') {
        Some(stem) => word.starts_with(stem) && word.len() <= stem.len() + ENDING,
        None => *written == word,
    };
    candidates.find(fits).map(|(_, kind)| kind)
}

/// As many as the alphabet has, and one place for what begins with none of them.
const LETTERS: usize = 27;

fn letter(word: &str) -> usize {
    let first = word.bytes().next().unwrap_or(0);
    usize::from(first.wrapping_sub(b'a')).min(LETTERS - 1)
}

/// The longest ending of a verb: "ing", "ed", "ation".
const ENDING: usize = 4;

/// How much a kind tells of a step: what takes its time says more than the work before it.
fn weight(kind: StepKind) -> u8 {
    match kind {
        StepKind::Bake => 9,
        StepKind::FinalProof | StepKind::Retard | StepKind::Bulk => 8,
        StepKind::Knead | StepKind::Cook | StepKind::OvenOn => 7,
        StepKind::BenchRest | StepKind::Cool | StepKind::Chill => 6,
        StepKind::PreShape | StepKind::Divide | StepKind::Shape | StepKind::Fill => 5,
        StepKind::Wash | StepKind::Finish => 4,
        StepKind::Mix => 3,
        _ => 1,
    }
}

/// What is done in a step: of all its verbs the one that tells most, of several the first.
pub(crate) fn kind(tokens: &[Token<'_>]) -> Option<StepKind> {
    let mut best: Option<StepKind> = None;
    for token in tokens
        .iter()
        .filter(|token| token.is_word())
        .take(LOOKED_AT)
    {
        if let Some(found) = verb(&token.word)
            && best.is_none_or(|best| weight(found) > weight(best))
        {
            best = Some(found);
        }
    }
    best
}

/// A step's first words tell what it is.
const LOOKED_AT: usize = 60;
