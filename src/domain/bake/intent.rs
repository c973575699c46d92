//! What a tap or a key asks for, and the events it comes to.
//!
//! Every way of asking becomes the same [`Intent`], so each can do everything.
//! [`decide`] is the only way an event comes about after the start.

use std::fmt;

use super::Bake;
use super::event::{AlarmId, Entry, Event, Mark, TimerId};
use super::state::{State, Status, undone};
use crate::formula::{Checklist, ComponentId, Scope, StepId};
use crate::sorted::Set;
use crate::units::{Celsius, Grams, Minutes, Moment, OutOfRange};

/// What the baker asks for.
#[derive(Debug, Clone, PartialEq)]
pub enum Intent {
    /// "I turn to this."
    Pick(StepId),
    /// "This is done", or "it's ready".
    Done(StepId),
    /// "Not yet: so much longer."
    NotYet(StepId, Minutes),
    /// "I leave this out."
    Skip(StepId),
    /// "Back to this": it and all that followed it are open again.
    GoBack(StepId),
    /// Mark a line, or take the mark away.
    Mark(StepId, Mark, bool),
    /// Mark the next line that isn't marked, and end the step with the last one.
    MarkNext(StepId),
    /// "I folded it."
    Folded(StepId),
    /// "The kitchen has this temperature."
    KitchenIs(Celsius),
    /// "The dough has this temperature."
    DoughIs(ComponentId, Celsius),
    /// "The middle has this temperature."
    CoreIs(StepId, Celsius),
    /// "This piece has this mass."
    PieceWeighs(u16, Grams),
    /// "Tell me in so long."
    SetTimer(String, Minutes),
    /// "Put this timer away."
    StopTimer(TimerId),
    /// "I heard it."
    Hear(AlarmId),
    /// "I'm away for a while."
    Pause,
    /// "I'm back."
    Resume,
    /// "It's on the table."
    Finish,
    /// "I give it up."
    Abandon,
    /// "The phone's clock was set by so much, and that time didn't pass."
    ClockWasSet(Minutes),
    /// "Take the last thing back."
    Undo,
}

/// Why nothing happens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Refusal {
    /// The bake is over.
    Over,
    /// There is no such step, line, piece or timer.
    Unknown,
    /// The step waits for something else to end first.
    NotOpen(StepId),
    /// The step has ended already, or not ended yet, as the case may be.
    Already(StepId),
    /// A number that can't be right.
    Implausible(OutOfRange),
    /// There is nothing to take back.
    NothingToUndo,
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Over => write!(f, "the bake is over"),
            Self::Unknown => write!(f, "there is no such thing in this bake"),
            Self::NotOpen(StepId(step)) => write!(f, "step {step} waits for another to end"),
            Self::Already(StepId(step)) => write!(f, "step {step} is already so"),
            Self::Implausible(out) => write!(f, "{out}"),
            Self::NothingToUndo => write!(f, "there is nothing to take back"),
        }
    }
}

impl std::error::Error for Refusal {}

/// The events an intent comes to.
///
/// # Errors
/// [`Refusal`] when it can't be; then nothing has happened.
pub fn decide(bake: &Bake, intent: Intent, now: Moment) -> Result<Vec<Entry>, Refusal> {
    // What happened before moves along with the clock.
    let moved = match intent {
        Intent::ClockWasSet(by) => by,
        _ => Minutes::clamped(0.0),
    };
    let newest = bake.state().newest + moved;
    let events = events(bake, intent, now)?;
    // A phone's clock can be set back; the log's order is what counts, so time never runs backwards in it.
    // No two intents share a moment, so that one can be taken back without the other.
    let next = Moment::from_epoch_ms(newest.epoch_ms().saturating_add(1));
    let mut at = now.max(next);
    // A clock that was set back comes by the same moments once more.
    while bake.log().iter().any(|entry| entry.at == at) {
        at = Moment::from_epoch_ms(at.epoch_ms().saturating_add(1));
    }
    Ok(events
        .into_iter()
        .map(|event| Entry { at, event })
        .collect())
}

