use super::*;
use crate::grammar::tokens::tokens;

#[test]
fn a_few_words_tell_the_language() {
    for (text, language) in [
        (
            "Knead the dough and let it rise for 1 hour",
            Language::English,
        ),
        (
            "Den Teig 10 Minuten kneten und gehen lassen",
            Language::German,
        ),
        ("Pétrir la pâte pendant 10 minutes", Language::French),
        ("Amasar la masa durante 10 minutos", Language::Spanish),
        (
            "Elt deigen i 10 minutter og la den heve",
            Language::Norwegian,
        ),
        ("500 g", Language::English),
    ] {
        assert_eq!(Language::of(&tokens(text)), language, "{text}");
    }
}
