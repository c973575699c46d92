//! That something was done earlier than it was said: hands are floury, and the press comes late.
//!
//! [`Event::Since`] names the entry that it corrects and tells how much earlier than that was said it happened. The log
//! is folded by the moments that come of it, so clocks, forecasts, alarms, limits and the plan all follow. It is told
//! as a length and no moment, so that it moves along with a clock that was set and with a log that was joined.
//!
//! Whoever comes late presses several things in one go: the rise has ended, the wash is on, the buns are in. What the
//! last of them follows had happened by then, so it is told to be as early. What was said before that go binds.

mod one_go;

use super::Bake;
use super::clock;
use super::event::{Entry, Event};
use super::intent::Refusal;
use super::state::State;
use super::undo::undone;
use crate::formula::StepId;
use crate::sorted::Set;
use crate::units::Moment;
use one_go::OneGo;

impl Event {
    /// Whether somebody can have done it before saying so, and everything follows from when it was.
    pub(super) const fn can_be_earlier(&self) -> bool {
        matches!(
            self,
            Self::Done { .. }
                | Self::Skipped { .. }
                | Self::Folded { .. }
                | Self::FoldSkipped { .. }
                | Self::Moved { .. }
                | Self::Poured { .. }
                | Self::DoughMeasured { .. }
                | Self::CoreMeasured { .. }
        )
    }

    /// Whether something was left out by it, which nobody asks to have been sooner.
    pub(super) const fn leaves_out(&self) -> bool {
        matches!(self, Self::Skipped { .. } | Self::FoldSkipped { .. })
    }
}

/// The moment at which every entry happened, by the newest clock and by what was said of it afterwards.
pub(super) fn moments(log: &[Entry], undone: &Set<u32>) -> Vec<Moment> {
    let said = clock::moments(log, undone);
    let mut moments = said.clone();
    for (place, entry) in (0_u32..).zip(log) {
        if undone.contains(&place) {
            continue;
        }
        match entry.event {
            Event::Since { entry: of, by } if of < place && by.get() >= 0.0 => {
                let of = of as usize;
                if log[of].event.can_be_earlier() {
                    moments[of] = said[of] - by;
                }
            }
            // A bake that is over stays as it was.
            Event::Finished | Event::Abandoned => break,
            _ => {}
        }
    }
    moments
}

/// Something that was said, of which it can be told that it was earlier.
#[derive(Debug, Clone, PartialEq)]
pub struct Pressed {
    /// Its place in the log, from 0.
    pub place: u32,
    /// What it was.
    pub event: Event,
    /// The step it was said at, if it was one's.
    pub step: Option<StepId>,
    /// When it happened, as it counts now.
    pub at: Moment,
    /// When it was called for, where that was well before it was said.
    pub called: Option<Moment>,
}

impl Bake {
    /// The newest thing that was said, where that can have been done earlier. A heard alarm is nothing that was said.
    #[must_use]
    pub fn newest_press(&self) -> Option<u32> {
        let heard = |entry: &Entry| matches!(entry.event, Event::Acknowledged { .. });
        let newest = self.log().iter().rposition(|entry| !heard(entry))?;
        let event = &self.log()[newest].event;
        let newest = u32::try_from(newest).ok();
        newest.filter(|_| event.can_be_earlier() && !event.leaves_out())
    }

    /// What began the clock of a step that goes on, and what was last said of it since.
    #[must_use]
    pub fn presses_of(&self, step: StepId) -> Vec<u32> {
        let state = self.state();
        let since = state.progress(step).open_since;
        let (Some(step), Some(since)) = (state.formula.step(step), since) else {
            return Vec::new();
        };
        let began = |event: &Event| match event {
            Event::Done { step: before } | Event::Skipped { step: before } => {
                let mut links = step.after.iter().filter(|link| link.step == *before);
                let ended = state.progress(*before).ended;
                links.any(|link| ended.is_some_and(|ended| ended.at + link.least == since))
            }
            _ => false,
        };
        let told = |event: &Event| match event {
            Event::Folded { step: of }
            | Event::Moved { step: of, .. }
            | Event::Poured { step: of, .. }
            | Event::CoreMeasured { step: of, .. } => *of == step.id,
            Event::DoughMeasured { component, .. } => *component == step.component,
            _ => false,
        };
        let undone = undone(self.log());
        let newest = |is_it: &dyn Fn(&Event) -> bool| {
            let all = (0_u32..).zip(self.log());
            let found = all.filter(|(place, entry)| !undone.contains(place) && is_it(&entry.event));
            found.last().map(|(place, _)| place)
        };
        let began = newest(&began);
        let told = newest(&told).filter(|&told| began.is_none_or(|began| told > began));
        began.into_iter().chain(told).collect()
    }

