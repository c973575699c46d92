//! What the plan comes to.

use domain::estimate::Estimate;
use domain::schedule::plan::{Margin, Proven};
use domain::units::Moment;

use super::{SAME, away};
use crate::state::plan::told::{Because, Early, Given, Unsure};
use crate::words::letters::{capital, listed};
use crate::words::quantity::{between, span};
use crate::words::when;

/// While no plan was found.
pub(crate) const NO_PLAN: &str = "No plan was found in time for what you wish. Take a wish away, or go by the Bench: it knows what comes next.";
/// That more is to stand in the fridge than fits, and what can be done: "The fridge is full from 10:00 to 11:00…"
pub(crate) fn fridge_full((from, to): (Moment, Moment), now: Moment) -> String {
    format!(
        "The fridge is full from {} to {}: more is to stand in it than fits. Make room there and say so, or begin something later.",
        when(from, now),
        when(to, now)
    )
}

/// Says that the fridge has room for so many, one more than it was said to have.
pub(crate) fn fridge_has_room(holds: u32) -> String {
    format!("It has room for {holds} bowls or trays")
}

/// While nothing bakes.
pub(crate) const NOTHING_TO_PLAN: &str = "Nothing is baking, so there is nothing to plan.";
/// What the head of the page is.
pub(crate) const COMES_TO: &str = "What it comes to";

/// "Ready about 15:35, between 15:10 and 16:05."
pub(crate) fn ready(end: &Estimate<Moment>, now: Moment) -> String {
    format!("Ready {}", about(end, now))
}

/// The same of breads for several tables, each of which has a line of its own: "All of it ready about 15:35…"
pub(crate) fn all_ready(end: &Estimate<Moment>, now: Moment) -> String {
    format!("All of it ready {}", about(end, now))
}

fn about(end: &Estimate<Moment>, now: Moment) -> String {
    let likely = when(end.likely(), now);
    match between(end) {
        Some(between) => format!("about {likely}, {between}."),
        None => format!("at {likely}."),
    }
}

/// Of what spoils until then.
const WAITS_COLD: &str = "what is filled or glazed with egg, milk or cream waits in the fridge.";
/// So much more to spare than a buffer has another reason, in min.
pub(super) const AMPLE: f64 = 15.0;

/// The same of what is for one of several tables: "Orange braid: ready about 15:35, between 15:10 and 16:05. That is…"
pub(crate) fn beside_table_of(whose: &str, margin: &Margin, early: &Early, now: Moment) -> String {
    let about = about(&margin.ready, now);
    let beside = beside_table(margin, early, now);
    format!("{whose}: ready {about} {beside}")
}

/// How it stands to the table: "That is 25 min before your table at 16:00: rises may take that much longer."
/// Where it is ready sooner than it has to be, what would be in its way later is told as the reason.
pub(crate) fn beside_table(kept: &Margin, early: &Early, now: Moment) -> String {
    let (spare, buffer) = (kept.spare().get(), kept.buffer.get());
    let table = format!("your table at {}", when(kept.table, now));
    let is_ample = spare > buffer + AMPLE;
    let mut said = if spare <= -SAME {
        format!("That is {} later than {table}.", span(kept.spare()))
    } else if spare < SAME {
        format!(
            "That is just in time for {table}; {} to spare would be safer.",
            span(kept.buffer)
        )
    } else if spare + SAME < buffer {
        format!(
            "That is {} before {table}; {} would be safer, for {} may take that much longer.",
            span(kept.spare()),
            span(kept.buffer),
            unsure(early.unsure)
        )
    } else if is_ample {
        let because = early.because.as_ref();
        format!(
            "That is {} before {table}, sooner than it has to be: {} to spare would do{}.",
            span(kept.spare()),
            span(kept.buffer),
            because.map_or_else(String::new, |because| why_early(because, now))
        )
    } else {
        format!(
            "That is {} before {table}: {} may take that much longer.",
            span(kept.spare()),
            unsure(early.unsure)
        )
    };
    // What spoils until then; of several breads for one table the first are out before the last.
    match &early.cold {
        _ if is_ample && early.spoils => said += &format!(" {}", capital(WAITS_COLD)),
        Some(of) => said += &format!(" {}: {WAITS_COLD}", listed(of)),
        None => {}
    }
    said
}

fn unsure(what: Unsure) -> &'static str {
    match what {
        Unsure::Rises => "rises",
        Unsure::Bakes => "baking",
        Unsure::Cools => "cooling",
        Unsure::Rests => "resting",
        Unsure::Hands => "your work",
    }
}

fn why_early(because: &Because, now: Moment) -> String {
    match because {
        Because::GoesOn => ", but it goes on already".to_owned(),
        Because::Oven(whose, from) => {
            format!(", but the oven is for {whose} from {} on", when(*from, now))
        }
        Because::Nobody(from, to) => format!(", but nobody is here from {}", away(*from, *to, now)),
        Because::Hands(whose) => format!(", but your hands are needed for {whose}"),
    }
}

