//! In which language a text is written, guessed from its smallest words.
//!
//! Some words mean different things: "to" is two in Norwegian, "en" is one there and "in" in French, a "time" is an
//! hour. Only these ask for the language; everything else is looked up in all of them, so a text may mix.

use std::sync::OnceLock;

use crate::grammar::tokens::Token;
use crate::index::Index;

/// A language that is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Language {
    /// English of either side of the ocean; also what nothing tells.
    #[default]
    English,
    /// German.
    German,
    /// French.
    French,
    /// Spanish.
    Spanish,
    /// Norwegian, and Danish and Swedish as far as they go along.
    Norwegian,
}

/// Words that tell a language, in lower case and without accents: common ones that no other of the five has in a text
/// like these.
#[rustfmt::skip]
const TELLING: [(Language, &[&str]); 5] = [
    (Language::English, &[
        "the", "and", "of", "with", "until", "for", "then", "flour", "butter", "into", "salt", "cup", "cups",
        "dough", "water", "bake", "minutes", "sugar", "let", "yeast", "egg", "from", "it", "at",
    ]),
    (Language::German, &[
        "und", "der", "die", "das", "den", "dem", "mit", "fur", "el", "tl", "mehl", "zucker", "hefe", "teig",
        "wasser", "salz", "milch", "ei", "eier", "stunden", "std", "minuten", "lassen", "etwa", "kneten",
        "backen", "zutaten", "prise", "bei", "ein", "eine", "gehen", "oder", "weizenmehl", "vorteig",
    ]),
    (Language::French, &[
        "et", "le", "les", "du", "farine", "sucre", "sel", "eau", "d'eau", "beurre", "lait", "levure", "oeuf",
        "oeufs", "pate", "minutes", "heure", "heures", "dans", "pendant", "avec", "au", "une", "pour",
        "cuillere", "cuilleres", "jaune", "laisser", "petrir",
    ]),
    (Language::Spanish, &[
        "y", "el", "los", "las", "del", "harina", "azucar", "sal", "agua", "mantequilla", "leche", "levadura",
        "huevo", "huevos", "masa", "minutos", "hora", "horas", "con", "durante", "para", "una", "cucharada",
        "cucharadas", "cucharadita", "cucharaditas", "hornear", "amasar", "dejar", "hasta",
    ]),
    (Language::Norwegian, &[
        "og", "hvetemel", "mel", "sukker", "smor", "melk", "gjaer", "egg", "vann", "deig", "deigen", "minutter",
        "min", "timer", "ss", "ts", "dl", "til", "med", "i", "pa", "stek", "elt", "heve", "la", "ca", "fyll",
        "salt", "det", "av", "eller", "stk", "romtemperert",
    ]),
];

/// How many words are looked at: a text's first page tells as much as all of it.
const LOOKED_AT: usize = 600;

impl Language {
    /// The language that most of the telling words belong to; of several the first.
    pub(crate) fn of<'t, 'a: 't>(tokens: impl IntoIterator<Item = &'t Token<'a>>) -> Self {
        let mut told = [0_usize; TELLING.len()];
        let words = tokens.into_iter().filter(|token| token.is_word());
        for token in words.take(LOOKED_AT) {
            let languages = telling(&token.word);
            for (place, count) in told.iter_mut().enumerate() {
                *count += usize::from(languages >> place & 1);
            }
        }
        let mut best = (0, Self::English);
        for (count, (language, _)) in told.into_iter().zip(TELLING) {
            if count > best.0 {
                best = (count, language);
            }
        }
        best.1
    }
}

/// The languages that a word tells, each a bit by its place in the table.
fn telling(word: &str) -> u8 {
    static LANGUAGES: OnceLock<Index<u8>> = OnceLock::new();
    let languages = LANGUAGES.get_or_init(|| {
        let words = TELLING.into_iter().flat_map(|(_, words)| words);
        Index::of(words.map(|&word| {
            let tells = |(place, (_, words)): (usize, (Language, &[&str]))| {
                u8::from(words.contains(&word)) << place
            };
            (word, TELLING.into_iter().enumerate().map(tells).sum())
        }))
    });
    languages.get(word).unwrap_or(0)
}

#[cfg(test)]
mod tests;
