//! Characters that pages write by name or number: `&frac12;`, `&#189;`.
//!
//! Names: HTML living standard, "Named character references", those of letters, fractions and signs that the five
//! languages and amounts need. Others stay as they are written.

/// A text with its entities as characters.
pub(crate) fn decoded(text: &str) -> String {
    let mut decoded = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find('&') {
        decoded.push_str(&rest[..at]);
        rest = &rest[at..];
        match entity(rest) {
            Some((letter, length)) => {
                decoded.push(letter);
                rest = &rest[length..];
            }
            None => {
                decoded.push('&');
                rest = &rest[1..];
            }
        }
    }
    decoded.push_str(rest);
    decoded
}

/// The longest name with its mark and semicolon.
const LONGEST: usize = 12;

fn entity(text: &str) -> Option<(char, usize)> {
    let end = text.bytes().take(LONGEST).position(|byte| byte == b';')?;
    let name = text.get(1..end)?;
    let letter = match name.strip_prefix('#') {
        Some(number) => {
            let code = match number.strip_prefix(['x', 'X']) {
                Some(hexadecimal) => u32::from_str_radix(hexadecimal, 16),
                None => number.parse(),
            };
            char::from_u32(code.ok()?)
                .filter(|letter| !letter.is_control() || letter.is_whitespace())?
        }
        None => NAMED.iter().find(|(known, _)| *known == name)?.1,
    };
    Some((letter, end + 1))
}

#[rustfmt::skip]
const NAMED: &[(&str, char)] = &[
    ("amp", '&'), ("lt", '<'), ("gt", '>'), ("quot", '"'), ("apos", '\''), ("nbsp", '\u{a0}'), ("thinsp", '\u{2009}'), ("ensp", ' '), ("emsp", ' '),
    ("frac12", '½'), ("half", '½'), ("frac14", '¼'), ("frac34", '¾'), ("frac13", '⅓'), ("frac23", '⅔'), ("frac18", '⅛'), ("frac38", '⅜'), ("frac58", '⅝'), ("frac78", '⅞'), ("frasl", '⁄'),
    ("deg", '°'), ("ordm", 'º'), ("times", '×'), ("ndash", '–'), ("mdash", '—'), ("hellip", '…'), ("bull", '•'), ("middot", '·'), ("prime", '′'), ("plusmn", '±'), ("asymp", '≈'), ("shy", '\u{ad}'),
    ("lsquo", '‘'), ("rsquo", '’'), ("ldquo", '“'), ("rdquo", '”'), ("sbquo", '‚'), ("bdquo", '„'), ("laquo", '«'), ("raquo", '»'), ("acute", '´'),
    ("euro", '€'), ("pound", '£'), ("copy", '©'), ("reg", '®'), ("trade", '™'), ("para", '¶'), ("iexcl", '¡'), ("iquest", '¿'),
    ("agrave", 'à'), ("aacute", 'á'), ("acirc", 'â'), ("atilde", 'ã'), ("auml", 'ä'), ("aring", 'å'), ("aelig", 'æ'), ("ccedil", 'ç'), ("egrave", 'è'), ("eacute", 'é'), ("ecirc", 'ê'), ("euml", 'ë'),
    ("igrave", 'ì'), ("iacute", 'í'), ("icirc", 'î'), ("iuml", 'ï'), ("ntilde", 'ñ'), ("ograve", 'ò'), ("oacute", 'ó'), ("ocirc", 'ô'), ("otilde", 'õ'), ("ouml", 'ö'), ("oslash", 'ø'), ("oelig", 'œ'),
    ("ugrave", 'ù'), ("uacute", 'ú'), ("ucirc", 'û'), ("uuml", 'ü'), ("szlig", 'ß'), ("yacute", 'ý'),
    ("Agrave", 'À'), ("Aacute", 'Á'), ("Auml", 'Ä'), ("Aring", 'Å'), ("AElig", 'Æ'), ("Ccedil", 'Ç'), ("Egrave", 'È'), ("Eacute", 'É'), ("Ntilde", 'Ñ'), ("Ouml", 'Ö'), ("Oslash", 'Ø'), ("OElig", 'Œ'), ("Uuml", 'Ü'),
];

#[cfg(test)]
mod tests;
