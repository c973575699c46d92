use super::*;

#[test]
fn names_and_numbers_become_characters_and_the_rest_stays() {
    assert_eq!(decoded("1&frac12; cups &amp; 230&deg;C"), "1½ cups & 230°C");
    assert_eq!(decoded("&#189; &#xBD;"), "½ ½");
    assert_eq!(
        decoded("salt & pepper &unknown; &"),
        "salt & pepper &unknown; &"
    );
    // A character that no text has isn't made from a number.
    assert_eq!(decoded("&#0;"), "&#0;");
}
