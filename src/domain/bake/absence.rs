//! What calls somebody who is away or asleep, and until when all else is held.
//!
//! Whoever said that nobody is there then is called for what burns, for what spoils and for what they asked for
//! themselves: an oven that is on, what stands on the hob, a limit of the rule for food that spoils, a timer. All else
//! stands on the screen without a sound, and calls as they come back. When a pause ends nobody knows, so
//! what it holds is silent until the baker goes on.

use super::progress::Status;
use super::state::State;
use super::timers::{Alarm, AlarmKind};
use crate::formula::{Caution, Step};
use crate::units::Moment;

impl State {
    /// Whether a time away ends at a moment: what calls then may have been held until somebody is back.
    #[must_use]
    pub fn is_back_at(&self, at: Moment) -> bool {
        self.wishes.away.iter().any(|&(_, to)| to == at)
    }

    /// When somebody is there who can be called at a moment: then, also as they are about to leave, or once they are back.
    pub(super) fn back_by(&self, mut at: Moment) -> Moment {
        // One time away can end in the midst of another.
        let is_away = |at: Moment| move |&&(from, to): &&(Moment, Moment)| from < at && at < to;
        while let Some(&(_, to)) = self.wishes.away.iter().find(is_away(at)) {
            at = to;
        }
        at
    }
}

/// The alarm at the moment at which it calls; nothing where that can't be known yet.
pub(super) fn calls(state: &State, mut alarm: Alarm) -> Option<Alarm> {
    let back = state.back_by(alarm.due);
    if !calls_anybody(state, &alarm, back) {
        if matches!(state.status, Status::Paused { .. }) {
            return None;
        }
        alarm.due = back;
    }
    Some(alarm)
}

/// Whether it calls even somebody who is only back by then.
fn calls_anybody(state: &State, alarm: &Alarm, back: Moment) -> bool {
    let step = alarm.step.and_then(|step| state.formula.step(step));
    match (&alarm.kind, step) {
        (
            AlarmKind::Timer(_)
            | AlarmKind::CoolingStage
            | AlarmKind::CoolingEnd(_)
            | AlarmKind::Perishable
            | AlarmKind::TakeOut,
            _,
        ) => true,
        _ if state.has_oven_on() => true,
        (AlarmKind::Check, Some(step)) => {
            let since = state.progress(step.id).open_since;
            step.needs.oven || state.spoils(step, since, (alarm.due, back))
        }
        (AlarmKind::Waits(_), Some(step)) => {
            let spoils = |caution| matches!(caution, &Caution::CoolQuickly | &Caution::Perishable);
            step.needs.oven || step.needs.hob || step.cautions.iter().any(spoils)
        }
        _ => false,
    }
}

impl State {
    /// When somebody is called for a step that a plan has go on from one moment to another: as it ends, also while nobody
    /// is there, for what is in an oven or while one `is_on`, and for what has to be cold before somebody is back; all else
    /// once they are.
    pub(crate) fn called_at(
        &self,
        step: &Step,
        (start, end): (Moment, Moment),
        is_on: bool,
    ) -> Moment {
        let back = self.back_by(end);
        let since = self.progress(step.id).open_since.unwrap_or(start);
        if is_on || step.needs.oven || self.spoils(step, Some(since), (end, back)) {
            end
        } else {
            back
        }
    }

    /// Whether what cools has to be cold between two moments, and nobody has said that it is.
    fn spoils(&self, step: &Step, since: Option<Moment>, (from, to): (Moment, Moment)) -> bool {
        let mut limits = self.unproven_stages(step);
        since.is_some_and(|since| limits.any(|(_, within)| (from..to).contains(&(since + within))))
    }
}
