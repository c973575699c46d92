//! Where a dough would be put: a supposition, to see what would come of it.
//!
//! A rise that goes on is supposed to have been moved as its log would tell it, also at a moment that
//! is still to come, and without the time in the fridge that was planned of it. A rise to come is supposed to stand somewhere from its beginning
//! on, for all of it or for a time. After a time in the fridge its dough counts as cold as the
//! fridge, as after a night planned there, which takes six hours or so to be true; so no shorter one
//! is supposed of a rise to come. After a warm or a cool place the dough counts as if it had been in the kitchen,
//! by which the rises that follow are a little shorter or longer than planned: so little that they end
//! within what was told, but a braid for which 16 °C were told to keep a table was ready 21 min after it.

use super::progress::note;
use super::state::State;
use super::stay::Stay;
use crate::formula::{Step, StepId};
use crate::kitchen::Place;
use crate::units::{Minutes, Moment};

/// A dough that is put somewhere for a rise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Supposed {
    /// The rise.
    pub step: StepId,
    /// Where it is put.
    pub place: Place,
    /// Since when, where the rise goes on already; otherwise from its beginning on.
    pub since: Option<Moment>,
    /// For how long, of a rise to come; all the rise, where it isn't said.
    pub stays: Option<Minutes>,
}

impl State {
    /// The same bake with a dough put somewhere.
    pub(crate) fn supposing(&self, supposed: Supposed) -> Self {
        let mut state = self.clone();
        state.forget_windows();
        state.retards.remove(&supposed.step);
        if let Some(since) = supposed.since {
            note(&mut state.moves, since, supposed.step, supposed.place);
        }
        state.supposed = Some(supposed);
        state
    }

    /// What is around the dough of a rise to come, from its start on.
    pub(super) fn supposed_places(&self, of: &Step, start: Moment) -> Vec<(Moment, Place)> {
        let mut places = Vec::new();
        if let Some(supposed) = self.to_come(of.id) {
            places.push((start, supposed.place));
            let out = supposed.stays.map(|stays| start + stays);
            places.extend(out.map(|out| (out, Place::Kitchen)));
        }
        places
    }

    fn to_come(&self, step: StepId) -> Option<Supposed> {
        let supposed = self.supposed.filter(|supposed| supposed.step == step)?;
        supposed.since.is_none().then_some(supposed)
    }

    /// The rise before a step out of which its dough comes cold, and how long it was in the fridge by then.
    pub(crate) fn supposed_out(&self, step: &Step) -> Option<(StepId, Minutes)> {
        let supposed = self.supposed?;
        let (put, stays) = (self.to_come(supposed.step)?.step, supposed.stays?);
        let mut steps = self.formula.steps.iter();
        let before = steps
            .by_ref()
            .take_while(|other| other.id != step.id)
            .any(|other| other.id == put && other.component == step.component);
        // A time in the fridge that the formula itself has comes later, and counts instead.
        (before && supposed.place == Place::Fridge).then_some((put, stays))
    }

    /// The time in the fridge that the dough of a rise is planned or supposed to have.
    pub(crate) fn stay_or_supposed(&self, step: StepId, start: Moment) -> Option<Stay> {
        let supposed = self.supposed.filter(|supposed| supposed.step == step);
        let Some((supposed, stays)) = supposed.and_then(|it| Some((it, it.stays?))) else {
            return self.stay(step, start);
        };
        (supposed.place == Place::Fridge).then_some(Stay {
            from: start,
            to: start + stays,
            is_in: false,
        })
    }
}
