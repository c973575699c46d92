//! The events that an intent comes to. [`decide`] is the only way an event comes
//! about after the start.

use super::Bake;
use super::event::{Entry, Event, TimerId};
use super::heard::{entries, goes_on, hear, set_clock};
use super::intent::{Intent, Refusal};
use super::marks::{marks_of, next_mark};
use super::measured::{self, air_of, delay, kitchen_changed, within};
use super::progress::Status;
use super::since::since;
use super::state::State;
use super::stay;
use super::undo::{put_back, undo, undo_kitchen, undo_wishes};
use super::wishes::{self, Wishes};
use crate::formula::{Held, Length, Step, StepId};
use crate::kitchen::{COLDEST_PLACE, Place, WARMEST_PLACE};
use crate::units::{Minutes, Moment, minutes};

/// The events an intent comes to.
///
/// # Errors
/// [`Refusal`] when it can't be; then nothing has happened.
pub fn decide(bake: &Bake, intent: Intent, now: Moment) -> Result<Vec<Entry>, Refusal> {
    // What happened before moves along with the clock.
    let moved = match intent {
        Intent::ClockWasSet(by) => by,
        _ => minutes(0.0),
    };
    let events = events(bake, intent, now)?;
    Ok(entries(bake, events, moved, now))
}

fn events(bake: &Bake, intent: Intent, now: Moment) -> Result<Vec<Event>, Refusal> {
    let state = bake.state();
    goes_on(state)?;
    let one = |event| Ok(vec![event]);
    match intent {
        Intent::Pick(step) => open(state, step).and_then(|step| one(Event::Picked { step })),
        Intent::Done(step) => open(state, step).and_then(|step| one(Event::Done { step })),
        Intent::NotYet(step, by) => {
            let step = open(state, step)?;
            let look = |now| Some(state.forecast(step, now)?.look);
            let by = delay(by)? + still_to_come(state, now, look);
            one(Event::Extended { step, by })
        }
        Intent::Skip(step) => open(state, step).and_then(|step| one(Event::Skipped { step })),
        Intent::GoBack(step) => go_back(state, step, &|_| true),
        Intent::MakeAnew(step) => {
            let part = state.formula.step(step).map(|step| step.component);
            go_back(state, step, &|other| Some(other.component) == part)
        }
        Intent::Mark(step, mark, on) => {
            let step = open(state, step)?;
            if !marks_of(state, step).contains(&mark) {
                return Err(Refusal::Unknown);
            }
            one(Event::Marked { step, mark, on })
        }
        Intent::MarkNext(step) => mark_next(state, step),
        Intent::Folded(step) => open(state, step).and_then(|step| one(Event::Folded { step })),
        Intent::FoldNotYet(step, by) => {
            let step = to_fold(state, step)?;
            let fold = |now| state.forecast(step, now)?.folds.first().copied();
            let by = delay(by)? + still_to_come(state, now, fold);
            one(Event::FoldPutOff { step, by })
        }
        Intent::SkipFold(step) => {
            to_fold(state, step).and_then(|step| one(Event::FoldSkipped { step }))
        }
        Intent::KitchenIs(air) => {
            let air = air_of(air)?;
            one(Event::KitchenMeasured { air })
        }
        Intent::KitchenChanged(kitchen) => kitchen_changed(state, *kitchen),
        Intent::KitchenUndone { changed, .. } if state.kitchen != *changed => Ok(Vec::new()),
        Intent::KitchenUndone { back, .. } => match undo_kitchen(bake, &back) {
            // It began in the changed kitchen, or came to it in its own way: then it is told anew.
            taken_back if taken_back.is_empty() => kitchen_changed(state, *back),
            taken_back => Ok(taken_back),
        },
        Intent::DoughIs(component, temperature) => {
            measured::dough(state, component, temperature).and_then(one)
        }
        Intent::CoreIs(step, temperature) => measured::core(state, step, temperature).and_then(one),
        Intent::OvenHot(step, oven) => measured::oven(state, step, oven).and_then(one),
        Intent::Move(step, place) => moved(state, step, place),
        Intent::Pour(step, held) => poured(state, step, held),
        Intent::RiseIs(step, share, ago) => {
            measured::rise(state, step, share, ago, now).and_then(one)
        }
        Intent::PieceWeighs(piece, mass) => measured::piece(state, piece, mass).and_then(one),
        Intent::RemoveMass(piece) if state.masses.contains_key(&piece) => {
            one(Event::MassRemoved { piece })
        }
        Intent::RemoveMass(_) => Ok(Vec::new()),
        Intent::SetTimer(name, length) => {
            let length = within(length.get(), "timer", "min", 0.25, 48.0 * 60.0)?;
            one(Event::TimerSet {
                timer: TimerId(state.timers_set),
                name,
                length: Minutes::clamped(length),
            })
        }
        Intent::StopTimer(timer) if state.timers.contains_key(&timer) => {
            one(Event::TimerStopped { timer })
        }
        Intent::StopTimer(_) => Err(Refusal::Unknown),
        Intent::Wish(wishes) => wishes::wish(state, *wishes, now),
        Intent::WishUndone { wished_at, away } => match undo_wishes(bake, wished_at, &away) {
            // It came to its wishes in its own way: then when nobody is there is told anew.
            taken_back if taken_back.is_empty() => {
                let wishes = Wishes {
                    away,
                    ..state.wishes.clone()
                };
                wishes::wish(state, wishes, now)
            }
            taken_back => Ok(taken_back),
        },
        Intent::Pin(step, at) => wishes::pin(state, step, at, now),
        Intent::PlanRetard(step, planned) => stay::plan(state, step, planned, now),
        Intent::AtOnce(intents) => at_once(bake, intents, now),
        Intent::Refit(_) if state.has_begun() => Err(Refusal::Unknown),
        Intent::Refit(formula) if *formula == state.formula => Ok(Vec::new()),
        Intent::Refit(formula) => one(Event::Refitted(formula)),
        Intent::Hear(alarm) => hear(state, alarm, now),
        Intent::Pause if state.status == Status::Running => one(Event::Paused),
        Intent::Resume if state.status != Status::Running => one(Event::Resumed),
        Intent::Pause | Intent::Resume => Ok(Vec::new()),
        Intent::Finish => one(Event::Finished),
        Intent::Abandon => one(Event::Abandoned),
        Intent::ClockWasSet(by) => set_clock(state, by),
        Intent::Since(entry, at) => since(bake, entry, at),
        Intent::Undo => undo(bake),
        Intent::PutBack => put_back(bake),
    }
}

