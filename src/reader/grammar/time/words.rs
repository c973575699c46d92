//! Units of time, and times in words, in lower case and without accents.

use crate::language::Language;

/// An hour in minutes.
pub(super) const HOUR: f64 = 60.0;
const DAY: f64 = 24.0 * HOUR;

/// Units of time, each with its length in minutes. An apostrophe of minutes, and the Norwegian hour, are told apart by
/// [`unit`](super::unit) and [`minutes_of`].
const UNITS: &[(f64, &[&str])] = &[
    (
        1.0 / 60.0,
        &[
            "sec", "secs", "second", "seconds", "sek", "sekunden", "secondes", "segundos",
        ],
    ),
    (
        1.0,
        &[
            "min", "mins", "minute", "minutes", "minuten", "minuto", "minutos", "minutter",
            "minutt", "mn", "m",
        ],
    ),
    (
        HOUR,
        &[
            "h", "hr", "hrs", "hour", "hours", "std", "stunde", "stunden", "stdn", "heure",
            "heures", "d'heure", "hora", "horas", "hs", "timer", "t",
        ],
    ),
    (
        DAY,
        &[
            "day", "days", "tag", "tage", "tagen", "jour", "jours", "dia", "dias", "dager", "dogn",
        ],
    ),
];

/// How long a unit of time is, in minutes. "Fold 1 time" is once, but for a Norwegian; a "T" is a spoon.
pub(super) fn minutes_of(word: &str, language: Language) -> Option<f64> {
    match (word, language) {
        ("time", Language::Norwegian) => return Some(HOUR),
        ("t", Language::Norwegian) => {}
        ("t", _) => return None,
        _ => {}
    }
    let unit = UNITS.iter().find(|(_, words)| words.contains(&word));
    unit.map(|&(minutes, _)| minutes)
}

/// Times in words of their own, in minutes: "half an hour", "eine Stunde", "une heure et demie"; in the order of their letters.
#[rustfmt::skip]
pub(in crate::grammar) const WORDED: &[(&str, f64)] = &[
    ("a couple of hours", 120.0), ("a full hour", 60.0), ("a half hour", 30.0), ("a minute", 1.0),
    ("a quarter of an hour", 15.0), ("an hour", 60.0), ("an hour and a half", 90.0), ("an hour and a quarter", 75.0),
    ("an hour and three quarters", 105.0), ("an hour or so", 60.0), ("demi-heure", 30.0), ("dreiviertelstunde", 45.0),
    ("eine dreiviertelstunde", 45.0), ("eine halbe stunde", 30.0), ("eine minute", 1.0), ("eine stunde", 60.0),
    ("eine viertelstunde", 15.0), ("eine volle stunde", 60.0), ("eineinhalb stunden", 90.0),
    ("einer dreiviertelstunde", 45.0), ("einer halben stunde", 30.0), ("einer stunde", 60.0),
    ("einer viertelstunde", 15.0), ("en halv time", 30.0), ("en halvtime", 30.0), ("en time", 60.0),
    ("en time og et kvarter", 75.0), ("et kvarter", 15.0), ("full hour", 60.0), ("halbe stunde", 30.0),
    ("half an hour", 30.0), ("half hour", 30.0), ("halvannen time", 90.0), ("heure et demie", 90.0),
    ("hora y media", 90.0), ("hour and a half", 90.0), ("media hora", 30.0), ("one and a half hours", 90.0),
    ("one hour and a half", 90.0), ("one minute", 1.0), ("quarter of an hour", 15.0),
    ("three quarters of an hour", 45.0), ("tre kvarter", 45.0), ("tres cuartos de hora", 45.0),
    ("trois quarts d'heure", 45.0), ("un cuarto de hora", 15.0), ("un minuto", 1.0), ("un quart d'heure", 15.0),
    ("una hora", 60.0), ("una hora y cuarto", 75.0), ("una hora y media", 90.0), ("une demi-heure", 30.0),
    ("une heure", 60.0), ("une heure et demie", 90.0), ("une heure et quart", 75.0), ("une minute", 1.0),
    ("viertelstunde", 15.0),
];

/// From an evening to a morning.
pub(in crate::grammar) const OVERNIGHT: &[&str] = &[
    "overnight",
    "over night",
    "for the night",
    "uber nacht",
    "toute la nuit",
    "toute une nuit",
    "une nuit",
    "toda la noche",
    "durante la noche",
    "over natten",
    "natten over",
];
