//! What the plan says on the Bench.

use domain::bake::{CALLED, State};
use domain::formula::Caution;
use domain::schedule::{InFridge, LeftOut, spoiling, weighed_out};
use domain::units::{Minutes, Moment, minutes};

use crate::words::{Prompt, caution, listed, span, when};

/// Begins what could wait, although the hands are wanted elsewhere.
pub(crate) const STAY: &str = "Stay here";

/// "Now at Orange braid: Divide", which leads there.
pub(crate) fn now_at(whose: &str, title: &str) -> String {
    format!("Now at {whose}: {title}")
}

/// The same where nothing is asked here meanwhile.
pub(crate) fn leads_to(whose: &str, title: String) -> Prompt {
    Prompt {
        title: format!("Now at {whose}"),
        instruction: title,
        action: format!("To {whose}"),
    }
}

/// "Next, about 09:13, at Orange braid: Gather", which leads there.
pub(crate) fn next_at(whose: &str, title: &str, at: Moment, now: Moment) -> String {
    format!("Next, about {}, at {whose}: {title}", when(at, now))
}

/// Of what isn't asked for meanwhile: "Here Cook the cream has time until 09:53." Or: "Here Divide comes at 11:30 by the
/// plan, 48 min later than is good."
pub(crate) fn has_time(title: &str, until: Moment, late: Option<Minutes>, now: Moment) -> String {
    let until = when(until, now);
    match late {
        Some(late) => {
            let late = span(late);
            format!("Here {title} comes at {until} by the plan, {late} later than is good.")
        }
        None => format!("Here {title} has time until {until}."),
    }
}

/// Says of a rise that was planned to stand in the fridge that it is there, or out again.
pub(crate) fn moved_by_plan(title: &str, goes_in: bool) -> String {
    let there = if goes_in { "in" } else { "out of" };
    format!("{title}: the dough is {there} the fridge now")
}

/// Of what is to be taken out of the oven: "Baked at 16:12, 8 min ago: every minute in there is too long." In the first
/// minute nothing has been too long.
pub(crate) fn baked_since(since: Moment, now: Moment) -> String {
    let (at, ago) = (when(since, now), (now - since).max(minutes(0.0)));
    let ago = if ago.get() < 1.0 {
        String::new()
    } else {
        format!(", {} ago", span(ago))
    };
    format!("Baked at {at}{ago}: every minute in there is too long.")
}

/// Of work that is left for later on purpose, by which it may come later than is good for it.
pub(crate) fn no_hurry(until: Moment, late: Option<Minutes>, now: Moment) -> String {
    let until = when(until, now);
    match late {
        Some(late) => {
            let late = span(late);
            format!("The plan has it at {until}, {late} later than is good: sooner is better.")
        }
        None => format!("The plan has it at {until}: there is no hurry."),
    }
}

/// What stands out is a hurry, whenever the work is: "Mix the dough comes at 06:30 tomorrow. Until then the whole milk
/// and beaten egg belong in the fridge. Perishable: into the fridge within two hours…"
pub(crate) fn left_out(state: &State, left: LeftOut, now: Moment) -> String {
    let title = state.formula.title(left.step);
    // A plan counts whole minutes, so what should have gone on by now goes on with the next.
    if left.at - now >= CALLED {
        let at = when(left.at, now);
        return format!("{title} comes at {at}. {}", put_away(state, left));
    }
    // It should have gone on by now, so nothing is put away until a moment that is known; and nobody said where it stood.
    let what = if left.is_dough {
        "the dough"
    } else {
        "the milk and egg"
    };
    format!("{title} is overdue. Did {what} stand out all the while? {STOOD_TOO_LONG}")
}

fn put_away(state: &State, left: LeftOut) -> String {
    if left.is_dough {
        return DOUGH_AWAY.to_owned();
    }
    let names = weighed_out(state, left.step, left.at, None).into_iter();
    let names: Vec<String> = names.map(str::to_owned).collect();
    let caution = caution(Caution::Perishable);
    let belong = if names.len() > 1 { "belong" } else { "belongs" };
    let what = listed(&names);
    format!("Until then the {what} {belong} in the fridge. {caution}")
}

/// What isn't gathered with the rest, nothing where all of it is: "Leave in the fridge, and weigh when it is needed: whole
/// milk and beaten egg for orange dough at 18:00; beaten egg and whole milk for egg wash at 21:05."
pub(crate) fn leave_in_fridge(state: &State, parts: &[InFridge], now: Moment) -> Option<String> {
    leave(state, parts, &|until| when(until, now))
}

