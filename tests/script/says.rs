//! Sentences, held against what a script expects of them.

/// Whether a sentence is the one that is wanted, word for word; a number or a time of day with `~N` behind it may be
/// off by so much, in minutes.
///
/// ```
/// use checks::script::says;
/// let wanted = "Ready at 16:20~2 instead of 16:00: it took 20~1 min longer.";
/// assert!(says(wanted, "Ready at 16:22 instead of 16:00: it took 19 min longer."));
/// assert!(!says(wanted, "Ready at 16:23 instead of 16:00: it took 19 min longer."));
/// assert!(!says(wanted, "Ready at 16:22 instead of 16:00."));
/// ```
#[must_use]
pub fn says(wanted: &str, said: &str) -> bool {
    let (mut wanted, mut said) = (wanted.split(' '), said.split(' '));
    loop {
        match (wanted.next(), said.next()) {
            (None, None) => return true,
            (Some(wanted), Some(said)) if is_word(wanted, said) => {}
            _ => return false,
        }
    }
}

fn is_word(wanted: &str, said: &str) -> bool {
    let Some((value, rest)) = wanted.split_once('~') else {
        return wanted == said;
    };
    let digits = rest.chars().take_while(char::is_ascii_digit).count();
    let (within, mark) = rest.split_at(digits);
    let (Some(wanted), Ok(within)) = (minutes(value), within.parse::<i32>()) else {
        return false;
    };
    let said = said.strip_suffix(mark).and_then(minutes);
    said.is_some_and(|said| (said - wanted).abs() <= within)
}

/// "16:20" or "20", in minutes.
fn minutes(text: &str) -> Option<i32> {
    match text.split_once(':') {
        Some((hours, minutes)) => {
            Some(hours.parse::<i32>().ok()? * 60 + minutes.parse::<i32>().ok()?)
        }
        None => text.parse().ok(),
    }
}
