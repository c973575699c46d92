//! Alarms: moments at which the baker has to be told something.
//!
//! An alarm is a due moment that follows from the state, never a countdown.
//! Whoever holds the clock asks again; a phone that slept finds out on waking
//! what is overdue and by how much.

use super::event::AlarmId;
use super::state::{State, Status};
use crate::formula::{Caution, Length, Step, StepId, StepKind};
use crate::units::{Celsius, Minutes, Moment, celsius, minutes};

/// Perishable food may stand out this long (USDA FSIS, the two-hour rule).
pub const PERISHABLE_LIMIT: Minutes = minutes(120.0);
/// In a kitchen warmer than [`HOT_KITCHEN`] it may stand out this long (USDA FSIS).
pub const PERISHABLE_LIMIT_HOT: Minutes = minutes(60.0);
/// 90 °F, above which the shorter limit holds (USDA FSIS).
pub const HOT_KITCHEN: Celsius = celsius(32.2);
/// A cooked filling should be below 21 °C this long after it began to cool from 57 °C
/// (FDA Food Code 3-501.14).
pub const COOLING_FIRST_STAGE: Minutes = minutes(120.0);
/// How long before the limit the baker is told: enough to find room in the fridge.
const PERISHABLE_WARNING: Minutes = minutes(15.0);

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
    /// The bread should be put away.
    Perishable,
    /// A timer the baker set, with its name.
    Timer(String),
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
        .chain(state.timers.iter().map(|(&id, timer)| Alarm {
            id: AlarmId::Timer(id),
            due: timer.due,
            kind: AlarmKind::Timer(timer.name.clone()),
            step: None,
        }))
        .filter(|alarm| !was_heard(state, alarm))
        .filter(|alarm| rings_now(state, alarm))
        .collect();
    found.sort_by_key(|alarm| alarm.due);
    found
}

/// The alarms that should be ringing.
#[must_use]
pub fn due(state: &State, now: Moment) -> Vec<Alarm> {
    let mut found = alarms(state, now);
    found.retain(|alarm| alarm.due <= now);
    found
}

/// The next moment at which something is due that isn't yet.
#[must_use]
pub fn next_moment(state: &State, now: Moment) -> Option<Moment> {
    alarms(state, now)
        .into_iter()
        .map(|alarm| alarm.due)
        .find(|&due| due > now)
}

/// An alarm was heard if that was at its moment or later. When the moment has
/// moved to later since, as in a kitchen grown colder, it rings again.
fn was_heard(state: &State, alarm: &Alarm) -> bool {
    let heard = state.acknowledged.get(&alarm.id);
    heard.is_some_and(|&heard| heard >= alarm.due)
}

/// While the baker is away only what burns, what spoils and what was asked for by hand rings.
fn rings_now(state: &State, alarm: &Alarm) -> bool {
    let away = matches!(state.status, Status::Paused { .. });
    let in_the_oven = alarm
        .step
        .and_then(|step| state.formula.step(step))
        .is_some_and(|step| step.kind == StepKind::Bake);
    let away_or_not = matches!(
        alarm.kind,
        AlarmKind::Timer(_) | AlarmKind::CoolingStage | AlarmKind::Perishable
    );
    !away || in_the_oven || away_or_not
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
        add(id, forecast.look, AlarmKind::Check);
        if let Some(&next_fold) = forecast.folds.first() {
            let fold = u16::try_from(progress.folds.len()).unwrap_or(u16::MAX);
            let id = AlarmId::Fold {
                step: step.id,
                fold,
            };
            add(id, next_fold, AlarmKind::Fold);
        }
        if matches!(step.length, Length::Chill { .. }) {
            let id = AlarmId::CoolingStage { step: step.id };
            add(
                id,
                forecast.start + COOLING_FIRST_STAGE,
                AlarmKind::CoolingStage,
            );
        }
    }
    if let Some(due) = state.oven_on_at(step, now) {
        add(AlarmId::OvenOn { step: step.id }, due, AlarmKind::OvenOn);
    }
    if let Some(limit) = state.perishable_since(step) {
        let warned = limit + state.perishable_limit() - PERISHABLE_WARNING;
        let id = AlarmId::Perishable { step: step.id };
        add(id, warned, AlarmKind::Perishable);
    }
    found
}

impl State {
    /// When to turn the oven on, so that it is hot as the window of what it has
    /// to be early for opens; now or in the past when that is already too late.
    #[must_use]
    pub fn oven_on_at(&self, step: &Step, now: Moment) -> Option<Moment> {
        let ahead_of = step.ahead_of?;
        if !self.is_open(step.id) {
            return None;
        }
        let opens = match self.forecast(ahead_of, now) {
            Some(forecast) => forecast.window.low(),
            // What it has to be early for has ended already: the oven is late.
            None => self.progress(ahead_of).ended?.at,
        };
        Some(opens - self.kitchen.oven_heats_in)
    }

    /// Since when food that a step puts away has been standing out of oven and fridge.
    #[must_use]
    pub fn perishable_since(&self, step: &Step) -> Option<Moment> {
        let puts_away =
            step.kind == StepKind::Serve && step.cautions.contains(&Caution::Perishable);
        if !puts_away || self.progress(step.id).ended.is_some() {
            return None;
        }
        let mut bakes = self.formula.steps.iter();
        let bake = bakes.find(|step| step.kind == StepKind::Bake)?;
        Some(self.progress(bake.id).ended?.at)
    }

    /// How long perishable food may stand in this kitchen.
    #[must_use]
    pub fn perishable_limit(&self) -> Minutes {
        if self.kitchen.air > HOT_KITCHEN {
            PERISHABLE_LIMIT_HOT
        } else {
            PERISHABLE_LIMIT
        }
    }
}
