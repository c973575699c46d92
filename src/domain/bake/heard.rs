//! What is said to a bake over whatever page is open: that an alarm was heard, and that the clock was set.
//! An app that has only its first half asks for these by name; [`super::decide`] would bring in everything
//! that anybody can ask for.

use super::Bake;
use super::event::{AlarmId, Entry, Event};
use super::intent::Refusal;
use super::state::State;
use super::timers;
use crate::formula::Step;
use crate::units::{Minutes, Moment, minutes};

/// What it comes to that an alarm was heard; nothing where it doesn't ring.
///
/// # Errors
/// [`Refusal::Over`] where the bake has ended.
pub fn heard(bake: &Bake, alarm: AlarmId, now: Moment) -> Result<Vec<Entry>, Refusal> {
    let events = hear(bake.state(), alarm, now)?;
    Ok(entries(bake, events, minutes(0.0), now))
}

/// What it comes to that the phone's clock was set, by so much, and no time passed.
///
/// # Errors
/// [`Refusal::Over`] where the bake has ended.
pub fn clock_was_set(bake: &Bake, by: Minutes, now: Moment) -> Result<Vec<Entry>, Refusal> {
    let events = set_clock(bake.state(), by)?;
    Ok(entries(bake, events, by, now))
}

pub(super) fn hear(state: &State, alarm: AlarmId, now: Moment) -> Result<Vec<Event>, Refusal> {
    goes_on(state)?;
    let ringing = timers::due(state, now);
    // When hands are to begin something only the plan knows, so the one who was called is believed.
    let to_begin = match alarm {
        AlarmId::Begin => true,
        AlarmId::Waits { step } => state.is_open(step),
        // And when a dough comes out of its night in the fridge.
        AlarmId::Check { step, .. } => {
            let cold = state.formula.step(step).and_then(Step::retards_for);
            cold.is_some() && state.is_open(step)
        }
        _ => false,
    };
    if !to_begin && !ringing.iter().any(|ringing| ringing.id == alarm) {
        return Ok(Vec::new());
    }
    let mut events = vec![Event::Acknowledged { alarm }];
    if let AlarmId::Timer(timer) = alarm {
        events.push(Event::TimerStopped { timer });
    }
    Ok(events)
}

impl State {
    /// When an alarm was last heard, if that was at a moment or later.
    pub(super) fn heard_since(&self, alarm: AlarmId, at: Moment) -> Option<Moment> {
        let heard = self.acknowledged.get(&alarm).copied();
        heard.filter(|&heard| heard >= at)
    }
}

pub(super) fn set_clock(state: &State, by: Minutes) -> Result<Vec<Event>, Refusal> {
    goes_on(state)?;
    Ok(vec![Event::ClockSet { by }])
}

pub(super) fn goes_on(state: &State) -> Result<(), Refusal> {
    if state.is_over() {
        return Err(Refusal::Over);
    }
    Ok(())
}

/// The moment of one press that asks something of several bakes: their logs' entries share it, and nothing else that
/// was ever said of any of them has it. So it is a mark, and what was asked together is taken back together, however
/// long storing it took.
#[must_use]
pub fn moment_of_press(bakes: &[&Bake], now: Moment) -> Moment {
    let mut at = now;
    loop {
        let own = |at, bake: &&Bake| own_moment(bake, minutes(0.0), at);
        let next = bakes.iter().fold(at, own);
        if next == at {
            return at;
        }
        at = next;
    }
}

/// Events at a moment of their own, where all that happened before moves along with the clock by so much.
pub(super) fn entries(bake: &Bake, events: Vec<Event>, moved: Minutes, now: Moment) -> Vec<Entry> {
    let at = own_moment(bake, moved, now);
    events
        .into_iter()
        .map(|event| Entry { at, event })
        .collect()
}

/// The next moment from one on at which nothing has happened yet.
fn own_moment(bake: &Bake, moved: Minutes, now: Moment) -> Moment {
    let newest = bake.state().newest + moved;
    // A phone's clock can be set back; the log's order is what counts, so time never runs backwards in it.
    // No two intents share a moment, so that one can be taken back without the other.
    let next = Moment::from_epoch_ms(newest.epoch_ms().saturating_add(1));
    let mut at = now.max(next);
    // A clock that was set back comes by the same moments once more.
    while bake.log().iter().any(|entry| entry.at == at) {
        at = Moment::from_epoch_ms(at.epoch_ms().saturating_add(1));
    }
    at
}
