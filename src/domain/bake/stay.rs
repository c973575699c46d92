//! A cold retard that is planned of a rise, still to come or going on, and the stay in the fridge that it consists of.
//!
//! What is planned counts as if it were done at its moments, so every forecast reckons with it. From the moment at which
//! the dough should have gone in it stands where it is until somebody says that it is in there
//! ([`State::as_it_stands`]). A plan doesn't wait for that: as with other work that is late, what should have been done
//! by now is done now ([`State::unmoved_by`]). In the fridge it comes out at the planned moment
//! instead of after a day ([`LONGEST_IN_FRIDGE`](super::LONGEST_IN_FRIDGE)). Taking it out ends the plan, and so does the
//! end of the step.

use super::event::{AlarmId, Event};
use super::intent::Refusal;
use super::state::State;
use super::wishes::ahead;
use crate::formula::{Length, Step, StepId, StepKind};
use crate::kitchen::Place;
use crate::units::{Minutes, Moment, minutes};

/// A dough that is to go into the fridge is called for so often, by whoever stops the call. ASSUMPTION: judgement.
const PUT_IN_AGAIN: Minutes = minutes(10.0);
/// For so long. ASSUMPTION: judgement.
const PUT_IN_FOR: Minutes = minutes(60.0);

/// From when to when a retard that is planned has its dough in the fridge; where a dough stands by what was said is its
/// [`Place`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stay {
    /// When it goes in.
    pub from: Moment,
    /// When it comes out.
    pub to: Moment,
    /// Whether it is in there.
    pub is_in: bool,
}

impl State {
    /// The time in the fridge that a rise is planned to have, if it begins at `start`, or began then; none where
    /// nothing is planned or the time has passed before the dough could go in.
    #[must_use]
    pub fn stay(&self, step: StepId, start: Moment) -> Option<Stay> {
        let &(from, to) = self.retards.get(&step)?;
        if let Some((from, out)) = self.in_fridge(step) {
            // Whoever has said something since would have said that it is out.
            let to = out.max(self.newest);
            return Some(Stay {
                from,
                to,
                is_in: true,
            });
        }
        let from = from.max(start);
        // Here likewise, that it is in there.
        let from = if self.is_open(step) {
            from.max(self.newest)
        } else {
            from
        };
        let is_in = false;
        (from < to).then_some(Stay { from, to, is_in })
    }

    /// When a step that starts then ends, if it is ready at `ready`: a rise not in the fridge, where nobody ends it. What is
    /// ripe there, or was when it was put in, stays until it comes out, as it did or as it is planned, for once it is cold it
    /// hardly goes on. Never reverses the order of two moments.
    pub(super) fn ends_outside(&self, step: &Step, start: Moment) -> impl Fn(Moment) -> Moment {
        let mut cold = Vec::new();
        if matches!(step.length, Length::Ferment { .. }) && self.may_be_cold() {
            cold = self.times_in_fridge(step, start);
            // That it lies there for a day at the most is nobody's plan.
            if self.in_fridge(step.id).is_some() && !self.comes_out_as_planned(step.id) {
                cold.retain(|&(_, to)| to <= self.newest);
            }
            // Put in already, whenever it was ripe it lies there.
            for (from, _) in &mut cold {
                let mut moves = self.moves_of(step);
                if moves.any(|seen| seen.at == *from && seen.what == Place::Fridge) {
                    *from = start;
                }
            }
        }
        move |ready| {
            let lies = cold.iter().find(|&&(from, to)| from <= ready && ready < to);
            lies.map_or(ready, |&(_, to)| to)
        }
    }

    /// Whether anything of this bake was put into the fridge, or is to be, beside its formula.
    fn may_be_cold(&self) -> bool {
        !self.retards.is_empty() || !self.moves.is_empty() || self.supposed.is_some()
    }

    /// Whether a dough is in the fridge and comes out at a moment that was planned.
    #[must_use]
    pub fn comes_out_as_planned(&self, step: StepId) -> bool {
        self.retards.contains_key(&step) && self.in_fridge(step).is_some()
    }

    /// Since when a rising dough is in the fridge, and until when.
    fn in_fridge(&self, step: StepId) -> Option<(Moment, Moment)> {
        let step = self.formula.step(step)?;
        let out = self.out_of_fridge_by(step)?;
        Some((self.moves_of(step).last()?.at, out))
    }

    /// When a rise that goes on is to be put into the fridge, as it was planned, and when it comes out again; none once it is
    /// in.
    #[must_use]
    pub fn goes_in(&self, step: StepId) -> Option<(Moment, Moment)> {
        let since = self
            .progress(step)
            .open_since
            .filter(|_| self.is_open(step))?;
        let &(from, to) = self.retards.get(&step)?;
        let is_in = self.in_fridge(step).is_some();
        (!is_in).then_some((from.max(since), to))
    }

