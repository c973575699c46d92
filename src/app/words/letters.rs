//! Words at the head and in the middle of a sentence.

/// With a capital, for the head of a sentence.
pub(crate) fn capital(text: &str) -> String {
    with_first(text, upper)
}

/// With a small letter, for the end of a sentence.
pub(crate) fn lower_first(text: &str) -> String {
    with_first(text, lower)
}

fn with_first(text: &str, change: fn(char) -> char) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(change);
    first.into_iter().chain(letters).collect()
}

/// Some names in a sentence: "Buns, Loaf and Orange braid".
pub(crate) fn listed(names: &[String]) -> String {
    match names {
        [before @ .., last] if !before.is_empty() => format!("{} and {last}", before.join(", ")),
        _ => names.concat(),
    }
}

/// How far a small letter stands from its capital, in ASCII as in Latin-1.
const CASE: u32 = 'a' as u32 - 'A' as u32;

/// DIFFERENCE: only ASCII and Latin-1; other letters stay as they are.
/// The standard library knows them all, by tables of ten kilobytes that the phone would have to load.
fn upper(letter: char) -> char {
    match letter {
        '÷' | 'ß' | 'ÿ' => letter,
        'a'..='z' | 'à'..='þ' => moved(letter, letter as u32 - CASE),
        _ => letter,
    }
}

fn lower(letter: char) -> char {
    match letter {
        '×' => letter,
        'A'..='Z' | 'À'..='Þ' => moved(letter, letter as u32 + CASE),
        _ => letter,
    }
}

fn moved(letter: char, to: u32) -> char {
    char::from_u32(to).unwrap_or(letter)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The standard library is the judge, for every letter that is one of these.
    #[test]
    fn letters_change_as_unicode_says() {
        for letter in (0..0x100).filter_map(char::from_u32) {
            // These have a capital of two letters, or one outside Latin-1.
            if !"ßÿµ".contains(letter) {
                assert_eq!(upper(letter).to_string(), letter.to_uppercase().to_string());
            }
            assert_eq!(lower(letter).to_string(), letter.to_lowercase().to_string());
        }
    }

    #[test]
    fn names_are_listed_with_and_before_the_last() {
        let names = ["Buns", "Loaf", "Braid"].map(str::to_owned);
        assert_eq!(listed(&names), "Buns, Loaf and Braid");
        assert_eq!(listed(&names[..2]), "Buns and Loaf");
        assert_eq!(listed(&names[..1]), "Buns");
        assert_eq!(listed(&[]), "");
    }

    #[test]
    fn only_the_first_letter_changes() {
        assert_eq!(capital("öl und Salz"), "Öl und Salz");
        assert_eq!(lower_first("It Springs"), "it Springs");
        assert_eq!(capital(""), "");
    }
}
