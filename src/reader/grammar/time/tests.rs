use super::super::tokens::tokens;
use super::*;

#[test]
fn times_are_read_as_they_are_written() {
    use Language::{English, French, German, Norwegian, Spanish};
    for (text, language, low, high) in [
        ("10 minutes", English, 10.0, 10.0),
        ("8–10 min.", English, 8.0, 10.0),
        ("18 to 20 minutes", English, 18.0, 20.0),
        ("1¼ hours", English, 75.0, 75.0),
        ("1 hr 15 min", English, 75.0, 75.0),
        ("1 hour and 15 minutes", English, 75.0, 75.0),
        ("half an hour", English, 30.0, 30.0),
        ("an hour and a half", English, 90.0, 90.0),
        ("one and a half hours", English, 90.0, 90.0),
        ("two hours", English, 120.0, 120.0),
        ("2 hours and a half", English, 150.0, 150.0),
        ("45 minutes to 1 hour", English, 45.0, 60.0),
        ("45 min - 1 h", English, 45.0, 60.0),
        ("about 90 minutes", English, 90.0, 90.0),
        ("90'", English, 90.0, 90.0),
        ("1h30", French, 90.0, 90.0),
        ("1 h 30", French, 90.0, 90.0),
        ("1 h 30 min", French, 90.0, 90.0),
        ("une heure et demie", French, 90.0, 90.0),
        ("10–12 Std.", German, 600.0, 720.0),
        ("eine Stunde", German, 60.0, 60.0),
        ("anderthalb Stunden", German, 90.0, 90.0),
        ("1:30 h", German, 90.0, 90.0),
        ("1 hora y media", Spanish, 90.0, 90.0),
        ("en time", Norwegian, 60.0, 60.0),
        ("1-2 timer", Norwegian, 60.0, 120.0),
        ("2 days", English, 2880.0, 2880.0),
        ("overnight", English, 480.0, 720.0),
    ] {
        let tokens = tokens(text);
        let mut input = super::super::input(&tokens, language);
        let found = span(&mut input).unwrap_or_else(|_| panic!("{text} is a time"));
        assert_eq!((found.low_min, found.high_min), (low, high), "{text}");
        assert!(super::super::rest(&input).is_empty(), "all of {text}");
    }
}

#[test]
fn what_is_no_time_is_not_read_as_one() {
    for text in [
        "10 g",
        "3 times",
        "1 T butter",
        "12 pieces",
        "200 C",
        "the hour",
    ] {
        let tokens = tokens(text);
        let mut input = super::super::input(&tokens, Language::English);
        assert!(span(&mut input).is_err(), "{text}");
    }
}
