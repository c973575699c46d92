//! Decimal numbers as people write and type them.
//!
//! The standard library reads and writes any number at all, with tables that would be a twentieth of what the phone
//! loads. A baker's numbers are enough here: up to fifteen digits, a few of them after the point.

/// A number as somebody types it, with a point or a comma; nothing if it is no such number.
///
/// A power of ten up to 10^22 is exact, and so is every whole number below 2^53 (fifteen digits).
/// Dividing one by the other is rounded once, so this is the number nearest to what was typed
/// (W. D. Clinger, "How to read floating point numbers accurately", PLDI 1990).
#[must_use]
pub fn parse(text: &str) -> Option<f64> {
    const MOST_DIGITS: u32 = 15;
    let text = text.trim();
    let unsigned = text.trim_start_matches(['-', '+']);
    if text.len() > unsigned.len() + 1 {
        return None;
    }
    let (mut whole, mut digits, mut after_point) = (0_u64, 0, None);
    for letter in unsigned.chars() {
        match (letter.to_digit(10), after_point) {
            (Some(digit), _) => {
                digits += 1;
                whole = whole * 10 + u64::from(digit);
                after_point = after_point.map(|count| count + 1);
            }
            (None, None) if letter == '.' || letter == ',' => after_point = Some(0),
            _ => return None,
        }
        if digits > MOST_DIGITS {
            return None;
        }
    }
    if digits == 0 {
        return None;
    }
    let size = whole as f64 / power_of_ten(after_point.unwrap_or(0));
    Some(if text.starts_with('-') { -size } else { size })
}

/// A number with so many digits after the point: `fixed(2.0, 1)` is "2.0".
///
/// Halves go away from nought; beyond 10^15 the digits are no longer those of the number.
/// `digits` lies between 0 and 15.
#[must_use]
pub fn fixed(value: f64, digits: u32) -> String {
    let scaled = (value.abs() * power_of_ten(digits)).round() as u64;
    // From the last digit on: a drawing has hundreds of numbers, and the standard library's padding is slow.
    let (mut letters, mut left, mut place) = (Vec::new(), scaled, 0);
    while left > 0 || place <= digits {
        if place == digits && digits > 0 {
            letters.push(b'.');
        }
        letters.push(b'0' + (left % 10) as u8);
        left /= 10;
        place += 1;
    }
    if value < 0.0 && scaled > 0 {
        letters.push(b'-');
    }
    letters.into_iter().rev().map(char::from).collect()
}

/// The same without idle noughts: `plain(2.0, 1)` is "2".
#[must_use]
pub fn plain(value: f64, digits: u32) -> String {
    let text = fixed(value, digits);
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

fn power_of_ten(exponent: u32) -> f64 {
    10_u64.pow(exponent) as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_comma_is_as_good_as_a_point() {
        assert_eq!(parse(" 24,5 "), Some(24.5));
        assert_eq!(parse("24.5"), Some(24.5));
        assert_eq!(parse(".5"), Some(0.5));
        assert_eq!(parse("-3"), Some(-3.0));
        for nonsense in [
            "warm",
            "inf",
            "",
            "-",
            ".",
            "1.2.3",
            "--1",
            "1e3",
            "1234567890123456",
        ] {
            assert_eq!(parse(nonsense), None, "{nonsense}");
        }
    }

    /// The standard library's parser is the judge: it reads every number exactly.
    #[test]
    fn typed_numbers_are_read_exactly() {
        for hundredths in 0..100_000 {
            let text = format!("{}.{:02}", hundredths / 100, hundredths % 100);
            assert_eq!(parse(&text), text.parse().ok(), "{text}");
        }
    }

    /// The standard library's formatting is the judge, wherever no two results are equally near.
    #[test]
    fn numbers_are_written_as_the_standard_library_writes_them() {
        for step in -40_000..40_000 {
            let value = f64::from(step) * 0.037;
            for digits in 0..3 {
                let scaled = value * 10_f64.powi(digits as i32);
                if (scaled.fract().abs() - 0.5).abs() < 1e-6 {
                    continue;
                }
                // Nought has no sign here.
                let exact = format!("{value:.*}", digits as usize);
                let is_nought = !exact.contains(|sign| ('1'..='9').contains(&sign));
                let expected = if is_nought {
                    exact.trim_start_matches('-')
                } else {
                    &exact
                };
                assert_eq!(fixed(value, digits), expected, "{value} to {digits}");
            }
        }
    }

    #[test]
    fn numbers_lose_their_idle_noughts() {
        assert_eq!(plain(26.0, 1), "26");
        assert_eq!(plain(100.0, 0), "100");
        assert_eq!(plain(1.25, 2), "1.25");
        assert_eq!(plain(-0.02, 1), "0");
    }
}
