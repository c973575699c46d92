//! Small words that more than one rule of the grammar or of the lines asks for, in lower case and without accents.

/// What joins two things.
pub(crate) const AND: &[&str] = &["and", "und", "et", "y", "og"];

/// What stands between two of which either will do.
pub(crate) const OR: &[&str] = &["or", "oder", "ou", "o", "eller"];

/// What stands between an amount and what it is of.
pub(crate) const OF: &[&str] = &["of", "de", "du", "des", "von", "av"];

/// How a half is added to what was counted: "1 hour and a half", "una cucharada y media".
pub(crate) const AND_A_HALF: &[&str] = &[
    "and a half",
    "et demi",
    "et demie",
    "y media",
    "y medio",
    "og en halv",
    "og et halvt",
];

/// How a quarter is.
pub(crate) const AND_A_QUARTER: &[&str] = &["and a quarter", "et quart", "y cuarto"];

/// That a number is no exact one.
#[rustfmt::skip]
pub(crate) const ABOUT: &[&str] = &[
    "about", "around", "approx", "approximately", "roughly", "scant", "generous", "good", "well", "at least", "up to",
    "heaped", "level", "heaping", "rounded",
    "etwa", "ca", "circa", "rund", "gut", "knapp", "knappe", "gute", "guten", "ungefahr", "mindestens",
    "gestrichen", "gestrichener", "gestrichene", "gehaufter", "gehaufte",
    "environ", "env", "au moins",
    "unos", "unas", "aproximadamente", "aprox", "cerca de", "al menos",
    "omtrent", "cirka", "rundt", "minst",
];

/// What may stand between a number and its unit: "1 heaped tbsp", "1 small bunch".
#[rustfmt::skip]
pub(crate) const HEAPED: &[&str] = &[
    "heaped", "level", "heaping", "rounded", "scant", "generous", "good", "small", "large", "big", "us", "metric",
    "gestr", "gestrichener", "gestrichene", "gehaufter", "gehaufte", "geh", "knapper", "guter", "kleine", "kleiner", "grosse", "grosser",
    "rase", "bonne", "petite",
    "rasa", "colmada",
    "liten", "stor", "toppet", "stroket",
];
