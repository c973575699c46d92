//! What the plan says of hands before nobody is there.

use domain::schedule::plan::BeforeAway;
use domain::units::Moment;

use super::SAME;
use super::head::AMPLE;
use crate::words::quantity::span;
use crate::words::when;

/// How the hands stand to a time at which nobody is there: "Your hands are done 35 min before 23:00, when nobody is here
/// any more: work and rises may take that much longer." Nothing where they have time enough anyway.
pub(crate) fn before_away(before: &BeforeAway, now: Moment) -> Option<String> {
    said(before, || when(before.from, now))
}

fn said(before: &BeforeAway, from: impl FnOnce() -> String) -> Option<String> {
    let (spare, buffer) = (before.spare.get(), before.buffer.get());
    if spare > buffer + AMPLE || buffer < SAME {
        return None;
    }
    let from = from();
    let safer = format!(
        "{} to spare would be safer, for what slips past that waits until somebody is back.",
        span(before.buffer)
    );
    let before = span(before.spare);
    Some(if spare + SAME < buffer {
        format!("Your hands are done {before} before {from}, when nobody is here any more; {safer}")
    } else {
        format!(
            "Your hands are done {before} before {from}, when nobody is here any more: work and rises may take that much longer."
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use domain::units::minutes;

    fn told(spare: f64, buffer: f64) -> Option<String> {
        let before = BeforeAway {
            from: Moment::from_epoch_ms(0),
            spare: minutes(spare),
            buffer: minutes(buffer),
        };
        said(&before, || "23:00".to_owned())
    }

    #[test]
    fn time_to_spare_before_a_night_is_told_with_its_reason() {
        assert_eq!(
            told(50.0, 50.0).as_deref(),
            Some(
                "Your hands are done 50\u{a0}min before 23:00, when nobody is here any more: work and rises may take that much longer."
            )
        );
        assert_eq!(
            told(10.0, 50.0).as_deref(),
            Some(
                "Your hands are done 10\u{a0}min before 23:00, when nobody is here any more; 50\u{a0}min to spare would be safer, for what slips past that waits until somebody is back."
            )
        );
        assert_eq!(told(66.0, 50.0), None);
    }
}