/// How good the plan is, with what that holds for. Where there was no time to prove that none lets less wait, that is told.
pub(crate) fn proven(proven: Proven, waits_least: bool, given: Given, tables: usize) -> String {
    let wished = if given.as_wished {
        "what you wish, "
    } else {
        ""
    };
    let oven = if given.as_heated {
        "one oven, heated from bread to bread as here"
    } else {
        "one oven"
    };
    let [unless, or_more] = if given.waits {
        [
            ", unless more of it waits longer than is good for it",
            ", or more by letting something wait too long",
        ]
    } else {
        ["", ""]
    };
    let with = format!("With {wished}one pair of hands and {oven}");
    let [but, or_least] = if waits_least {
        ["", ""]
    } else {
        [
            ". There was no time to prove that none lets less wait",
            ", or the one that lets least wait",
        ]
    };
    match proven {
        // Breads for several tables are ready one after the other, and what is proven is that by that order.
        Proven::Soonest if tables > 1 => format!(
            "{with}, no other order would have it ready sooner, with the bread for the sooner table put first{unless}{but}."
        ),
        Proven::Soonest => {
            format!("{with}, no other order of this work is ready sooner{unless}{but}.")
        }
        Proven::Short(by) => format!(
            "There was no time to prove it the soonest{or_least}. {with}, another order may save up to {}{or_more}.",
            span(by)
        ),
    }
}

/// What depends on something, where no table is wished.
pub(crate) const END_DEPENDS_ON: &str = "The end";
/// The same of the one table.
pub(crate) const TABLE_DEPENDS_ON: &str = "The table";

/// The same of one of several tables: "The table at 16:00".
pub(crate) fn table_depends(table: Moment, now: Moment) -> String {
    format!("{TABLE_DEPENDS_ON} at {}", when(table, now))
}

/// What something depends on that comes only once somebody is there: "your being away until 12:00".
pub(crate) fn your_being_away(until: Moment, now: Moment) -> String {
    format!("your being away until {}", when(until, now))
}

/// "The table depends on Knead, First rise, Fill and 7 shorter steps." Nothing where all is done, and nothing can change it.
pub(crate) fn depends_on(what: &str, names: &[String], shorter: usize) -> Option<String> {
    let mut links = names.to_vec();
    if shorter > 0 {
        let steps = if shorter == 1 { "step" } else { "steps" };
        links.push(format!("{shorter} shorter {steps}"));
    }
    (!links.is_empty()).then(|| format!("{what} depends on {}.", listed(&links)))
}

/// When to begin what waits: "Begin at 09:40: Buns.", or "Go on at 09:40: Buns." where it was gathered, or more.
pub(crate) fn begin(name: &str, (at, has_begun): (Moment, bool), now: Moment) -> String {
    let begin = if has_begun { "Go on" } else { "Begin" };
    if at <= now {
        format!("{begin} now: {name}.")
    } else {
        format!("{begin} at {}: {name}.", when(at, now))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(names: &[&str]) -> Vec<String> {
        names.iter().map(|name| (*name).to_owned()).collect()
    }

    #[test]
    fn a_chain_is_told_by_its_longest_links() {
        let three = names(&["Knead", "First rise", "Fill"]);
        assert_eq!(
            depends_on(TABLE_DEPENDS_ON, &three, 0).as_deref(),
            Some("The table depends on Knead, First rise and Fill.")
        );
        assert_eq!(
            depends_on(TABLE_DEPENDS_ON, &three, 1).as_deref(),
            Some("The table depends on Knead, First rise, Fill and 1 shorter step.")
        );
        assert_eq!(
            depends_on(END_DEPENDS_ON, &three[..1], 0).as_deref(),
            Some("The end depends on Knead.")
        );
        assert_eq!(depends_on(END_DEPENDS_ON, &[], 0), None);
    }

    #[test]
    fn what_is_not_proven_is_not_passed_off_as_the_soonest() {
        assert_eq!(
            proven(Proven::Soonest, true, GIVEN, 1),
            "With one pair of hands and one oven, no other order of this work is ready sooner."
        );
        let short = |waits| {
            let by = domain::units::minutes(15.0);
            proven(Proven::Short(by), true, Given { waits, ..GIVEN }, 1)
        };
        assert!(short(false).ends_with("may save up to 15\u{a0}min."));
        assert!(
            short(true).ends_with(
                "may save up to 15\u{a0}min, or more by letting something wait too long."
            )
        );
    }

    #[test]
    fn what_waits_is_not_passed_off_as_the_least_without_a_proof() {
        assert_eq!(
            proven(Proven::Soonest, false, GIVEN, 1),
            "With one pair of hands and one oven, no other order of this work is ready sooner. There was no time to prove that none lets less wait."
        );
        assert!(proven(Proven::Soonest, false, GIVEN, 2).ends_with(
            "with the bread for the sooner table put first. There was no time to prove that none lets less wait."
        ));
        let by = domain::units::minutes(15.0);
        assert!(proven(Proven::Short(by), false, GIVEN, 1).starts_with(
            "There was no time to prove it the soonest, or the one that lets least wait. With one pair of hands"
        ));
    }

    const GIVEN: Given = Given {
        as_wished: false,
        as_heated: false,
        waits: false,
    };

    #[test]
    fn what_is_proven_is_told_with_what_it_holds_for() {
        let heated = Given {
            as_heated: true,
            as_wished: true,
            ..GIVEN
        };
        assert_eq!(
            proven(Proven::Soonest, true, heated, 1),
            "With what you wish, one pair of hands and one oven, heated from bread to bread as here, no other order of this work is ready sooner."
        );
        let waits = Given {
            waits: true,
            ..GIVEN
        };
        assert_eq!(
            proven(Proven::Soonest, true, waits, 1),
            "With one pair of hands and one oven, no other order of this work is ready sooner, unless more of it waits longer than is good for it."
        );
        assert_eq!(
            proven(Proven::Soonest, true, GIVEN, 2),
            "With one pair of hands and one oven, no other order would have it ready sooner, with the bread for the sooner table put first."
        );
    }
}
