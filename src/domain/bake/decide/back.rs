//! Going back: steps that are opened again, and what other bakes take back with this one.

use super::known;
use crate::bake::Bake;
use crate::bake::event::Event;
use crate::bake::intent::Refusal;
use crate::bake::measured::kitchen_changed;
use crate::bake::state::State;
use crate::bake::undo::{undo_kitchen, undo_wishes};
use crate::bake::wishes::{self, Wishes};
use crate::formula::{Step, StepId};
use crate::kitchen::Kitchen;
use crate::units::Moment;

/// Opens a step again, with every ended step that followed it, however indirectly, of those that are `meant`.
pub(super) fn go_back(
    state: &State,
    step: StepId,
    meant: &dyn Fn(&Step) -> bool,
) -> Result<Vec<Event>, Refusal> {
    let step = known(state, step)?;
    if state.progress(step).ended.is_none() {
        return Err(Refusal::Already(step));
    }
    let mut reopened = vec![step];
    loop {
        let follows = |id: StepId| {
            let step = state.formula.step(id);
            let follows = |step: &Step| step.after.iter().any(|link| reopened.contains(&link.step));
            step.is_some_and(|step| meant(step) && follows(step))
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

/// Opens a step again, with what followed it in its own part.
pub(super) fn make_anew(state: &State, step: StepId) -> Result<Vec<Event>, Refusal> {
    let part = state.formula.step(step).map(|step| step.component);
    go_back(state, step, &|other| Some(other.component) == part)
}

/// The kitchen as it was before. A bake that began in the changed kitchen, or came to it in its own way, is told anew.
pub(super) fn kitchen(bake: &Bake, back: Kitchen) -> Result<Vec<Event>, Refusal> {
    let taken_back = undo_kitchen(bake, &back);
    if taken_back.is_empty() {
        return kitchen_changed(bake.state(), back);
    }
    Ok(taken_back)
}

/// When nobody is there, as it was wished before. A bake that came to its wishes in its own way is told that anew.
pub(super) fn wish(
    bake: &Bake,
    wished_at: Moment,
    away: Vec<(Moment, Moment)>,
    now: Moment,
) -> Result<Vec<Event>, Refusal> {
    let taken_back = undo_wishes(bake, wished_at, &away);
    if taken_back.is_empty() {
        let wishes = Wishes {
            away,
            ..bake.state().wishes.clone()
        };
        return wishes::wish(bake.state(), wishes, now);
    }
    Ok(taken_back)
}