    /// The rise whose dough is to go into the fridge by now, or to come out of it, as it was planned; where it then is,
    /// and since when it should be.
    #[must_use]
    pub fn to_be_moved(&self, now: Moment) -> Option<(StepId, Place, Moment)> {
        let mut planned = self.retards.iter();
        planned.find_map(|(&step, _)| {
            if let Some((at, to)) = self.goes_in(step) {
                return (at <= now && now < to).then_some((step, Place::Fridge, at));
            }
            let (_, out) = self.in_fridge(step)?;
            (out <= now).then_some((step, Place::Kitchen, out))
        })
    }

    /// The same bake by now, where a dough that should have been moved hasn't been, as far as anybody has said: what
    /// its log can't know before the next entry. None where nothing is overdue.
    #[must_use]
    pub(crate) fn unmoved_by(&self, now: Moment) -> Option<Self> {
        let is_overdue = self.to_be_moved(now).is_some_and(|(.., due)| due < now);
        is_overdue.then(|| {
            let mut state = self.clone();
            state.forget_windows();
            state.newest = state.newest.max(now);
            state.moves_now = true;
            state
        })
    }

    /// The rise whose dough should have gone into the fridge by now, and hasn't.
    pub(super) fn kept_out(&self, now: Moment) -> Option<StepId> {
        let mut planned = self.retards.keys().copied();
        let is_late = |&step: &StepId| self.goes_in(step).is_some_and(|(at, _)| at < now);
        planned.find(is_late).filter(|_| !self.moves_now)
    }

    /// When a dough that is to go into the fridge at `due` is called for: again and again, last as its baker leaves or
    /// goes to bed.
    pub(super) fn put_in_at(&self, id: AlarmId, due: Moment) -> Moment {
        let Some(heard) = self.heard_since(id, due) else {
            return due;
        };
        let again = heard + PUT_IN_AGAIN;
        let mut away = self.wishes.away.iter();
        let leaves = away.find(|&&(from, to)| from <= again && again < to);
        let again = leaves.map_or(again, |&(from, _)| from);
        if again <= heard || again - due > PUT_IN_FOR {
            due
        } else {
            again
        }
    }

    /// The step that a dough was put somewhere in: what was planned of its time in the fridge is over once it comes out.
    pub(super) fn moved_by_plan(&mut self, step: StepId, place: Place, at: Moment) {
        let was_in = self.in_fridge(step).is_some();
        let &(_, to) = match self.retards.get(&step) {
            Some(planned) => planned,
            None => return,
        };
        if (place != Place::Fridge && was_in) || at >= to {
            self.retards.remove(&step);
        }
    }

    /// Another time in the fridge, or none, to see what would come of it; no log says so.
    pub(crate) fn stay_instead(&mut self, step: StepId, stay: Option<(Moment, Moment)>) {
        // Copies share what was reckoned.
        self.forget_windows();
        self.retards.remove(&step);
        self.retards.extend(stay.map(|stay| (step, stay)));
    }

    /// Of what is planned the fold takes in only what could be: a log can come from elsewhere.
    pub(super) fn plan_stay(&mut self, step: StepId, stay: Option<(Moment, Moment)>, at: Moment) {
        if stay.is_some_and(|stay| check(self, step, stay, at).is_err()) {
            return;
        }
        let stay = stay.filter(|(from, to)| from < to && self.progress(step).ended.is_none());
        match stay {
            Some(stay) if self.steps.contains_key(&step) => {
                self.retards.insert(step, stay);
            }
            _ => {
                self.retards.remove(&step);
            }
        }
    }
}

/// # Errors
/// Where the step is none that can stand cold, has ended, or the moments can't be meant.
pub(super) fn plan(
    state: &State,
    step: StepId,
    stay: Option<(Moment, Moment)>,
    now: Moment,
) -> Result<Vec<Event>, Refusal> {
    state.formula.step(step).ok_or(Refusal::Unknown)?;
    if state.progress(step).ended.is_some() {
        return Err(Refusal::Already(step));
    }
    if let Some((from, to)) = stay {
        check(state, step, (from, to), now)?;
        if to <= from.max(now) {
            return Err(Refusal::Backwards);
        }
    }
    let is_new = state.retards.get(&step).copied() != stay;
    let event = is_new.then_some(Event::RetardPlanned { step, stay });
    Ok(event.into_iter().collect())
}

/// Whether a step can be planned to stand in the fridge: it rises, and isn't done in there anyway.
pub(super) fn can_be_retarded(step: &Step) -> bool {
    matches!(step.length, Length::Ferment { .. }) && step.kind != StepKind::Retard
}

/// # Errors
/// Where the step is none that can stand cold, or the moments are too far off.
fn check(
    state: &State,
    step: StepId,
    (from, to): (Moment, Moment),
    now: Moment,
) -> Result<(), Refusal> {
    if !state.formula.step(step).is_some_and(can_be_retarded) {
        return Err(Refusal::NeverRetarded(step));
    }
    ahead(from, now)?;
    ahead(to, now)?;
    Ok(())
}
