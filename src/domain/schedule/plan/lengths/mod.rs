//! How long the steps of a bake take, which hangs a little on when they start.
//!
//! A rise takes as long as its dough is warm, and the dough has followed the kitchen since it left
//! the bench; so lengths are reckoned for the times that are planned, and planned times follow from
//! the lengths. They are looked for in turns, from those of the bake's own
//! [outline](crate::schedule::outline), in which one pair of hands does what presses most.

pub(super) mod ovens;
pub(super) mod settle;

use super::tasks::turned_out;
use super::what::What;
use super::{Item, NOTABLE};
use crate::bake::{AlarmId, State};
use crate::formula::{self, StepId};
use crate::schedule::offers::start_by;
use crate::schedule::outline::{Planned, off, outline, warming_since};
use crate::sorted::Map;
use crate::units::{Minutes, Moment, minutes};

/// When a step is planned, how long it takes, and how far its end may be off.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Length {
    pub start: Moment,
    pub end: Moment,
    /// Earlier and later.
    pub slack: (Minutes, Minutes),
    /// Its folds that are still to come.
    pub folds: Vec<Moment>,
    /// Since when its dough follows the kitchen, if it was reckoned for these times.
    pub since: Option<Option<Moment>>,
}

/// By step, of all that is left of a bake.
pub(crate) type Lengths = Map<StepId, Length>;

/// Those of a bake's own outline.
pub(crate) fn outlined(state: &State, now: Moment) -> Lengths {
    let steps = outline(state, now).steps.into_iter();
    let length = |planned: Planned| {
        let length = Length {
            start: planned.start,
            end: planned.end,
            slack: planned.slack,
            folds: folds(state, planned.step, planned.start, now),
            since: None,
        };
        (planned.step, length)
    };
    steps.map(length).collect()
}

/// The work that the baker turned to, of the bake where that was last.
pub(crate) fn told_at_work(bakes: &[&State], now: Moment) -> Option<(usize, StepId)> {
    let told = bakes.iter().enumerate();
    let told = told.filter_map(|(bake, state)| Some((bake, state.at_work(now)?)));
    let (bake, work) = told.max_by_key(|(_, work)| work.since)?;
    Some((bake, work.step))
}

/// The work that the hands are at though nobody told, of which only the rest is left to do: of what a plan from before
/// had let begin by now, and could begin since the hands ended their last work, the first.
///
/// What could wait is begun by a baker who had just ended something, or heard the call: nobody else is known to be there.
pub(crate) fn begun_by(
    bakes: &[&State],
    lengths: &mut [Lengths],
    was: &[(What, Moment)],
    now: Moment,
) -> Option<(usize, StepId)> {
    let free = bakes.iter().filter_map(|state| hands_free(state)).max();
    let ripe = bakes.iter().filter_map(|state| ripe_since(state)).max();
    let seen = bakes.iter().map(|state| last_seen(state)).max();
    let begun = was.iter().filter_map(|&(what, start)| {
        let What::Step(bake, step) = what else {
            return None;
        };
        let (state, length) = (bakes.get(bake)?, lengths.get(bake)?.get(&step)?);
        let opened = state.progress(step).open_since?;
        let is_hands = state.formula.step(step)?.is_hands();
        let called = state.acknowledged.get(&AlarmId::Begin);
        let called = called.copied().filter(|&called| start - called < NOTABLE);
        let is_there = called.is_some() || seen.is_none_or(|seen| start - seen < NOTABLE);
        if !is_there && state.held_back().contains(&step) {
            return None;
        }
        let start = start
            .max(called.unwrap_or(start))
            .max(opened)
            .max(free.unwrap_or(opened));
        // Whoever said only now that their last work is done is at nothing yet, and what they said may come to another order.
        let is_begun = now - start >= minutes(1.0);
        // Who has said meanwhile that something else is ripe was at that, and goes on with what can't wait.
        let gives_way = ripe.is_some_and(|ripe| ripe > start) && limit_of(state, step).is_none();
        (is_hands && is_begun && !gives_way).then_some((
            bake,
            step,
            start,
            length.end - length.start,
        ))
    });
    let (bake, step, start, takes) = begun.min_by_key(|&(_, _, start, _)| start)?;
    let length = lengths[bake].get_mut(&step)?;
    (length.start, length.end) = (start, (start + takes).max(now));
    Some((bake, step))
}

/// A length that was planned before and is nearly the same now stays.
///
/// Lengths and starts hang on each other, and where they come to rest depends a little on where they began; without this
/// a plan that is redone would go on coming to rest for some minutes. Once a step goes on its own forecast counts.
pub(crate) fn as_promised(bakes: &[&State], lengths: &mut [Lengths], before: &[Item], now: Moment) {
    let near = |length: Minutes| length.get().abs() <= NOTABLE.get();
    for item in before {
        let What::Step(bake, step) = item.what else {
            continue;
        };
        let (Some(state), Some(lengths)) = (bakes.get(bake), lengths.get_mut(bake)) else {
            continue;
        };
        let is_to_come = state.progress(step).open_since.is_none()
            && state
                .formula
                .step(step)
                .is_some_and(|step| !step.is_hands());
        let Some(length) = lengths
            .get_mut(&step)
            .filter(|_| is_to_come && item.start >= now)
        else {
            continue;
        };
        let was = item.end - item.start;
        let off = was - (length.end - length.start);
        // Off by less than is planned by, or by more than may be passed over.
        if off.get().abs() < 0.5 || !near(off) {
            continue;
        }
        length.end = length.start + was;
        length.slack = item.slack;
        for (nth, fold) in length.folds.iter_mut().enumerate() {
            let folds = before
                .iter()
                .find(|other| other.what == What::Fold(bake, step, nth));
            let planned = folds.map(|planned| length.start + (planned.start - item.start));
            *fold = planned
                .filter(|&planned| near(planned - *fold))
                .unwrap_or(*fold);
        }
    }
}

