//! What the baker wishes of the time: the table, and when nobody can be asked.

use super::event::Event;
use super::intent::Refusal;
use super::measured::within;
use super::state::State;
use crate::formula::{ComponentKind, Step, StepId, StepKind};
use crate::units::{Minutes, Moment, minutes};

/// How far ahead anything can be wished.
const FARTHEST: Minutes = minutes(14.0 * 24.0 * 60.0);
/// More times away than anybody enters by hand.
const MOST_AWAY: usize = 40;

/// What the baker wishes of the time of a bake.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Wishes {
    /// Everything on the table by then.
    pub table: Option<Moment>,
    /// Nothing begun before then.
    pub not_before: Option<Moment>,
    /// Nobody in the kitchen from the one moment to the other.
    pub away: Vec<(Moment, Moment)>,
}

impl State {
    /// Whether anything of the bake was begun, or it only stands in the plan so far.
    #[must_use]
    pub fn has_begun(&self) -> bool {
        self.begun.is_some()
    }

    /// When a hand was first put to it.
    #[must_use]
    pub fn begun_at(&self) -> Option<Moment> {
        self.begun
    }

    /// Whether a step was begun: hands are at it or have been, or it goes on by itself.
    #[must_use]
    pub fn is_begun(&self, step: &Step) -> bool {
        let progress = self.progress(step.id);
        progress.ended.is_some()
            || !progress.marks.is_empty()
            || self.picked == Some(step.id)
            || (!step.is_hands() && progress.open_since.is_some())
    }

    /// Whether something that is left can wait for as long as is wished.
    #[must_use]
    pub fn can_wait(&self) -> bool {
        !self.held_back().is_empty()
    }

    /// What can wait for as long as is wished: all that is left, if nothing was done yet but gathering and fillings,
    /// which keep in the fridge. Nothing where something else was begun.
    ///
    /// What is on its way doesn't wait: what goes on, what hands are at, and what follows that or something that has
    /// ended and may follow it only so long after, because it is hot or spoils; nor does what that needs besides.
    #[must_use]
    pub fn held_back(&self) -> Vec<StepId> {
        let steps = &self.formula.steps;
        if !steps.iter().all(|step| self.may_be_early(step)) {
            return Vec::new();
        }
        let mut held: Vec<StepId> = steps
            .iter()
            .filter(|step| self.progress(step.id).ended.is_none() && !self.goes_on(step))
            .map(|step| step.id)
            .collect();
        loop {
            let before = held.len();
            for step in steps {
                let follows = step.after.iter().any(|link| {
                    let is_bound =
                        link.greatest.is_some() || (!step.is_hands() && step.after.len() == 1);
                    is_bound && !held.contains(&link.step)
                });
                if follows {
                    held.retain(|&other| other != step.id);
                }
                if !held.contains(&step.id) {
                    held.retain(|&other| step.after.iter().all(|link| link.step != other));
                }
            }
            if held.len() == before {
                return held;
            }
        }
    }

    /// Whether what was done of a step, if anything was, leaves the dough waiting.
    fn may_be_early(&self, step: &Step) -> bool {
        let progress = self.progress(step.id);
        let is_touched =
            progress.ended.is_some() || !progress.marks.is_empty() || self.picked == Some(step.id);
        let part = self.formula.component(step.component);
        let is_filling = part.is_some_and(|part| part.kind == ComponentKind::Filling);
        !is_touched || is_filling || step.kind == StepKind::Gather
    }

    /// Whether a step goes on by itself, or hands are at it. What was weighed waits.
    fn goes_on(&self, step: &Step) -> bool {
        let is_gathered = step.kind == StepKind::Gather && self.picked != Some(step.id);
        self.is_begun(step) && !is_gathered
    }
}

/// # Errors
/// Where a moment is farther off than bread takes, or someone is away backwards.
pub(super) fn wish(state: &State, mut wishes: Wishes, now: Moment) -> Result<Vec<Event>, Refusal> {
    // Who was away is back: old times would only add up.
    wishes.away.retain(|&(_, to)| to > now);
    check(&wishes, now)?;
    let is_new = wishes != state.wishes;
    let event = is_new.then(|| Event::Wished(Box::new(wishes)));
    Ok(event.into_iter().collect())
}

/// # Errors
/// Where there is no such step, it has ended, or the moment is too far off.
pub(super) fn pin(
    state: &State,
    step: StepId,
    at: Option<Moment>,
    now: Moment,
) -> Result<Vec<Event>, Refusal> {
    state.formula.step(step).ok_or(Refusal::Unknown)?;
    if state.progress(step).ended.is_some() {
        return Err(Refusal::Already(step));
    }
    if let Some(at) = at {
        ahead(at, now)?;
    }
    let is_new = state.pins.get(&step).copied() != at;
    Ok(is_new
        .then_some(Event::Pinned { step, at })
        .into_iter()
        .collect())
}

/// Whether this can be wished at a moment. The fold asks as well, for a log can come from elsewhere.
///
/// # Errors
/// As those of [`wish`].
pub(super) fn check(wishes: &Wishes, now: Moment) -> Result<(), Refusal> {
    let moments = wishes.table.into_iter().chain(wishes.not_before);
    let away = wishes.away.iter().flat_map(|&(from, to)| [from, to]);
    for moment in moments.chain(away) {
        ahead(moment, now)?;
    }
    let backwards = wishes.away.iter().any(|(from, to)| to <= from);
    if backwards {
        return Err(Refusal::Unknown);
    }
    if wishes.away.len() > MOST_AWAY {
        return Err(Refusal::TooManyAway);
    }
    Ok(())
}

pub(super) fn ahead(moment: Moment, now: Moment) -> Result<f64, Refusal> {
    let most = FARTHEST.get() / 60.0;
    within((moment - now).get() / 60.0, "time ahead", "h", -most, most)
}
