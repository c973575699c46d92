//! Letters of five languages as plain ones, so that words can be compared however they were typed.
//!
//! German umlauts lose their dots and don't become "ae". Left out: letters of other scripts, which stay as they are but
//! for their case.

/// Lower case, without accents; all else stays: "Crème (1/2 l)" is "creme (1/2 l)", "Größe" "grosse",
/// "smør" "smor" and "œufs" "oeufs". A curved apostrophe is a straight one.
///
/// ```
/// assert_eq!(domain::food::unaccented("Crème fraîche, 30 %"), "creme fraiche, 30 %");
/// ```
#[must_use]
pub fn unaccented(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for letter in text.chars() {
        if letter.is_ascii() {
            plain.push(letter.to_ascii_lowercase());
            continue;
        }
        for lower in letter.to_lowercase() {
            match lower {
                // An accent of its own belongs to the letter before it; a capital İ comes apart into such two.
                accent if is_accent(accent) => {}
                'à'..='å' | 'ā' => plain.push('a'),
                'æ' => plain.push_str("ae"),
                'ç' => plain.push('c'),
                'è'..='ë' | 'ē' => plain.push('e'),
                'ì'..='ï' => plain.push('i'),
                'ñ' => plain.push('n'),
                'ò'..='ö' | 'ø' => plain.push('o'),
                'œ' => plain.push_str("oe"),
                'ù'..='ü' => plain.push('u'),
                'ý' | 'ÿ' => plain.push('y'),
                'ß' => plain.push_str("ss"),
                '’' | 'ʼ' => plain.push('\''),
                other => plain.push(other),
            }
        }
    }
    plain
}

/// The words of a text, [`unaccented`] and with a space between each two. What isn't a letter or digit parts them and
/// is left out.
///
/// ```
/// assert_eq!(domain::food::folded("  Weizenmehl (Type 550)"), "weizenmehl type 550");
/// assert_eq!(domain::food::folded("farine d’épeautre"), "farine d epeautre");
/// ```
#[must_use]
pub fn folded(text: &str) -> String {
    let unaccented = unaccented(text);
    let mut words = String::with_capacity(unaccented.len());
    for word in unaccented.split(|letter: char| !letter.is_alphanumeric()) {
        if word.is_empty() {
            continue;
        }
        if !words.is_empty() {
            words.push(' ');
        }
        words.push_str(word);
    }
    words
}

/// Whether it is an accent that follows its letter, as some systems write them.
#[must_use]
pub fn is_accent(letter: char) -> bool {
    ('\u{300}'..='\u{36f}').contains(&letter)
}

#[cfg(test)]
mod tests {
    use super::{folded, unaccented};

    #[test]
    fn letters_are_plain_however_they_were_typed() {
        for (typed, plain) in [
            ("", ""),
            (" ,; ", ""),
            ("Œufs", "oeufs"),
            ("e\u{301}clair", "eclair"),
            ("GRÜNKERNGRIESS/Grieß", "grunkerngriess griess"),
            ("hvetemel, siktet!", "hvetemel siktet"),
            ("azúcar de caña", "azucar de cana"),
            ("ǅ水", "ǆ水"),
        ] {
            assert_eq!(folded(typed), plain, "{typed}");
        }
    }

    #[test]
    fn only_case_and_accents_are_lost() {
        for (typed, plain) in [
            ("Kürbiskerne, 2 EL", "kurbiskerne, 2 el"),
            ("GRÖẞE", "grosse"),
            ("2 cuillères à café", "2 cuilleres a cafe"),
            ("Smør (70 %)", "smor (70 %)"),
            ("jalapeño\t½", "jalapeno\t½"),
            ("cre\u{300}me", "creme"),
            ("d’eau", "d'eau"),
            ("İ", "i"),
        ] {
            assert_eq!(unaccented(typed), plain, "{typed}");
        }
    }
}
