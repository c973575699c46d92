//! What was said in one go, and when somebody was called for it.

use super::moments;
use crate::bake::Bake;
use crate::bake::clock;
use crate::bake::event::{AlarmId, Event};
use crate::bake::state::State;
use crate::bake::timers::alarms;
use crate::bake::undo::undone;
use crate::formula::StepId;
use crate::kitchen::Place;
use crate::units::{Minutes, Moment, minutes};

/// What was said within this time was said in one go. ASSUMPTION: judgement; a wash is marked bun by bun meanwhile.
const IN_ONE_GO: Minutes = minutes(5.0);
/// So long after a call somebody who presses may have been at it before. ASSUMPTION: judgement.
const LATE: Minutes = minutes(5.0);

/// What was said in one go up to an entry and that it follows from, oldest first, the entry itself last.
pub(super) struct OneGo {
    pub(super) places: Vec<u32>,
    /// The steps that it is about.
    pub(super) steps: Vec<StepId>,
    /// The place of the first thing that was said or heard in that go.
    first: u32,
    pub(super) said: Vec<Moment>,
    pub(super) moments: Vec<Moment>,
}

impl OneGo {
    pub(super) fn of(bake: &Bake, place: u32) -> Option<Self> {
        let (log, formula) = (bake.log(), &bake.state().formula);
        let undone = undone(log);
        let entry = log.get(place as usize)?;
        if undone.contains(&place) || !entry.event.can_be_earlier() {
            return None;
        }
        let said = clock::moments(log, &undone);
        let mut go = Self {
            places: vec![place],
            steps: Vec::new(),
            first: place,
            moments: moments(log, &undone),
            said,
        };
        match &entry.event {
            Event::DoughMeasured { component, .. } => {
                let steps = formula.steps.iter();
                let open = steps
                    .filter(|step| step.component == *component && bake.state().is_open(step.id));
                go.steps.extend(open.map(|step| step.id));
            }
            event => go.steps.extend(event.step()),
        }
        for (before, entry) in (0..place).zip(log).rev() {
            let at = go.said[before as usize];
            if undone.contains(&before) || go.said[place as usize] - at > IN_ONE_GO {
                continue;
            }
            go.first = before;
            let of = |id: &StepId| formula.step(*id);
            let is_part = match &entry.event {
                Event::DoughMeasured { component, .. } => {
                    let mut steps = go.steps.iter().filter_map(of);
                    steps.any(|step| step.component == *component)
                }
                event if event.can_be_earlier() => event.step().is_some_and(|step| {
                    let mut steps = go.steps.iter().filter_map(of);
                    go.steps.contains(&step)
                        || steps.any(|later| later.after.iter().any(|link| link.step == step))
                }),
                _ => false,
            };
            if is_part {
                go.places.push(before);
                go.steps.extend(entry.event.step());
            }
        }
        go.places.reverse();
        Some(go)
    }

    /// When the baker was last called for any of it before that go: when the call was heard, or else when it came.
    pub(super) fn called(&self, bake: &Bake) -> Option<Moment> {
        let before = State::fold_to(bake.log(), self.first)?;
        let newest = *self.places.last()? as usize;
        let pressed = self.said[newest];
        // Who puts a dough into the fridge wasn't called for that by what asks whether it has risen.
        let goes_in = matches!(
            bake.log()[newest].event,
            Event::Moved {
                place: Place::Fridge,
                ..
            }
        );
        let is_for_it = |alarm: &AlarmId| goes_in == matches!(alarm, AlarmId::Retard { .. });
        let heard = before.acknowledged.iter().filter(|(alarm, at)| {
            let step = alarm.step().filter(|step| self.steps.contains(step));
            let step = step.filter(|_| is_for_it(alarm));
            let opened = step.and_then(|step| before.progress(step).open_since);
            opened.is_some_and(|opened| **at >= opened)
        });
        let heard = heard.map(|(_, &at)| at).max();
        let due = alarms(&before, pressed).into_iter();
        let due = due.filter(|alarm| alarm.step.is_some_and(|step| self.steps.contains(&step)));
        let due = due.filter(|alarm| is_for_it(&alarm.id));
        let due = due.map(|alarm| alarm.due);
        due.chain(heard)
            .filter(|&called| pressed - called >= LATE)
            .max()
    }
}
