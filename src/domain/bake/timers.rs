//! Alarms: moments at which the baker has to be told something.
//!
//! An alarm is a due moment that follows from the state, never a countdown.
//! Whoever holds the clock asks again; a phone that slept finds out on waking
//! what is overdue and by how much.

use super::absence::calls;
use super::event::AlarmId;
use super::forecast::Forecast;
use super::state::State;
use crate::formula::{Length, Step, StepId, StepKind};
use crate::sorted;
use crate::thermal::cooling::COLD;
use crate::units::{Minutes, Moment, minutes};

/// How long before the limit the baker is told: enough to find room in the fridge.
pub(super) const PERISHABLE_WARNING: Minutes = minutes(15.0);

/// How long after its time what bakes or has baked is called for, again and again until it is out.
/// ASSUMPTION: judgement; the starters' crusts bear five minutes.
const OUT_WITHIN: Minutes = minutes(3.0);

/// Whoever says less than this ahead when something is to begin is there, and needs no call.
pub const CALLED: Minutes = minutes(1.0);

/// What an alarm is about.
#[derive(Debug, Clone, PartialEq)]
pub enum AlarmKind {
    /// Look whether this step has ended.
    Check,
    /// Fold the dough of this step.
    Fold,
    /// Turn the oven on: it takes as long to heat as the window is away.
    OvenOn,
    /// The filling should be below 21 °C by now.
    CoolingStage,
    /// It should be below 5 °C by now, so long after it was set to cool.
    CoolingEnd(Minutes),
    /// Food that spoils has stood out almost too long.
    Perishable,
    /// A timer the baker set, with its name.
    Timer(String),
    /// Begin: whatever the plan begins with.
    Begin,
    /// Begin this step, which the baker fixed to this moment.
    Fixed,
    /// Put the dough of this step into the fridge, as it was planned.
    Retard,
    /// Take out what has baked.
    TakeOut,
    /// Begin this step, for which dough or a filling waits, and after this moment doesn't wait well.
    Waits(Moment),
}

/// A moment at which the baker has to be told something.
#[derive(Debug, Clone, PartialEq)]
pub struct Alarm {
    /// Which alarm, to acknowledge it by.
    pub id: AlarmId,
    /// When it rings.
    pub due: Moment,
    /// What it is about.
    pub kind: AlarmKind,
    /// The step it belongs to.
    pub step: Option<StepId>,
}

impl Alarm {
    /// How long it has been due.
    #[must_use]
    pub fn overdue(&self, now: Moment) -> Minutes {
        now - self.due
    }

    /// Since when what it is about is due, beside what goes on in its bread: it may have been held until somebody was back,
    /// or call a second time, and every page tells one moment.
    #[must_use]
    pub fn since(&self, running: &[Forecast]) -> Moment {
        let of = running.iter().find(|of| Some(of.step) == self.step);
        let since = match self.kind {
            AlarmKind::Check => of.map(|of| of.look),
            AlarmKind::Fold => of.and_then(|of| of.folds.first().copied()),
            _ => None,
        };
        since.unwrap_or(self.due)
    }
}

/// Every alarm that has not been heard yet, soonest first, due or still to come.
#[must_use]
pub fn alarms(state: &State, now: Moment) -> Vec<Alarm> {
    if state.is_over() {
        return Vec::new();
    }
    let steps = state.formula.steps.iter();
    let mut found: Vec<Alarm> = steps
        .flat_map(|step| alarms_of(state, step, now))
        .chain(state.standing_at(now).into_iter().map(|standing| {
            let id = AlarmId::Perishable {
                step: standing.step,
            };
            let limit = standing.since + state.perishable_limit_since(standing.since);
            Alarm {
                id,
                due: again_at(state, id, limit - PERISHABLE_WARNING, limit),
                kind: AlarmKind::Perishable,
                step: Some(standing.step),
            }
        }))
        .chain(state.timers.iter().map(|(&id, timer)| Alarm {
            id: AlarmId::Timer(id),
            due: timer.due,
            kind: AlarmKind::Timer(timer.name.clone()),
            step: None,
        }))
        .chain(fixed_alarms(state))
        .chain(out_alarm(state))
        .filter(|alarm| !was_heard(state, alarm))
        .filter_map(|alarm| calls(state, alarm))
        .collect();
    sorted::by_key(&mut found, |alarm| alarm.due);
    found
}

/// The alarm for what the plan lets begin at a moment, or go on as somebody comes back; nothing where that has begun or
/// the alarm was heard.
#[must_use]
pub fn begin_alarm(state: &State, at: Moment) -> Option<Alarm> {
    let alarm = Alarm {
        id: AlarmId::Begin,
        due: at,
        kind: AlarmKind::Begin,
        step: None,
    };
    let waits = state.can_wait() || state.is_back_at(at);
    // A step that was fixed to that moment calls by its own name, and once is enough.
    let is_fixed = |&pin: &Moment| (pin - at).get().abs() < CALLED.get();
    if !waits || was_heard(state, &alarm) || state.pins.values().any(is_fixed) {
        return None;
    }
    calls(state, alarm)
}

/// The alarm for a step for which dough or a filling waits, and best no longer than until a moment; nothing where it was
/// begun, or was heard while it waited: whoever heard it knows.
#[must_use]
pub fn waiting_alarm(state: &State, step: StepId, by: Moment, due: Moment) -> Option<Alarm> {
    let alarm = Alarm {
        id: AlarmId::Waits { step },
        due,
        kind: AlarmKind::Waits(by),
        step: Some(step),
    };
    let opened = state.progress(step).open_since?;
    let heard = state.acknowledged.get(&alarm.id);
    let was_heard = heard.is_some_and(|&heard| heard >= opened);
    let begun = state.is_begun(state.formula.step(step)?);
    if was_heard || begun || state.is_over() {
        return None;
    }
    calls(state, alarm)
}