/// What several intents come to, each where the ones before it were done.
fn at_once(bake: &Bake, intents: Vec<Intent>, now: Moment) -> Result<Vec<Event>, Refusal> {
    let (mut after, mut all) = (bake.clone(), Vec::new());
    for intent in intents {
        let events = events(&after, intent, now)?;
        let at = now.max(after.state().newest);
        after.append(events.iter().cloned().map(|event| Entry { at, event }));
        all.extend(events);
    }
    Ok(all)
}

/// A dough or filling that stands somewhere else; nothing where it stands there already.
fn moved(state: &State, step: StepId, place: Place) -> Result<Vec<Event>, Refusal> {
    let step = open(state, step)?;
    let known = state.place_of(step).ok_or(Refusal::Unknown)?;
    if let Place::Warm(at) | Place::Water(at) = place {
        let (coldest, warmest) = (COLDEST_PLACE.get(), WARMEST_PLACE.get());
        within(at.get(), "temperature there", "°C", coldest, warmest)?;
    }
    let whole_only = matches!(place, Place::Water(_));
    if whole_only && !state.held_of(step).is_some_and(Held::is_whole) {
        return Err(Refusal::Unknown);
    }
    let event = Event::Moved { step, place };
    Ok((known != place).then_some(event).into_iter().collect())
}

/// A dough or filling that is in something else; nothing where it is in that already.
fn poured(state: &State, step: StepId, held: Held) -> Result<Vec<Event>, Refusal> {
    let step = open(state, step)?;
    let known = state.held_of(step).filter(|known| known.is_whole());
    let known = known.filter(|_| held.is_whole()).ok_or(Refusal::Unknown)?;
    let event = Event::Poured { step, held };
    Ok((known != held).then_some(event).into_iter().collect())
}

pub(super) fn known(state: &State, step: StepId) -> Result<StepId, Refusal> {
    state
        .formula
        .step(step)
        .map(|step| step.id)
        .ok_or(Refusal::Unknown)
}

pub(super) fn open(state: &State, step: StepId) -> Result<StepId, Refusal> {
    let step = known(state, step)?;
    if state.progress(step).ended.is_some() {
        Err(Refusal::Already(step))
    } else if state.is_open(step) {
        Ok(step)
    } else {
        Err(Refusal::NotOpen(step))
    }
}

/// A step whose dough still has a fold to come.
fn to_fold(state: &State, step: StepId) -> Result<StepId, Refusal> {
    let step = open(state, step)?;
    let length = state.formula.step(step).map(|step| &step.length);
    let dealt_with = state.progress(step).folds.len();
    match length {
        Some(Length::Ferment { folds, .. }) if folds.len() > dealt_with => Ok(step),
        _ => Err(Refusal::Unknown),
    }
}

/// How long it is from an entry's own moment until what is due then, which is what "so much longer"
/// is added to.
fn still_to_come(
    state: &State,
    now: Moment,
    due: impl FnOnce(Moment) -> Option<Moment>,
) -> Minutes {
    // Later than now, should the clock have been set back.
    let now = now.max(state.newest);
    due(now).map_or(minutes(0.0), |due| (due - now).max(minutes(0.0)))
}

/// Opens a step again, with every ended step that followed it, however indirectly, of those that are `meant`.
fn go_back(
    state: &State,
    step: StepId,
    meant: &dyn Fn(&Step) -> bool,
) -> Result<Vec<Event>, Refusal> {
    let step = known(state, step)?;
    if state.progress(step).ended.is_none() {
        return Err(Refusal::Already(step));
    }
    let mut reopened = vec![step];
    loop {
        let follows = |id: StepId| {
            let step = state.formula.step(id);
            let follows = |step: &Step| step.after.iter().any(|link| reopened.contains(&link.step));
            step.is_some_and(|step| meant(step) && follows(step))
        };
        let next = state.formula.steps.iter().map(|step| step.id).find(|&id| {
            !reopened.contains(&id) && state.progress(id).ended.is_some() && follows(id)
        });
        match next {
            Some(id) => reopened.push(id),
            None => break,
        }
    }
    // The last to have ended opens first, so that each finds what it follows still ended.
    reopened.reverse();
    let mut events: Vec<Event> = reopened
        .into_iter()
        .map(|step| Event::Reopened { step })
        .collect();
    events.push(Event::Picked { step });
    Ok(events)
}

fn mark_next(state: &State, step: StepId) -> Result<Vec<Event>, Refusal> {
    let step = open(state, step)?;
    let Some(mark) = next_mark(state, step) else {
        return Ok(vec![Event::Done { step }]);
    };
    Ok(vec![Event::Marked {
        step,
        mark,
        on: true,
    }])
}
