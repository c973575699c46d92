//! What every plan must keep, read off the formulas.

use domain::bake::State;
use domain::formula::{Step, StepId};
use domain::schedule::plan::{Item, Plan, RetardPart, What};
use domain::units::{Moment, minutes};

/// Nothing, or what isn't kept.
pub(crate) type Kept = Result<(), String>;

/// Everything that is left once; links, hands, hob and oven kept; nobody at work who isn't there.
pub(crate) fn check(
    states: &[&State],
    plan: &Plan,
    now: Moment,
    closed: &[(Moment, Moment)],
) -> Kept {
    for (bake, state) in states.iter().enumerate() {
        let mut planned: Vec<StepId> = steps_of(plan, bake).map(|(step, _)| step).collect();
        let mut left: Vec<StepId> = state.formula.steps.iter().map(|step| step.id).collect();
        left.retain(|&step| state.progress(step).ended.is_none());
        planned.sort();
        left.sort();
        keeps(planned == left, || format!("{planned:?} of {left:?}"))?;
        for (step, item) in steps_of(plan, bake) {
            let step = state.formula.step(step).expect("just listed");
            check_links(state, step, item, plan, bake, now)?;
        }
    }
    check_at_once(plan, 1, &|what| needs_hands(states, what))?;
    check_at_once(plan, 4, &|what| {
        step_of(states, what).is_some_and(|step| step.needs.hob)
    })?;
    check_at_once(plan, 4, &|what| {
        matches!(what, What::Retard(_, _, RetardPart::Stands))
            || step_of(states, what).is_some_and(|step| step.needs.fridge)
    })?;
    check_oven(states, plan)?;
    check_chains(plan)?;
    let mut work = plan
        .items
        .iter()
        .filter(|item| needs_hands(states, item.what));
    work.try_for_each(|item| {
        let is_there = |&(from, to): &(Moment, Moment)| item.end <= from || item.start >= to;
        keeps(closed.iter().all(is_there), || {
            format!("nobody is there for {item:?}")
        })
    })
}

/// Whoever asks what an item waits for, and what that waits for, comes to an end.
fn check_chains(plan: &Plan) -> Kept {
    let mut items = plan.items.iter();
    items.try_for_each(|item| {
        let next = |item: &&Item| item.waits_for.map(|place| &plan.items[place]);
        let chain = std::iter::successors(Some(item), next);
        let long = chain.take(plan.items.len() + 1).count();
        keeps(long <= plan.items.len(), || {
            format!("{item:?} waits for itself")
        })
    })
}

fn keeps(holds: bool, otherwise: impl FnOnce() -> String) -> Kept {
    if holds { Ok(()) } else { Err(otherwise()) }
}

fn steps_of(plan: &Plan, bake: usize) -> impl Iterator<Item = (StepId, &Item)> {
    plan.items.iter().filter_map(move |item| match item.what {
        What::Step(of, step) if of == bake => Some((step, item)),
        _ => None,
    })
}

fn step_of<'a>(states: &[&'a State], what: What) -> Option<&'a Step> {
    match what {
        What::Step(bake, step) => states[bake].formula.step(step),
        What::Fold(..) | What::Retard(..) | What::Away => None,
    }
}

fn needs_hands(states: &[&State], what: What) -> bool {
    what.is_in_passing() || step_of(states, what).is_some_and(Step::is_hands)
}

/// Plans go by whole minutes, so a lag may be off by one.
fn check_links(
    state: &State,
    step: &Step,
    item: &Item,
    plan: &Plan,
    bake: usize,
    now: Moment,
) -> Kept {
    let minute = minutes(1.0);
    let title = &step.title;
    keeps(item.start <= item.end, || {
        format!("{title} ends before it starts")
    })?;
    let goes_on = !step.is_hands() && state.progress(step.id).open_since.is_some();
    // So has work under way, which is open.
    let under_way = item.start < now && state.is_open(step.id);
    if goes_on || under_way {
        return Ok(());
    }
    keeps(item.start >= now, || format!("{title} in the past"))?;
    for link in &step.after {
        let other = steps_of(plan, bake).find(|(other, _)| *other == link.step);
        let end = match state.progress(link.step).ended {
            Some(ended) => ended.at,
            None => other.expect("left, so planned").1.end,
        };
        keeps(item.start + minute >= end + link.least, || {
            format!("{title} too early")
        })?;
        let Some(greatest) = link.greatest else {
            continue;
        };
        let late = (item.start - end) - greatest;
        let told = item.too_late_by.unwrap_or(minutes(0.0));
        let was_too_late = state.progress(link.step).ended.is_some();
        keeps(late <= told + minute || was_too_late, || {
            format!("{title} too late by {late:?}, told {told:?}")
        })?;
    }
    // What goes on by itself doesn't wait.
    if let ([link], false) = (&step.after[..], step.is_hands()) {
        let other = steps_of(plan, bake).find(|(other, _)| *other == link.step);
        if let Some((_, other)) = other {
            keeps(item.start <= other.end + link.least + minute, || {
                format!("{title} waits")
            })?;
        }
    }
    Ok(())
}

/// Never more at once than there is.
fn check_at_once(plan: &Plan, most: usize, holds: &dyn Fn(What) -> bool) -> Kept {
    let holders: Vec<&Item> = plan.items.iter().filter(|item| holds(item.what)).collect();
    holders.iter().try_for_each(|one| {
        let at = |other: &&&Item| other.start <= one.start && one.start < other.end;
        let most = most.max(usize::from(one.start == one.end));
        keeps(holders.iter().filter(at).count() <= most, || {
            format!("more than {most} at once with {one:?}")
        })
    })
}

/// From its switch to the bread that comes out, an oven is one bread's.
fn check_oven(states: &[&State], plan: &Plan) -> Kept {
    let span = |bake: usize| {
        let held = steps_of(plan, bake).filter(|&(step, item)| {
            let step = states[bake].formula.step(step).expect("just listed");
            step.needs.oven && item.end > item.start
        });
        let mut span: Option<(Moment, Moment)> = None;
        for (_, item) in held {
            let (first, last) = span.unwrap_or((item.start, item.end));
            span = Some((first.min(item.start), last.max(item.end)));
        }
        span
    };
    let spans: Vec<_> = (0..states.len()).filter_map(span).collect();
    for (nth, one) in spans.iter().enumerate() {
        for other in &spans[nth + 1..] {
            keeps(one.1 <= other.0 || other.1 <= one.0, || {
                "two breads in one oven".to_owned()
            })?;
        }
    }
    Ok(())
}
