use super::*;
use crate::grammar::tokens::tokens;
use crate::language::Language;

/// From how much to how much of what.
type Terms = Vec<(f64, f64, Unit)>;

fn read(text: &str) -> Option<(Terms, usize)> {
    let tokens = tokens(text);
    let mut input = crate::grammar::input(&tokens, Language::English);
    let found = amount(&mut input).ok()?;
    let terms = found.terms.iter();
    let terms = terms.map(|term| (term.number.low, term.number.high, term.unit));
    Some((terms.collect(), crate::grammar::rest(&input).len()))
}

#[test]
fn amounts_are_read_as_they_are_written() {
    const OUNCE: f64 = domain::units::measures::OUNCE.get();
    let g = Unit::Grams(1.0);
    for (text, terms) in [
        ("500 g", vec![(500.0, 500.0, g)]),
        ("500g", vec![(500.0, 500.0, g)]),
        ("1.000 g", vec![(1000.0, 1000.0, g)]),
        ("1.000 kg", vec![(1.0, 1.0, Unit::Grams(1000.0))]),
        ("0,5 l", vec![(0.5, 0.5, Unit::Millilitres(1000.0))]),
        ("2 1/2 cups", vec![(2.5, 2.5, Unit::Cup)]),
        ("3 to 3 1/4 cups", vec![(3.0, 3.25, Unit::Cup)]),
        ("200 g - 250 g", vec![(200.0, 250.0, g)]),
        ("½ tsp", vec![(0.5, 0.5, Unit::Teaspoon)]),
        ("1 T", vec![(1.0, 1.0, Unit::Tablespoon)]),
        ("1 t", vec![(1.0, 1.0, Unit::Teaspoon)]),
        ("1 heaped tbsp.", vec![(1.0, 1.0, Unit::Tablespoon)]),
        ("2 c. à soupe", vec![(2.0, 2.0, Unit::Tablespoon)]),
        ("a pinch", vec![(1.0, 1.0, Unit::Pinch)]),
        ("4 x 125 g", vec![(500.0, 500.0, g)]),
        ("2 x 400 g tins", vec![(800.0, 800.0, g)]),
        ("one 400 g tin", vec![(400.0, 400.0, g)]),
        (
            "1 lb 2 oz",
            vec![
                (1.0, 1.0, Unit::Grams(16.0 * OUNCE)),
                (2.0, 2.0, Unit::Grams(OUNCE)),
            ],
        ),
        (
            "1 cup plus 2 tbsp",
            vec![(1.0, 1.0, Unit::Cup), (2.0, 2.0, Unit::Tablespoon)],
        ),
        ("two", vec![(2.0, 2.0, Unit::Piece)]),
        (
            "about 8 fl oz",
            vec![(8.0, 8.0, Unit::Millilitres(236.588_236_5 / 8.0))],
        ),
    ] {
        let (found, left) = read(text).unwrap_or_else(|| panic!("{text} is an amount"));
        assert_eq!(left, 0, "all of {text}");
        assert_eq!(found.len(), terms.len(), "{text}: {found:?}");
        for (found, wanted) in found.iter().zip(&terms) {
            assert_eq!((found.0, found.1), (wanted.0, wanted.1), "{text}");
            match (found.2, wanted.2) {
                (Unit::Grams(one), Unit::Grams(other))
                | (Unit::Millilitres(one), Unit::Millilitres(other)) => {
                    assert!((one - other).abs() < 1e-9 * other, "{text}");
                }
                (one, other) => assert_eq!(one, other, "{text}"),
            }
        }
    }
}

#[test]
fn an_amount_ends_where_the_name_begins() {
    assert_eq!(read("2 leeks").map(|(_, left)| left), Some(1));
    assert_eq!(read("1 500 g"), Some((vec![(1.0, 1.0, Unit::Piece)], 2)));
    assert_eq!(read("flour"), None);
}
