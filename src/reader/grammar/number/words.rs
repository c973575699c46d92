//! Numbers in words, and the words beside numbers, in lower case and without accents.

use crate::language::Language;

/// What stands before the two ends of a range.
pub(in crate::grammar) const BETWEEN: &[&str] = &["between", "zwischen", "entre", "mellom"];

/// What stands between them.
pub(in crate::grammar) const TO: &[&str] = &[
    "to", "or", "bis", "oder", "a", "ou", "o", "til", "eller", "up to",
];

/// Behind a number: twelve times as many.
pub(in crate::grammar) const DOZENS: &[&str] = &[
    "dozen",
    "dozens",
    "dz",
    "dzd",
    "dutzend",
    "douzaine",
    "douzaines",
    "docena",
    "docenas",
    "dusin",
];

/// Numbers that are the same in every language that has the word, in the order of their letters.
#[rustfmt::skip]
pub(in crate::grammar) const ANYWHERE: &[(&str, f64)] = &[
    ("a dozen", 12.0), ("a half", 0.5), ("a quarter of a", 0.25), ("a third of a", 1.0 / 3.0), ("acht", 8.0),
    ("anderthalb", 1.5), ("atte", 8.0), ("cinco", 5.0), ("cinq", 5.0), ("cuatro", 4.0),
    ("demi", 0.5), ("demie", 0.5), ("deux", 2.0), ("diez", 10.0), ("dix", 10.0), ("doce", 12.0), ("dos", 2.0),
    ("douze", 12.0), ("dozen", 12.0), ("drei", 3.0), ("dreissig", 30.0), ("dreiviertel", 0.75),
    ("eight", 8.0), ("ein halber", 0.5), ("ein halbes", 0.5), ("ein viertel", 0.25), ("eine halbe", 0.5),
    ("eineinhalb", 1.5), ("einen halben", 0.5), ("einer halben", 0.5), ("einundeinhalb", 1.5), ("en halv", 0.5),
    ("en og en halv", 1.5), ("et halvt", 0.5), ("ett og et halvt", 1.5),
    ("fem", 5.0), ("femten", 15.0), ("fifteen", 15.0), ("fifty", 50.0), ("fire", 4.0), ("five", 5.0),
    ("forty", 40.0), ("forty-five", 45.0), ("four", 4.0), ("funf", 5.0), ("funfzehn", 15.0),
    ("halbe", 0.5), ("halben", 0.5), ("halber", 0.5), ("halbes", 0.5), ("half", 0.5), ("half a", 0.5),
    ("half a dozen", 6.0), ("half an", 0.5), ("half of a", 0.5), ("halv", 0.5), ("halvannen", 1.5), ("halvt", 0.5),
    ("huit", 8.0), ("media", 0.5), ("medio", 0.5), ("nine", 9.0), ("ninety", 90.0),
    ("ocho", 8.0), ("one", 1.0), ("one and a half", 1.5), ("one half", 0.5),
    ("quarter", 0.25), ("quarter of a", 0.25), ("quatre", 4.0), ("quince", 15.0), ("quinze", 15.0),
    ("sechs", 6.0), ("seis", 6.0), ("seven", 7.0), ("six", 6.0), ("sixty", 60.0),
    ("ten", 10.0), ("thirty", 30.0), ("three", 3.0), ("three and a half", 3.5), ("three quarters", 0.75),
    ("three quarters of a", 0.75), ("three-quarters", 0.75), ("ti", 10.0), ("tjue", 20.0), ("to og en halv", 2.5),
    ("tolv", 12.0), ("tre", 3.0), ("treinta", 30.0), ("trente", 30.0), ("tres", 3.0), ("tretti", 30.0),
    ("trois", 3.0), ("twelve", 12.0), ("twenty", 20.0), ("two", 2.0), ("two and a half", 2.5),
    ("un demi", 0.5), ("une demi", 0.5), ("une demie", 0.5), ("veinte", 20.0), ("vier", 4.0), ("viertel", 0.25),
    ("vingt", 20.0), ("zehn", 10.0), ("zwanzig", 20.0), ("zwei", 2.0), ("zweieinhalb", 2.5), ("zwolf", 12.0),
];

/// Numbers whose word means something else elsewhere.
#[rustfmt::skip]
pub(in crate::grammar) const OWN: &[(Language, &[(&str, f64)])] = &[
    (Language::English, &[("a", 1.0), ("an", 1.0)]),
    (Language::German, &[("ein", 1.0), ("eine", 1.0), ("einen", 1.0), ("einer", 1.0), ("eines", 1.0), ("einem", 1.0)]),
    (Language::French, &[("un", 1.0), ("une", 1.0), ("six", 6.0)]),
    (Language::Spanish, &[("un", 1.0), ("una", 1.0), ("uno", 1.0)]),
    (Language::Norwegian, &[("en", 1.0), ("et", 1.0), ("ei", 1.0), ("to", 2.0), ("seks", 6.0)]),
];

/// Those of a language.
pub(super) fn own(language: Language) -> &'static [(&'static str, f64)] {
    let own = OWN.iter().find(|(other, _)| *other == language);
    own.map_or(&[], |(_, words)| words)
}