/// Whether a start is from before a time in the fridge was planned of a rise that hasn't begun: by its length then
/// the rise would miss the fridge, and that it shall go there would be the first to be let go of.
pub(crate) fn misses_its_stay(bakes: &[&State], what: What, start: Moment) -> bool {
    let What::Step(bake, step) = what else {
        return false;
    };
    let state = bakes.get(bake).filter(|state| {
        state.progress(step).open_since.is_none() && !state.pins.contains_key(&step)
    });
    let stay = state.and_then(|state| state.retards.get(&step));
    stay.is_some_and(|&(from, to)| start < from || start >= to)
}

/// Since when work is open at a bake that may wait only so long for what has ended before it.
fn ripe_since(state: &State) -> Option<Moment> {
    let steps = state.formula.steps.iter();
    let open = steps.filter(|step| step.is_hands() && state.is_open(step.id));
    let ripe = open.filter(|step| limit_of(state, step.id).is_some());
    ripe.filter_map(|step| state.progress(step.id).open_since)
        .max()
}

/// By when work should be begun, where what has ended before it waits no longer.
fn limit_of(state: &State, step: StepId) -> Option<Moment> {
    let ended = |before| Some(state.progress(before).ended?.at);
    start_by(state.formula.step(step)?, &ended)
}

/// When somebody last ended something at a bake, or started it.
fn last_seen(state: &State) -> Moment {
    let steps = state.formula.steps.iter();
    let ends = steps.filter_map(|step| Some(state.progress(step.id).ended?.at));
    ends.chain(hands_free(state))
        .fold(state.started, Moment::max)
}

/// When hands last ended something at a bake.
fn hands_free(state: &State) -> Option<Moment> {
    let steps = state.formula.steps.iter();
    let ends = steps.filter_map(|step| {
        let progress = state.progress(step.id);
        let work = progress.ended.filter(|_| step.is_hands());
        let fold = progress.folds.last();
        work.iter().chain(fold).map(|ended| ended.at).max()
    });
    ends.max()
}

/// Those for other starts, of what hasn't begun yet and goes on by itself.
pub(crate) fn redone(
    state: &State,
    before: &Lengths,
    start_of: &dyn Fn(StepId) -> Option<Moment>,
    now: Moment,
) -> Lengths {
    let start_and_end = |step: StepId, length: &Length| {
        // What has begun stays where it began, wherever the rest of it stands as a task.
        let start = if length.start < now {
            length.start
        } else {
            start_of(step)?.max(now)
        };
        // A night in the fridge ends as somebody turns out the dough.
        let out = turned_out(state, step).and_then(|(_, out)| start_of(out));
        let out = out.filter(|&out| out > start);
        let end = out.unwrap_or(start + (length.end - length.start));
        Some((start, end))
    };
    let planned = |step: StepId| {
        let length = before.get(&step)?;
        let (start, end) = start_and_end(step, length)?;
        Some(Planned {
            step,
            start,
            end,
            slack: length.slack,
            waited_for: None,
            too_late_by: None,
        })
    };
    let redo = |(&id, length): (&StepId, &Length)| {
        let again = || {
            let step = state.formula.step(id)?;
            if turned_out(state, id).is_some() {
                let (start, end) = start_and_end(id, length)?;
                return Some(Length {
                    start,
                    end,
                    ..length.clone()
                });
            }
            let begun = state.progress(id).open_since.is_some();
            if step.is_hands() || begun {
                return None;
            }
            // What was planned for a moment that has passed, and hasn't begun, starts no sooner than now.
            let start = start_of(id)?.max(now);
            let warming_since = warming_since(state, step, &planned);
            if start == length.start && length.since == Some(warming_since) {
                return None;
            }
            let since = Some(warming_since);
            // Whenever it starts, a bake takes as long as it did, and that takes long to reckon.
            if matches!(step.length, formula::Length::Bake { .. }) {
                let end = start + (length.end - length.start);
                return Some(Length {
                    start,
                    end,
                    since,
                    ..length.clone()
                });
            }
            let takes = state.length_if_warming_since(step, start, warming_since);
            let window = takes.map(|takes| start + takes);
            let end = window.likely();
            Some(Length {
                start,
                end,
                slack: off(state, id, (start, end), &window),
                folds: folds(state, id, start, now),
                since,
            })
        };
        (id, again().unwrap_or_else(|| length.clone()))
    };
    before.iter().map(redo).collect()
}

/// The folds of a step that are still to come, if it starts at a moment.
fn folds(state: &State, step: StepId, start: Moment, now: Moment) -> Vec<Moment> {
    match (state.forecast(step, now), state.formula.step(step)) {
        (Some(forecast), _) => forecast.folds,
        (None, Some(step)) => state.folds_if_started(step, start),
        (None, None) => Vec::new(),
    }
}