/// Steps that the baker fixed to a moment call then, unless they were begun.
fn fixed_alarms(state: &State) -> impl Iterator<Item = Alarm> {
    state.pins.iter().filter_map(|(&step, &due)| {
        let begun = state.is_begun(state.formula.step(step)?);
        (!begun).then_some(Alarm {
            id: AlarmId::Fixed { step },
            due,
            kind: AlarmKind::Fixed,
            step: Some(step),
        })
    })
}

/// What has baked burns in a hot oven, and can catch fire: whoever heard that and left it there is called again.
fn out_alarm(state: &State) -> Option<Alarm> {
    let step = state.to_take_out()?;
    let (id, since) = (AlarmId::Waits { step }, state.progress(step).open_since?);
    let heard = state.acknowledged.get(&id);
    let last = heard.map_or(since, |&heard| heard.max(since));
    Some(Alarm {
        id,
        due: last + OUT_WITHIN,
        kind: AlarmKind::TakeOut,
        step: Some(step),
    })
}

/// The alarms that should be ringing.
#[must_use]
pub fn due(state: &State, now: Moment) -> Vec<Alarm> {
    let mut found = alarms(state, now);
    found.retain(|alarm| alarm.due <= now);
    found
}

/// What has risen past its window calls so often. ASSUMPTION: judgement.
const RISEN_AGAIN: Minutes = minutes(30.0);
/// For so long. ASSUMPTION: judgement.
const RISEN_FOR: Minutes = minutes(240.0);

/// What burns, spoils or rises too far calls once more: whoever heard it at `first` may have been kept from it.
fn again_at(state: &State, id: AlarmId, first: Moment, again: Moment) -> Moment {
    state
        .heard_since(id, first)
        .map_or(first, |_| again.max(first))
}

/// An alarm was heard if that was at its moment or later. When the moment has
/// moved to later since, as in a kitchen grown colder, it rings again.
fn was_heard(state: &State, alarm: &Alarm) -> bool {
    state.heard_since(alarm.id, alarm.due).is_some()
}

fn alarms_of(state: &State, step: &Step, now: Moment) -> Vec<Alarm> {
    let mut found = Vec::new();
    let mut add = |id, due, kind| {
        found.push(Alarm {
            id,
            due,
            kind,
            step: Some(step.id),
        });
    };
    let progress = state.progress(step.id);
    if let Some(forecast) = state.forecast(step.id, now) {
        let round = progress.rounds;
        let id = AlarmId::Check {
            step: step.id,
            round,
        };
        // Whoever has just read off that it is there needs no call.
        if !state.is_read_off(&forecast) {
            // What rises past its window loses what holds it up, and somebody may have been called only once they were back.
            let rises = matches!(step.length, Length::Ferment { .. }) && forecast.out_by.is_none();
            let look = if step.kind == StepKind::Bake {
                let call = again_at(state, id, forecast.look, forecast.window.high());
                // Whoever heard both and left it there has it burning by and by.
                state
                    .heard_since(id, call)
                    .map_or(call, |heard| heard + OUT_WITHIN)
            } else if rises {
                let call = again_at(state, id, forecast.look, forecast.window.high());
                // Whoever heard both is told again for some hours that it has risen too far: what was forgotten then is lost.
                let heard = state.heard_since(id, call);
                let again = heard.map_or(call, |heard| heard + RISEN_AGAIN);
                if again - call <= RISEN_FOR {
                    again
                } else {
                    call
                }
            } else {
                forecast.look
            };
            add(id, look, AlarmKind::Check);
        }
        if let Some(&next_fold) = forecast.folds.first() {
            let fold = u16::try_from(progress.folds.len()).unwrap_or(u16::MAX);
            let id = AlarmId::Fold {
                step: step.id,
                fold,
            };
            add(id, next_fold, AlarmKind::Fold);
        }
        for (cold, within) in state.unproven_stages(step) {
            let step = step.id;
            let (id, kind) = if cold == COLD {
                (AlarmId::CoolingEnd { step }, AlarmKind::CoolingEnd(within))
            } else {
                (AlarmId::CoolingStage { step }, AlarmKind::CoolingStage)
            };
            add(id, forecast.start + within, kind);
        }
    }
    if let Some((due, _)) = state.goes_in(step.id).filter(|&(_, to)| now < to) {
        let step = step.id;
        let id = AlarmId::Retard { step };
        add(id, state.put_in_at(id, due), AlarmKind::Retard);
    }
    if let Some(due) = state.oven_on_at(step, now) {
        add(AlarmId::OvenOn { step: step.id }, due, AlarmKind::OvenOn);
    }
    found
}

impl State {
    /// When to turn the oven on, so that it is hot as the window of what it has
    /// to be early for opens; now or in the past when that is already too late, and later after "not yet".
    #[must_use]
    pub fn oven_on_at(&self, step: &Step, now: Moment) -> Option<Moment> {
        let ahead_of = step.ahead_of?;
        if !self.is_open(step.id) {
            return None;
        }
        let due = match self.forecast(ahead_of, now) {
            Some(forecast) => {
                let window = &forecast.window;
                let early = window.likely() - window.low();
                let hot_by = window.likely() - self.hot_before(ahead_of, forecast.start, early);
                let due = hot_by - self.kitchen.oven_heats_in;
                // A dough comes out of the fridge first, for it rises meanwhile.
                forecast.out_by.map_or(due, |out| due.max(out))
            }
            // What it has to be early for has ended sooner than anybody knew, and nobody is late since before that.
            None => self.progress(ahead_of).ended?.at,
        };
        let later = self.progress(step.id).look_again;
        Some(later.map_or(due, |later| due.max(later)))
    }
}