fn events(bake: &Bake, intent: Intent, now: Moment) -> Result<Vec<Event>, Refusal> {
    let state = bake.state();
    if state.is_over() {
        return Err(Refusal::Over);
    }
    let one = |event| Ok(vec![event]);
    match intent {
        Intent::Pick(step) => open(state, step).and_then(|step| one(Event::Picked { step })),
        Intent::Done(step) => open(state, step).and_then(|step| one(Event::Done { step })),
        Intent::NotYet(step, by) => {
            let step = open(state, step)?;
            let by = within(by.get(), "delay", "min", 1.0, 24.0 * 60.0).map(Minutes::clamped)?;
            one(Event::Extended { step, by })
        }
        Intent::Skip(step) => open(state, step).and_then(|step| one(Event::Skipped { step })),
        Intent::GoBack(step) => go_back(state, step),
        Intent::Mark(step, mark, on) => {
            let step = open(state, step)?;
            if !marks_of(state, step).contains(&mark) {
                return Err(Refusal::Unknown);
            }
            one(Event::Marked { step, mark, on })
        }
        Intent::MarkNext(step) => mark_next(state, step),
        Intent::Folded(step) => open(state, step).and_then(|step| one(Event::Folded { step })),
        Intent::KitchenIs(air) => {
            let air = within(air.get(), "kitchen temperature", "°C", -10.0, 50.0)?;
            let air = Celsius::clamped(air);
            one(Event::KitchenMeasured { air })
        }
        Intent::DoughIs(component, temperature) => {
            let known = state.formula.component(component);
            let component = known.ok_or(Refusal::Unknown)?.id;
            let temperature = within(temperature.get(), "dough temperature", "°C", -5.0, 60.0)?;
            let temperature = Celsius::clamped(temperature);
            one(Event::DoughMeasured {
                component,
                temperature,
            })
        }
        Intent::CoreIs(step, temperature) => {
            let step = known(state, step)?;
            let temperature = within(temperature.get(), "core temperature", "°C", -20.0, 130.0)?;
            let temperature = Celsius::clamped(temperature);
            one(Event::CoreMeasured { step, temperature })
        }
        Intent::PieceWeighs(piece, mass) => {
            if piece >= state.formula.pieces.count {
                return Err(Refusal::Unknown);
            }
            let mass = within(mass.get(), "piece", "g", 1.0, 20_000.0).map(Grams::clamped)?;
            one(Event::PieceWeighed { piece, mass })
        }
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
        Intent::Hear(alarm) => hear(state, alarm, now),
        Intent::Pause if state.status == Status::Running => one(Event::Paused),
        Intent::Resume if state.status != Status::Running => one(Event::Resumed),
        Intent::Pause | Intent::Resume => Ok(Vec::new()),
        Intent::Finish => one(Event::Finished),
        Intent::Abandon => one(Event::Abandoned),
        Intent::ClockWasSet(by) => one(Event::ClockSet { by }),
        Intent::Undo => undo(bake),
    }
}

fn known(state: &State, step: StepId) -> Result<StepId, Refusal> {
    state
        .formula
        .step(step)
        .map(|step| step.id)
        .ok_or(Refusal::Unknown)
}

fn open(state: &State, step: StepId) -> Result<StepId, Refusal> {
    let step = known(state, step)?;
    if state.progress(step).ended.is_some() {
        Err(Refusal::Already(step))
    } else if state.is_open(step) {
        Ok(step)
    } else {
        Err(Refusal::NotOpen(step))
    }
}

fn within(
    value: f64,
    label: &'static str,
    unit: &'static str,
    min: f64,
    max: f64,
) -> Result<f64, Refusal> {
    if value >= min && value <= max {
        Ok(value)
    } else {
        Err(Refusal::Implausible(OutOfRange {
            label,
            value,
            min,
            max,
            unit,
        }))
    }
}

