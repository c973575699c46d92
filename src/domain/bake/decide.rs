//! The events that an intent comes to. [`decide`] is the only way an event comes
//! about after the start.

mod back;
mod later;

use super::Bake;
use super::event::{Entry, Event, Mark, TimerId};
use super::heard::{entries, goes_on, hear, set_clock};
use super::intent::{Intent, Refusal};
use super::marks::{marks_of, next_mark};
use super::measured::{self, air_of, kitchen_changed, within};
use super::progress::Status;
use super::since::since;
use super::state::State;
use super::stay;
use super::undo::{put_back, undo};
use super::wishes;
use crate::formula::{Held, StepId};
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
        Intent::NotYet(step, by) => later::not_yet(state, step, by, now).and_then(one),
        Intent::Skip(step) => open(state, step).and_then(|step| one(Event::Skipped { step })),
        Intent::GoBack(step) => back::go_back(state, step, &|_| true),
        Intent::MakeAnew(step) => back::make_anew(state, step),
        Intent::Mark(step, mark, on) => set_mark(state, step, mark, on).and_then(one),
        Intent::MarkNext(step) => set_next_mark(state, step).and_then(one),
        Intent::Folded(step) => open(state, step).and_then(|step| one(Event::Folded { step })),
        Intent::FoldNotYet(step, by) => later::fold_not_yet(state, step, by, now).and_then(one),
        Intent::SkipFold(step) => {
            later::to_fold(state, step).and_then(|step| one(Event::FoldSkipped { step }))
        }
        Intent::KitchenIs(air) => air_of(air).and_then(|air| one(Event::KitchenMeasured { air })),
        Intent::KitchenChanged(kitchen) => kitchen_changed(state, *kitchen),
        Intent::KitchenUndone { changed, .. } if state.kitchen != *changed => Ok(Vec::new()),
        Intent::KitchenUndone { back, .. } => back::kitchen(bake, *back),
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
        Intent::SetTimer(name, length) => set_timer(state, name, length).and_then(one),
        Intent::StopTimer(timer) if state.timers.contains_key(&timer) => {
            one(Event::TimerStopped { timer })
        }
        Intent::StopTimer(_) => Err(Refusal::Unknown),
        Intent::Wish(wishes) => wishes::wish(state, *wishes, now),
        Intent::WishUndone { wished_at, away } => back::wish(bake, wished_at, away, now),
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

fn set_mark(state: &State, step: StepId, mark: Mark, on: bool) -> Result<Event, Refusal> {
    let step = open(state, step)?;
    if !marks_of(state, step).contains(&mark) {
        return Err(Refusal::Unknown);
    }
    Ok(Event::Marked { step, mark, on })
}

/// The next mark of a step or, where all are set, its end.
fn set_next_mark(state: &State, step: StepId) -> Result<Event, Refusal> {
    let step = open(state, step)?;
    Ok(match next_mark(state, step) {
        Some(mark) => Event::Marked {
            step,
            mark,
            on: true,
        },
        None => Event::Done { step },
    })
}

fn set_timer(state: &State, name: String, length: Minutes) -> Result<Event, Refusal> {
    let length = within(length.get(), "timer", "min", 0.25, 48.0 * 60.0)?;
    Ok(Event::TimerSet {
        timer: TimerId(state.timers_set),
        name,
        length: Minutes::clamped(length),
    })
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