    /// What stands at a place of the log, if it can have been earlier.
    #[must_use]
    pub fn pressed(&self, place: u32) -> Option<Pressed> {
        let of = OneGo::of(self, place)?;
        let event = self.log()[place as usize].event.clone();
        let called = of
            .called(self)
            .filter(|&called| since(self, place, called).is_ok());
        Some(Pressed {
            place,
            step: of.steps.first().copied(),
            event,
            at: of.moments[place as usize],
            called,
        })
    }
}

impl State {
    /// The earliest moment at which something can have happened that comes next in the log: nothing happens before
    /// what it follows, and nothing ends before what was last said of it.
    fn earliest(&self, event: &Event) -> Moment {
        if let Event::DoughMeasured { component, .. } = event {
            let steps = self.formula.steps.iter();
            let steps = steps.filter(|step| step.component == *component);
            let ended = steps.filter_map(|step| self.progress(step.id).ended);
            return ended.map(|ended| ended.at).fold(self.started, Moment::max);
        }
        let Some(step) = event.step().and_then(|step| self.formula.step(step)) else {
            return self.started;
        };
        let progress = self.progress(step.id);
        let opened = progress.open_since.unwrap_or(self.started);
        let folded = progress.folds.last().map(|fold| fold.at);
        let moved = self.moves_of(step).last().map(|seen| seen.at);
        let poured = self.poured(step).last().map(|seen| seen.at);
        let last = match event {
            Event::Moved { .. } => moved,
            Event::Poured { .. } => poured,
            Event::Folded { .. } | Event::FoldSkipped { .. } => folded,
            Event::CoreMeasured { .. } => None,
            _ => {
                let doughs = self.doughs.iter().filter(|read| read.of == step.component);
                let cores = self.cores.iter().filter(|read| read.of == step.id);
                let looks = self.looks.iter().filter(|look| look.of == step.id);
                let read = doughs.map(|read| read.at).chain(cores.map(|read| read.at));
                let read = read.chain(looks.map(|look| look.at));
                read.chain(folded).chain(moved).chain(poured).max()
            }
        };
        last.map_or(opened, |last| opened.max(last))
    }
}

/// What it comes to that something was at a moment and not when it was said.
///
/// # Errors
/// Where there is no such thing, where it can't have been so early, and where that is after it was said.
pub(super) fn since(bake: &Bake, place: u32, at: Moment) -> Result<Vec<Event>, Refusal> {
    let go = OneGo::of(bake, place).ok_or(Refusal::Unknown)?;
    let said = |place: u32| go.said[place as usize];
    if at > said(place) {
        return Err(Refusal::TooLate(said(place)));
    }
    if at == go.moments[place as usize] {
        return Ok(Vec::new());
    }
    let places = go.places.iter().copied();
    let earlier = places.filter(|&of| of == place || go.moments[of as usize] > at);
    let events: Vec<Event> = earlier
        .map(|entry| Event::Since {
            entry,
            by: said(entry) - at,
        })
        .collect();
    let mut told = bake.log().to_vec();
    let now = bake.state().newest;
    told.extend(events.iter().cloned().map(|event| Entry { at: now, event }));
    for event in &events {
        let Event::Since { entry, .. } = event else {
            continue;
        };
        let before = State::fold_to(&told, *entry).ok_or(Refusal::Unknown)?;
        let earliest = before.earliest(&told[*entry as usize].event);
        if at < earliest {
            return Err(Refusal::TooEarly(earliest));
        }
    }
    Ok(events)
}
