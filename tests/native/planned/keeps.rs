//! What every plan must keep, read off the formulas.

use domain::bake::{How, State};
use domain::formula::{Length, Step, StepId, StepKind};
use domain::kitchen::OvenKind;
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
    check_fridge(states, plan, now)?;
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
        What::Fold(..) | What::Retard(..) | What::Kept(..) | What::Away => None,
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
        // Nothing is made up for that was too late before it was planned.
        let late = item.start - (end + greatest).max(now);
        let told = item.too_late_by.unwrap_or(minutes(0.0));
        keeps(late <= told + minute, || {
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

/// What is put into the fridge stands there until the last of what it is used for begins, and nothing more is put in
/// than fits, unless that is told.
fn check_fridge(states: &[&State], plan: &Plan, now: Moment) -> Kept {
    let Some(room) = states.first().map(|state| state.kitchen.fridge_holds) else {
        return Ok(());
    };
    let mut spans: Vec<(Moment, Moment)> = Vec::new();
    for (bake, state) in states.iter().enumerate() {
        let used = |put_in: StepId| {
            let part = state.formula.step(put_in).map(|step| step.component);
            let steps = state.formula.steps.iter();
            let after = steps.filter(|step| step.after.iter().any(|link| link.step == put_in));
            // What is another part's only comes after it, where its own work does as well.
            let (own, others): (Vec<_>, Vec<_>) =
                after.partition(|step| Some(step.component) == part);
            let uses = if own.is_empty() { others } else { own };
            let follows = steps_of(plan, bake).filter(|&(step, item)| {
                item.start >= now && uses.iter().any(|other| other.id == step)
            });
            follows.map(|(_, item)| item.start).max()
        };
        for step in state.formula.steps.iter().filter(|step| step.needs.fridge) {
            let item = plan.item(What::Step(bake, step.id));
            let ended = state.progress(step.id).ended;
            let was_done = ended.filter(|ended| ended.how == How::Done);
            let span = match (item, was_done) {
                (Some(item), _) => Some((item.start, used(step.id).unwrap_or(item.end))),
                (None, Some(ended)) => used(step.id).map(|end| (ended.at, end)),
                (None, None) => None,
            };
            spans.extend(span);
        }
        let stands = plan.items.iter().filter(
            |item| matches!(item.what, What::Retard(of, _, RetardPart::Stands) if of == bake),
        );
        spans.extend(stands.map(|item| (item.start, item.end)));
    }
    // Until it is full, as is told, there is room for all.
    let full = plan.fridge_full(states).map(|(from, _)| from);
    // What is in there already was put in by somebody who saw it.
    let begun = spans
        .iter()
        .filter(|span| span.0 > now && full.is_none_or(|full| span.0 < full));
    begun.clone().try_for_each(|one| {
        let at_once = spans
            .iter()
            .filter(|other| other.0 <= one.0 && one.0 < other.1);
        keeps(one.0 == one.1 || at_once.count() <= room as usize, || {
            format!("more than {room} in the fridge at {:?}", one.0)
        })
    })
}

fn ovens_of(state: &State) -> Vec<f64> {
    let ovens = state
        .formula
        .steps
        .iter()
        .filter_map(|step| match step.length {
            Length::OvenHeats { oven } | Length::Bake { oven, .. } => Some(oven.get()),
            _ => None,
        });
    ovens.collect()
}

/// From its switch to the bread that comes out, an oven is one bread's, or that of others which need it as hot, as far as
/// there are trays: two with a fan.
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
    let as_hot = |one: usize, other: usize| {
        let [one, other] = [one, other].map(|bake| ovens_of(states[bake]));
        let all = || one.iter().chain(&other);
        let (least, most) = all().fold((f64::MAX, f64::MIN), |(least, most), &oven| {
            (least.min(oven), most.max(oven))
        });
        states[0].kitchen.oven == OvenKind::Fan && most - least <= 5.0
    };
    let spans = (0..states.len()).filter_map(|bake| Some((bake, span(bake)?)));
    let spans: Vec<_> = spans.collect();
    for (nth, &(bake, one)) in spans.iter().enumerate() {
        for &(of, other) in &spans[nth + 1..] {
            keeps(
                one.1 <= other.0 || other.1 <= one.0 || as_hot(bake, of),
                || "two breads in one oven".to_owned(),
            )?;
        }
    }
    let trays = if states
        .first()
        .is_some_and(|state| state.kitchen.oven == OvenKind::Fan)
    {
        2
    } else {
        1
    };
    check_at_once(plan, trays, &|what| {
        step_of(states, what).is_some_and(|step| step.kind == StepKind::Bake)
    })
}
