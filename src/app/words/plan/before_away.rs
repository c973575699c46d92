//! What the plan says of hands before nobody is there.

use domain::bake::State;
use domain::schedule::plan::{BeforeAway, Hinders};
use domain::units::Moment;

use super::SAME;
use super::head::AMPLE;
use crate::words::quantity::span;
use crate::words::{of_bread, when};

/// How the hands stand to a time at which nobody is there: "Your hands are done 35 min before 23:00, when nobody is here
/// any more: what comes before that may take that much longer." Nothing where they have time enough anyway. Where it is too little,
/// `because` follows.
pub(crate) fn before_away(before: &BeforeAway, because: &str, now: Moment) -> Option<String> {
    said(before, because, || when(before.from, now))
}

/// Why hands aren't done sooner: "It isn't more because First rise goes on." Nothing where that isn't known. Breads are
/// told by `names`, where there are several.
pub(crate) fn hinders(
    before: &BeforeAway,
    states: &[&State],
    names: &[String],
    now: Moment,
) -> Option<String> {
    let step = |bake: usize, step| {
        let whose = names.get(bake).filter(|_| names.len() > 1);
        let title = states
            .get(bake)
            .map_or("", |state| state.formula.title(step));
        of_bread(title, whose.map(String::as_str))
    };
    let because = match before.why? {
        Hinders::Now => "nothing can begin sooner than now".to_owned(),
        Hinders::GoesOn(bake, id) => format!("it waits for {}", step(bake, id)),
        Hinders::Bake(bake) => format!("{} comes first", names.get(bake)?),
        Hinders::Fixed(bake, id) => format!("you fixed the time of {}", step(bake, id)),
        Hinders::NotBefore(from) => format!("nothing begins before {}", when(from, now)),
        Hinders::Nobody(until) => format!("nobody is here before {}", when(until, now)),
        Hinders::Waits(bake, id) => format!("{} would wait too long", step(bake, id)),
    };
    Some(format!(" It isn't more because {because}."))
}

fn said(before: &BeforeAway, because: &str, from: impl FnOnce() -> String) -> Option<String> {
    let (spare, buffer) = (before.spare.get(), before.buffer.get());
    if spare > buffer + AMPLE || buffer < SAME {
        return None;
    }
    let from = from();
    // What would cost something else isn't asked for.
    let safer = match before.why {
        Some(Hinders::Waits(..)) => String::new(),
        _ => format!("{} to spare would be safer, for ", span(before.buffer)),
    };
    let before = span(before.spare);
    Some(if spare + SAME < buffer {
        format!(
            "Your hands are done {before} before {from}, when nobody is here any more; {safer}what slips past that waits until somebody is back.{because}"
        )
    } else {
        format!(
            "Your hands are done {before} before {from}, when nobody is here any more: what comes before that may take that much longer."
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use domain::units::minutes;

    fn told(spare: f64, buffer: f64) -> Option<String> {
        told_why(spare, buffer, None)
    }

    fn told_why(spare: f64, buffer: f64, why: Option<Hinders>) -> Option<String> {
        let before = BeforeAway {
            from: Moment::from_epoch_ms(0),
            spare: minutes(spare),
            buffer: minutes(buffer),
            why,
        };
        said(&before, " So.", || "23:00".to_owned())
    }

    #[test]
    fn time_to_spare_before_a_night_is_told_with_its_reason() {
        assert_eq!(
            told(50.0, 50.0).as_deref(),
            Some(
                "Your hands are done 50\u{a0}min before 23:00, when nobody is here any more: what comes before that may take that much longer."
            )
        );
        assert_eq!(
            told(10.0, 50.0).as_deref(),
            Some(
                "Your hands are done 10\u{a0}min before 23:00, when nobody is here any more; 50\u{a0}min to spare would be safer, for what slips past that waits until somebody is back. So."
            )
        );
        assert_eq!(told(66.0, 50.0), None);
    }

    /// Somebody was asked for more time, with their hands idle, that a dough would have had to wait for.
    #[test]
    fn nobody_is_asked_for_time_that_something_else_would_wait_for() {
        let why = Some(Hinders::Waits(0, domain::formula::StepId(1)));
        assert_eq!(
            told_why(4.0, 10.0, why).as_deref(),
            Some(
                "Your hands are done 4\u{a0}min before 23:00, when nobody is here any more; what slips past that waits until somebody is back. So."
            )
        );
    }
}
