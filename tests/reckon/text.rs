//! Numbers that stand in a topic's own words.

/// A number in a text, with what follows it up to the next.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Found<'a> {
    pub(crate) value: f64,
    /// What stands right before it.
    pub(crate) before: &'a str,
    /// What stands right after it, without leading spaces.
    pub(crate) after: &'a str,
}

/// All numbers of a text, in order; a minus counts only where no word or number precedes it.
pub(crate) fn numbers(text: &str) -> Vec<Found<'_>> {
    let mut found = Vec::new();
    let bytes = text.as_bytes();
    let is_part = |at: usize| {
        let byte = bytes[at];
        let point = byte == b'.' && bytes.get(at + 1).is_some_and(u8::is_ascii_digit);
        byte.is_ascii_digit() || point
    };
    let mut at = 0;
    while at < bytes.len() {
        if !is_part(at) {
            at += 1;
            continue;
        }
        let start = at;
        while at < bytes.len() && is_part(at) {
            at += 1;
        }
        let before = &text[..start];
        let sign = before.ends_with('−') || before.ends_with(" -");
        // A letter right before makes it part of a name: CO2, C6H12O6, pH7.
        let named = before.ends_with(|letter: char| letter.is_alphabetic());
        if let (Ok(value), false) = (text[start..at].parse::<f64>(), named) {
            found.push(Found {
                value: if sign { -value } else { value },
                before,
                after: text[at..].trim_start(),
            });
        }
    }
    found
}

/// The numbers of a text that a unit follows, a range's first end included: "10 % and 13 %", "1.8–2.4 %".
pub(crate) fn with_unit(text: &str, unit: &str) -> Vec<f64> {
    let all = numbers(text);
    let mut kept = Vec::new();
    for (place, found) in all.iter().enumerate() {
        let own = found.after.starts_with(unit);
        let range = ['–', '→', '-'];
        let next = all.get(place + 1);
        let begins =
            found.after.starts_with(range) && next.is_some_and(|next| next.after.starts_with(unit));
        if own || begins {
            kept.push(found.value.abs());
        }
    }
    kept
}

/// The number that a word stands right before: `after(text, "k")` of "k .45 ρ 1100" is 0.45.
pub(crate) fn after(text: &str, word: &str) -> Option<f64> {
    let all = numbers(text).into_iter();
    let mut told = all.filter(|found| {
        found
            .before
            .split_whitespace()
            .next_back()
            .is_some_and(|last| last == word)
    });
    told.next().map(|found| found.value)
}

/// The mean of two ends, or the one number.
pub(crate) fn middle(values: &[f64]) -> Option<f64> {
    match values {
        [] => None,
        some => Some(some.iter().sum::<f64>() / some.len() as f64),
    }
}

/// The words of a text in lower case, without numbers.
pub(crate) fn words(text: &str) -> Vec<String> {
    text.split(|letter: char| !letter.is_alphabetic())
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::{after, numbers, with_unit};

    #[test]
    fn numbers_are_found_with_their_units() {
        let told = "sphere r 3 cm, k .45 ρ 1100, h=10, C6H12O6 at −18 °C";
        let all: Vec<f64> = numbers(told).iter().map(|found| found.value).collect();
        assert_eq!(all, [3.0, 0.45, 1100.0, 10.0, -18.0]);
        assert_eq!(after(told, "k"), Some(0.45));
        assert_eq!(after(told, "ρ"), Some(1100.0));
        assert_eq!(after(told, "x"), None);
        assert_eq!(with_unit("at 10 % and 13 % of 500 g", "%"), [10.0, 13.0]);
        assert_eq!(with_unit("12–13.5 % water at 4.4 °C", "%"), [12.0, 13.5]);
        assert_eq!(
            with_unit("173.5 g: 145→515 mL, +360 mL", "mL"),
            [145.0, 515.0, 360.0]
        );
        assert!(numbers("no number").is_empty());
    }
}