/// The same for several breads, said once.
pub(crate) fn leave_all(each: &[String]) -> String {
    let lists = each.iter().filter_map(|said| said.strip_prefix(LEAVE));
    let lists: Vec<&str> = lists.map(|list| list.trim_end_matches('.')).collect();
    if lists.is_empty() {
        String::new()
    } else {
        format!("{LEAVE}{}.", lists.join("; "))
    }
}

fn leave(state: &State, parts: &[InFridge], time: &dyn Fn(Moment) -> String) -> Option<String> {
    let mut said = String::new();
    for part in parts {
        let component = state.formula.component(part.component)?;
        let names: Vec<String> = spoiling(component).map(str::to_owned).collect();
        said += if said.is_empty() { LEAVE } else { "; " };
        said += &listed(&names);
        said += " for ";
        said += &component.name;
        said += " at ";
        said += &time(part.until);
    }
    said.push('.');
    (!parts.is_empty()).then_some(said)
}

/// Until the step that takes it.
const LEAVE: &str = "Leave in the fridge, and weigh when it is needed: ";

/// What may no longer be safe. Follows the two-hour rule of the caution for what is perishable.
const STOOD_TOO_LONG: &str = "What is perishable keeps two hours out of the fridge, one where it is hot. If you can't say how long it stood, throw it away. Your local food-safety rules come first.";

/// A dough that would stand out for hours.
const DOUGH_AWAY: &str = "That is too long for a dough out of the fridge: put it in until then. Ways out stand in the plan.";

#[cfg(test)]
mod tests {
    use checks::{begin, say, starter};
    use domain::bake::{Bake, Intent};
    use domain::formula::{StepId, StepKind};
    use domain::kitchen::Kitchen;

    use super::*;

    const START: Moment = Moment::from_epoch_ms(1_789_894_800_000);

    fn step(bake: &Bake, kind: StepKind) -> StepId {
        let mut steps = bake.state().formula.steps.iter();
        let step = steps.find(|step| step.kind == kind);
        step.expect("it has one").id
    }

    #[test]
    fn what_was_weighed_and_what_is_mixed_is_put_away_until_it_goes_on() {
        let mut bake = begin(starter("orange-braid"), Kitchen::UNMEASURED, START);
        let (gather, mix) = (step(&bake, StepKind::Gather), step(&bake, StepKind::Mix));
        say(&mut bake, Intent::Done(gather), START);
        let left = |is_dough| LeftOut {
            step: mix,
            at: START + minutes(540.0),
            is_dough,
        };
        assert_eq!(
            put_away(bake.state(), left(false)),
            "Until then the whole milk and beaten egg belong in the fridge. Perishable: into the fridge within two hours, one in a hot kitchen. Your local food-safety rules come first."
        );
        assert_eq!(put_away(bake.state(), left(true)), DOUGH_AWAY);
    }

    #[test]
    fn what_isn_t_gathered_with_the_rest_is_told_with_what_it_is_for_and_when() {
        let bake = begin(starter("orange-braid"), Kitchen::UNMEASURED, START);
        let state = bake.state();
        let parts = state.formula.components.iter().map(|part| InFridge {
            component: part.id,
            until: START,
        });
        let [dough, wash] = [0, 1].map(|nth| parts.clone().nth(nth).expect("it has both"));
        let said = |parts: &[InFridge]| leave(state, parts, &|_| "18:00".to_owned());
        let both = "Leave in the fridge, and weigh when it is needed: whole milk and beaten egg for orange dough at 18:00; beaten egg and whole milk for egg wash at 18:00.";
        assert_eq!(said(&[dough, wash]).as_deref(), Some(both));
        assert_eq!(said(&[]), None);
        let each = [said(&[dough]), said(&[wash])].map(|said| said.expect("it leaves some"));
        assert_eq!(leave_all(&each), both);
        assert_eq!(leave_all(&[]), "");
    }

    #[test]
    fn what_should_have_gone_on_is_put_away_until_no_moment_that_has_passed() {
        let bake = begin(starter("orange-braid"), Kitchen::UNMEASURED, START);
        let left = LeftOut {
            step: step(&bake, StepKind::Mix),
            at: START,
            is_dough: false,
        };
        let said = left_out(bake.state(), left, START + minutes(40.0));
        let title = bake.state().formula.title(left.step);
        let first = format!("{title} is overdue. Did the milk and egg stand out all the while?");
        assert_eq!(said, format!("{first} {STOOD_TOO_LONG}"));
    }
}
