//! What an amount, a time or a temperature can begin with.
//!
//! Nine of ten words of a text begin none, and are passed over without asking a dozen rules.

use std::sync::OnceLock;

use super::heat::words::{GAS, THERMOSTAT, WITH_FAN, WITHOUT_FAN};
use super::number::words::{ANYWHERE, BETWEEN, OWN};
use super::time::words::{OVERNIGHT, WORDED};
use super::tokens::{Kind, Token};
use super::words::ABOUT;
use crate::index::Index;

/// Signs for "about".
pub(crate) const ABOUT_SIGNS: &[char] = &['~', '≈', '±'];

/// Whether any of the rules may fit where a token stands.
pub(crate) fn may_begin(token: &Token<'_>) -> bool {
    match token.kind {
        Kind::Number { .. } | Kind::Vulgar(_) => true,
        Kind::Mark(mark) => ABOUT_SIGNS.contains(&mark),
        Kind::Word => words().get(&token.word).is_some(),
    }
}

fn words() -> &'static Index<()> {
    static WORDS: OnceLock<Index<()>> = OnceLock::new();
    WORDS.get_or_init(|| {
        let lists = [
            ABOUT,
            BETWEEN,
            OVERNIGHT,
            GAS,
            THERMOSTAT,
            WITH_FAN,
            WITHOUT_FAN,
        ];
        let phrases = lists.into_iter().flatten().copied();
        let own = OWN.iter().flat_map(|(_, words)| *words);
        let numbers = own.chain(ANYWHERE).chain(WORDED);
        let phrases = phrases.chain(numbers.map(|&(phrase, _)| phrase));
        Index::of(phrases.filter_map(|phrase| Some((phrase.split(' ').next()?, ()))))
    })
}