/// Opens a step again, with every ended step that followed it, however indirectly.
fn go_back(state: &State, step: StepId) -> Result<Vec<Event>, Refusal> {
    let step = known(state, step)?;
    if state.progress(step).ended.is_none() {
        return Err(Refusal::Already(step));
    }
    let mut reopened = vec![step];
    loop {
        let follows = |id: StepId| {
            let step = state.formula.step(id);
            step.is_some_and(|step| step.after.iter().any(|link| reopened.contains(&link.step)))
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
    let done = &state.progress(step).marks;
    let mut left = marks_of(state, step)
        .into_iter()
        .filter(|mark| !done.contains(mark));
    let Some(mark) = left.next() else {
        return Ok(vec![Event::Done { step }]);
    };
    Ok(vec![Event::Marked {
        step,
        mark,
        on: true,
    }])
}

fn hear(state: &State, alarm: AlarmId, now: Moment) -> Result<Vec<Event>, Refusal> {
    let ringing = super::timers::due(state, now);
    if !ringing.iter().any(|ringing| ringing.id == alarm) {
        return Ok(Vec::new());
    }
    let mut events = vec![Event::Acknowledged { alarm }];
    if let AlarmId::Timer(timer) = alarm {
        events.push(Event::TimerStopped { timer });
    }
    Ok(events)
}

/// Takes back what the newest intent did: all its entries, and no less.
fn undo(bake: &Bake) -> Result<Vec<Event>, Refusal> {
    let taken_back = undone(bake.log());
    // What was heard stays heard, with all that hearing it did.
    let kept: Set<Moment> = bake
        .log()
        .iter()
        .filter(|entry| {
            matches!(
                entry.event,
                Event::Started(_) | Event::Undone { .. } | Event::Acknowledged { .. }
            )
        })
        .map(|entry| entry.at)
        .collect();
    let undoable: Vec<(u32, Moment)> = (0_u32..)
        .zip(bake.log())
        .filter(|(place, entry)| !kept.contains(&entry.at) && !taken_back.contains(place))
        .map(|(place, entry)| (place, entry.at))
        .collect();
    let &(_, newest) = undoable.last().ok_or(Refusal::NothingToUndo)?;
    let entries = undoable
        .into_iter()
        .filter(|&(_, at)| at == newest)
        .map(|(place, _)| place)
        .collect();
    Ok(vec![Event::Undone { entries }])
}

/// Every mark a step asks for, in the order of the work: all of one piece, then the next.
#[must_use]
pub fn marks_of(state: &State, step: StepId) -> Vec<Mark> {
    let Some(step) = state.formula.step(step) else {
        return Vec::new();
    };
    let lines = |count: usize| {
        let count = u16::try_from(count).unwrap_or(u16::MAX);
        (0..count).map(|item| Mark { item, piece: None }).collect()
    };
    let pieces = state.formula.pieces.count;
    match &step.checklist {
        None => Vec::new(),
        Some(Checklist::Ingredients) => {
            let component = state.formula.component_of(step);
            lines(component.map_or(0, |component| component.ingredients.len()))
        }
        Some(Checklist::AllIngredients) => {
            let components = state.formula.components.iter();
            lines(
                components
                    .map(|component| component.ingredients.len())
                    .sum(),
            )
        }
        Some(Checklist::PieceMasses) => (0..pieces)
            .map(|piece| Mark {
                item: 0,
                piece: Some(piece),
            })
            .collect(),
        Some(Checklist::Marks { scope, items }) => match scope {
            Scope::Batch => lines(items.len()),
            Scope::EachPiece => {
                let items = u16::try_from(items.len()).unwrap_or(u16::MAX);
                (0..pieces)
                    .flat_map(|piece| (0..items).map(move |item| (piece, item)))
                    .map(|(piece, item)| Mark {
                        item,
                        piece: Some(piece),
                    })
                    .collect()
            }
        },
    }
}
