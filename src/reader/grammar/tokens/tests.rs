use super::*;

fn values(text: &str) -> Vec<(f64, Option<f64>)> {
    let numbers = tokens(text);
    let numbers = numbers.iter().filter_map(|token| match token.kind {
        Kind::Number { value, thousands } => Some((value, thousands)),
        Kind::Vulgar(value) => Some((value, None)),
        _ => None,
    });
    numbers.collect()
}

#[test]
fn points_and_commas_part_decimals_or_thousands() {
    assert_eq!(values("0,2 g"), [(0.2, None)]);
    assert_eq!(values("2.5 g"), [(2.5, None)]);
    assert_eq!(values("1.000 g"), [(1.0, Some(1000.0))]);
    assert_eq!(values("1,250 g"), [(1.25, Some(1250.0))]);
    assert_eq!(values("0.250 kg"), [(0.25, None)]);
    assert_eq!(values("1.234,5 g"), [(1234.5, None)]);
    assert_eq!(values("1\u{202f}000 g"), [(1000.0, None)]);
    assert_eq!(values("1 000 g"), [(1.0, None), (0.0, None)]);
    assert_eq!(values("12.50.3"), [(1250.3, None)]);
    assert_eq!(values("½ 1¾"), [(0.5, None), (1.0, None), (0.75, None)]);
}

/// A number of any length is read in its own time and stays finite.
#[test]
fn endless_digits_are_one_number() {
    let endless = "7".repeat(100_000);
    let [(value, _)] = values(&endless)[..] else {
        panic!("one number");
    };
    assert!(value.is_finite());
}

#[test]
fn tokens_keep_their_places() {
    let text = "2½ cups d'eau, tiède";
    let found = tokens(text);
    for token in &found {
        assert_eq!(&text[token.start..token.end()], token.text);
    }
    let words: Vec<_> = found.iter().map(|token| token.text).collect();
    assert_eq!(words, ["2", "½", "cups", "d'eau", ",", "tiède"]);
    assert_eq!(found[5].word, "tiede");
}
