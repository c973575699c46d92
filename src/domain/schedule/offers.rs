//! The work that free hands could do, and what makes some of it more pressing.

use crate::sorted;
use std::cmp::Reverse;

use super::tails::tails;
use crate::bake::State;
use crate::formula::{Step, StepId, StepKind};
use crate::sorted::Map;
use crate::units::{Minutes, Moment, minutes};

/// A link with a greatest lag is urgent when this little of it is left.
const URGENT: Minutes = minutes(30.0);

/// The work that free hands could do now, best first: what may not wait much
/// longer, then whatever has the most still hanging on it.
#[must_use]
pub fn offers(state: &State, now: Moment) -> Vec<StepId> {
    let mut open: Vec<(&Step, Option<Moment>)> = state
        .formula
        .steps
        .iter()
        .filter(|step| step.is_hands() && can_start(state, step, now))
        .map(|step| {
            (
                step,
                start_by(step, &|step| Some(state.progress(step).ended?.at)),
            )
        })
        .collect();
    // With nothing to choose from there is nothing to reckon.
    let tails = if open.len() > 1 {
        tails(state, now)
    } else {
        Map::new()
    };
    sorted::by_key(&mut open, |&(step, by)| rank(step, by, now, &tails));
    open.into_iter().map(|(step, _)| step.id).collect()
}

/// The same in the order of a plan.
#[must_use]
pub(super) fn offers_by(state: &State, now: Moment, order: &[StepId]) -> Vec<StepId> {
    let mut offers = offers(state, now);
    in_order(state, &mut offers, order);
    offers
}

/// Puts what is offered into the order of a plan, which knows what else wants the hands; what it doesn't know comes
/// after that. An oven that is due stays first.
pub fn in_order(state: &State, offers: &mut [StepId], order: &[StepId]) {
    sorted::by_key(offers, |&id| {
        let step = state.formula.step(id);
        let is_oven = step.is_some_and(|step| step.kind == StepKind::OvenOn);
        let place = order.iter().position(|&planned| planned == id);
        (!is_oven, place.unwrap_or(usize::MAX))
    });
}

/// How pressing a step is at `now`, the least first. An oven that is due takes a
/// minute and saves twenty; then what is urgent; then the longest tail.
pub(super) fn rank(
    step: &Step,
    by: Option<Moment>,
    now: Moment,
    tails: &Map<StepId, Minutes>,
) -> (bool, bool, Option<Moment>, Reverse<i64>) {
    let urgent = by.filter(|&by| by - now <= URGENT);
    let tail = tails.get(&step.id).copied().unwrap_or(minutes(0.0));
    (
        step.kind != StepKind::OvenOn,
        urgent.is_none(),
        urgent,
        Reverse(tail.get().round() as i64),
    )
}

pub(super) fn can_start(state: &State, step: &Step, now: Moment) -> bool {
    let open = state.is_open(step.id);
    let opens = state.progress(step.id).open_since;
    let oven_later = state
        .oven_on_at(step, now)
        .is_some_and(|turn_on| turn_on > now);
    open && opens.is_some_and(|opens| opens <= present(state, now)) && !oven_later
}

/// The present, but no earlier than what has happened: by a clock that was put back, what has just ended lies ahead.
pub(super) fn present(state: &State, now: Moment) -> Moment {
    now.max(state.newest)
}

/// The moment after which waiting harms a step, as far as the ends of what it follows are known.
pub(super) fn start_by(step: &Step, end_of: &dyn Fn(StepId) -> Option<Moment>) -> Option<Moment> {
    let links = step.after.iter();
    links
        .filter_map(|link| Some(end_of(link.step)? + link.greatest?))
        .min()
}
