use super::*;
use crate::grammar::tokens::tokens;
use crate::language::Language;

fn read(text: &str, language: Language) -> Option<(f64, f64, usize)> {
    let tokens = tokens(text);
    let mut input = crate::grammar::input(&tokens, language);
    let found = range(&mut input).ok()?;
    Some((found.low, found.high, rest(&input).len()))
}

#[test]
fn numbers_and_ranges_are_read_as_they_are_written() {
    for (text, low, high) in [
        ("2", 2.0, 2.0),
        ("2,5", 2.5, 2.5),
        ("1/2", 0.5, 0.5),
        ("1⁄2", 0.5, 0.5),
        ("1 1/2", 1.5, 1.5),
        ("1-1/2", 1.5, 1.5),
        ("1½", 1.5, 1.5),
        ("1 ½", 1.5, 1.5),
        ("1 and 1/2", 1.5, 1.5),
        ("3 to 3 1/4", 3.0, 3.25),
        ("1/2-3/4", 0.5, 0.75),
        ("8–10", 8.0, 10.0),
        ("10 bis 12", 10.0, 12.0),
        ("between 2 and 3", 2.0, 3.0),
        ("two", 2.0, 2.0),
        ("half a", 0.5, 0.5),
        ("one and a half", 1.5, 1.5),
        ("anderthalb", 1.5, 1.5),
    ] {
        assert_eq!(
            read(text, Language::English),
            Some((low, high, 0)),
            "{text}"
        );
    }
}

#[test]
fn a_stroke_between_large_numbers_is_no_fraction() {
    assert_eq!(read("200/180", Language::English), Some((200.0, 200.0, 2)));
}

#[test]
fn some_words_are_numbers_in_one_language_only() {
    assert_eq!(read("to", Language::Norwegian), Some((2.0, 2.0, 0)));
    assert_eq!(read("to", Language::English), None);
    assert_eq!(read("en", Language::French), None);
    assert_eq!(read("a", Language::English), Some((1.0, 1.0, 0)));
    assert_eq!(read("a", Language::French), None);
}
