use super::*;
use crate::grammar::tokens::tokens;
use crate::language::Language;

#[test]
fn temperatures_are_read_as_they_are_written() {
    for (text, celsius, fan) in [
        ("200C/180C fan/gas 6", 200.0, false),
        ("180°C fan / 200°C / gas 6", 200.0, false),
        ("375°F", 190.6, false),
        ("350 F", 176.7, false),
        ("350°F (180°C)", 180.0, false),
        ("220 °C (Umluft 200 °C)", 220.0, false),
        ("180 °C Umluft", 180.0, true),
        ("Ober-/Unterhitze 200 °C", 200.0, false),
        ("200 °C Ober-/Unterhitze", 200.0, false),
        ("gas mark 6", 204.4, false),
        ("th. 6", 180.0, false),
        ("180 degrees", 180.0, false),
        ("180 Grad", 180.0, false),
        ("24–26 °C", 25.0, false),
        ("75°F to 79°F", 25.0, false),
        ("425 to 455 degrees Fahrenheit", 226.7, false),
        ("200 ºC", 200.0, false),
    ] {
        let tokens = tokens(text);
        let mut input = crate::grammar::input(&tokens, Language::English);
        let found = heat(&mut input).unwrap_or_else(|_| panic!("{text} is a temperature"));
        assert!((found.celsius - celsius).abs() < 0.1, "{text}: {found:?}");
        assert_eq!(found.fan, fan, "{text}");
        assert!(crate::grammar::rest(&input).is_empty(), "all of {text}");
    }
}

#[test]
fn a_degree_alone_has_a_guessed_scale() {
    let tokens = tokens("180°");
    let found = heat(&mut crate::grammar::input(&tokens, Language::English));
    assert!(found.is_ok_and(|heat| heat.is_guessed()));
}

#[test]
fn what_is_no_temperature_is_not_read_as_one() {
    for text in ["2 c flour", "10 minutes", "350 g", "gas bill", "20 x 30 cm"] {
        let tokens = tokens(text);
        let mut input = crate::grammar::input(&tokens, Language::English);
        assert!(heat(&mut input).is_err(), "{text}");
    }
}
