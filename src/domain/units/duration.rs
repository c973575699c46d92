//! Lengths of time as files write them: ISO 8601 and the narrower RFC 5545.
//!
//! `P`, then weeks alone, or days, then `T` with hours, minutes and seconds, each a number
//! and its letter, largest first: `PT1H30M`, `P1DT2H`, `P1W`.
//!
//! ISO 8601-1:2019 §5.5.2.4 allows a fraction in the last number and units left out
//! between; RFC 5545 §3.3.6 allows neither a fraction nor hours with seconds but no minutes.
//! Years and months are refused everywhere: they are no fixed length. A day counts as 24 h
//! here; a calendar's day that holds a change of the clocks is an hour longer or shorter.

use super::Minutes;

/// A number with its letter.
struct Part {
    letter: char,
    /// Whether it stands behind `T`.
    of_time: bool,
    fraction: bool,
    value: f64,
}

impl Part {
    /// How many minutes one of it is, or `None` for what has no fixed length.
    fn minutes(&self) -> Option<f64> {
        match (self.letter, self.of_time) {
            ('W', false) => Some(7.0 * 24.0 * 60.0),
            ('D', false) => Some(24.0 * 60.0),
            ('H', true) => Some(60.0),
            ('M', true) => Some(1.0),
            ('S', true) => Some(1.0 / 60.0),
            _ => None,
        }
    }
}

/// The parts in their order and whether the whole is negative, or `None` if it is no duration at all.
fn parts(text: &str) -> Option<(Vec<Part>, bool)> {
    let negative = text.starts_with('-');
    let unsigned = text.strip_prefix(['-', '+']).unwrap_or(text);
    let mut rest = unsigned.strip_prefix('P')?;
    let (mut found, mut of_time) = (Vec::new(), false);
    while !rest.is_empty() {
        if let Some(time) = rest.strip_prefix('T') {
            if of_time || time.is_empty() {
                return None;
            }
            (of_time, rest) = (true, time);
            continue;
        }
        let end = rest.find(|letter: char| letter.is_ascii_alphabetic())?;
        let number = rest.get(..end)?;
        if !number.starts_with(|digit: char| digit.is_ascii_digit()) {
            return None;
        }
        found.push(Part {
            letter: rest.get(end..)?.chars().next()?,
            of_time,
            fraction: number.contains(['.', ',']),
            value: crate::decimal::parse(number)?,
        });
        rest = rest.get(end + 1..)?;
    }
    let falls = found
        .windows(2)
        .all(|pair| pair[0].minutes() > pair[1].minutes());
    let weeks_alone = found.len() == 1 || found.iter().all(|part| part.letter != 'W');
    let fixed = found.iter().all(|part| part.minutes().is_some());
    (!found.is_empty() && falls && weeks_alone && fixed).then_some((found, negative))
}

impl Minutes {
    /// Reads an ISO 8601 duration of fixed length.
    ///
    /// ```
    /// use domain::units::{Minutes, minutes};
    ///
    /// assert_eq!(Minutes::from_iso8601("PT1H30M"), Some(minutes(90.0)));
    /// assert_eq!(Minutes::from_iso8601("P1M"), None);
    /// ```
    #[must_use]
    pub fn from_iso8601(text: &str) -> Option<Self> {
        let (parts, negative) = parts(text)?;
        let last = parts.len() - 1;
        let whole = parts.iter().take(last).all(|part| !part.fraction);
        let sum: f64 = parts
            .iter()
            .filter_map(|part| Some(part.value * part.minutes()?))
            .sum();
        let signed = if negative { -sum } else { sum };
        whole.then(|| Self::new(signed).ok()).flatten()
    }
}

/// Whether a calendar file may hold it as a duration.
///
/// ```
/// use domain::units::duration::fits_a_calendar;
///
/// assert!(fits_a_calendar("-PT10M"));
/// assert!(!fits_a_calendar("PT0.5H"));
/// ```
#[must_use]
pub fn fits_a_calendar(text: &str) -> bool {
    let Some((parts, _)) = parts(text) else {
        return false;
    };
    let has = |letter, of_time| {
        parts
            .iter()
            .any(|part| part.letter == letter && part.of_time == of_time)
    };
    let gap = has('H', true) && has('S', true) && !has('M', true);
    !gap && parts.iter().all(|part| !part.fraction)
}
