//! What dough or a filling waits for, and when somebody is called for it.
//!
//! With one bread what waits is asked for, and stands on the screen. With several the screen shows one of them, so
//! what waits at another is called for: only where its formula says how long it may wait, for all else can; shortly
//! before that is over, so that it can be begun in time; and not while somebody is pressing or has said to be at other
//! work, nor, as long as it may wait, before the plan has the hands there. A call that nobody can follow is noise.

use crate::bake::{Alarm, State, waiting_alarm};
use crate::formula::{Step, StepId, StepKind};
use crate::schedule::offers::start_by;
use crate::schedule::plan::{Plan, What};
use crate::units::{Minutes, Moment, minutes};

/// Who pressed something within this time knows what is asked; and so long before it has waited as long as it may
/// somebody is called. ASSUMPTION: judgement: to come, wash one's hands and begin.
const TO_COME: Minutes = minutes(5.0);
/// A plan counts whole minutes of the clock, so what is to begin at once begins with the next.
const AT_ONCE: Minutes = minutes(1.0);

impl Plan {
    /// The alarm for what waits for hands at one of its bakes, due or still to come. `seen` is when that bake was last
    /// looked at, if somebody has.
    ///
    /// It follows from when something was last pressed, so it moves until it is heard.
    #[must_use]
    pub fn waiting_alarm(
        &self,
        bakes: &[&State],
        bake: usize,
        seen: Option<Moment>,
        now: Moment,
    ) -> Option<Alarm> {
        let state = *bakes.get(bake).filter(|_| bakes.len() > 1)?;
        let (step, by, start) = self.waited_for(bake, state)?;
        let pressed = bakes.iter().map(|state| state.newest);
        let pressed = pressed.chain(seen).max()?;
        let ahead = by - TO_COME;
        // What stands before it in the plan and isn't done either makes it later with every new plan, so that counts
        // for no longer than it may wait.
        let planned = if start - now < AT_ONCE { ahead } else { start };
        let due = planned.clamp(ahead, by).max(pressed + TO_COME);
        // Who said to be at other work can't come sooner; once that should be done it ends now in every plan.
        let busy = self.told_work(bakes).filter(|&end| end - now >= AT_ONCE);
        let due = busy.map_or(due, |end| due.max(end));
        waiting_alarm(state, step, by, due)
    }

    /// Until when the hands are at what somebody turned to.
    fn told_work(&self, bakes: &[&State]) -> Option<Moment> {
        let told = self.items.iter().filter(|item| {
            let What::Step(of, step) = item.what else {
                return false;
            };
            bakes.get(of).is_some_and(|state| {
                let known = state.formula.step(step).filter(|step| step.is_hands());
                known.is_some() && state.picked == Some(step)
            })
        });
        told.map(|item| item.end).max()
    }

    /// The first work of one of its bakes that may wait only so long, by when it should be begun, and when it is
    /// planned to be. What the baker fixed to a moment has a call of its own, and so has what is on the table or has baked.
    fn waited_for(&self, bake: usize, state: &State) -> Option<(StepId, Moment, Moment)> {
        let waits = |step: &Step| {
            let is_called = step.kind == StepKind::Serve
                || state.pins.contains_key(&step.id)
                || state.to_take_out() == Some(step.id);
            step.is_hands() && state.is_open(step.id) && !state.is_begun(step) && !is_called
        };
        self.items.iter().find_map(|item| {
            let What::Step(of, id) = item.what else {
                return None;
            };
            let step = state.formula.step(id).filter(|_| of == bake)?;
            let ended = |before| Some(state.progress(before).ended?.at);
            let by = start_by(step, &ended).filter(|_| waits(step))?;
            Some((id, by, item.start))
        })
    }
}
