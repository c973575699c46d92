//! What the Bench asks for next, and what goes on meanwhile.

use super::forecast::Forecast;
use super::state::State;
use crate::formula::{Step, StepId, StepKind};
use crate::schedule::tails;
use crate::sorted::Map;
use crate::units::{Minutes, Moment, minutes};

/// The one thing that the baker is asked to do or look at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ask {
    /// Work at this step.
    Work(StepId),
    /// Fold the dough of this step.
    Fold(StepId),
    /// Look whether this step has ended: its moment has come.
    Look(StepId),
    /// Nothing to do: this step is the next to look at.
    Wait(StepId),
    /// Nothing to do, and nothing goes on by itself: something opens later.
    Idle,
    /// Every step has ended; the bake can be finished.
    AllDone,
}

impl Ask {
    /// The step it is about.
    #[must_use]
    pub fn step(self) -> Option<StepId> {
        match self {
            Self::Work(step) | Self::Fold(step) | Self::Look(step) | Self::Wait(step) => Some(step),
            Self::Idle | Self::AllDone => None,
        }
    }
}

/// Something that goes on by itself.
pub type Running = Forecast;

/// A link with a greatest lag is urgent when this little of it is left.
const URGENT: Minutes = minutes(30.0);

/// What the baker is asked for now.
///
/// First what burns or tears if it waits: what is in the oven, then a fold. Then
/// the work that the baker turned to. Then the switch of an oven that should be
/// heating, what is due to be looked at, the best work for free hands, and last
/// the next thing to wait for. What goes on by itself and isn't due can be turned
/// to only when nothing else is to be done.
#[must_use]
pub fn focus(state: &State, now: Moment) -> Ask {
    let running = running(state, now);
    let is_due = |forecast: &&Forecast| forecast.look <= now;
    let bakes = |forecast: &&Forecast| {
        let step = state.formula.step(forecast.step);
        step.is_some_and(|step| step.kind == StepKind::Bake)
    };
    if let Some(forecast) = running.iter().filter(is_due).find(bakes) {
        return Ask::Look(forecast.step);
    }
    let fold_due = |forecast: &&Forecast| forecast.folds.first().is_some_and(|&fold| fold <= now);
    if let Some(forecast) = running.iter().find(fold_due) {
        return Ask::Fold(forecast.step);
    }
    let picked = picked(state, now);
    let waiting = picked.and_then(|step| running.iter().find(|running| running.step == step.id));
    match (picked, waiting) {
        (Some(step), None) => return Ask::Work(step.id),
        (Some(step), Some(forecast)) if forecast.look <= now => return Ask::Look(step.id),
        _ => {}
    }
    // An oven that is due takes a minute and saves twenty.
    let mut ovens = state.formula.steps.iter();
    let oven = ovens.find(|step| step.kind == StepKind::OvenOn && can_start(state, step, now));
    if let Some(oven) = oven {
        return Ask::Work(oven.id);
    }
    if let Some(forecast) = running.iter().find(is_due) {
        return Ask::Look(forecast.step);
    }
    if let Some(&step) = offers(state, now).first() {
        return Ask::Work(step);
    }
    match waiting.or(running.first()) {
        Some(forecast) => Ask::Wait(forecast.step),
        None if state.all_ended() => Ask::AllDone,
        None => Ask::Idle,
    }
}

fn picked(state: &State, now: Moment) -> Option<&Step> {
    let step = state.formula.step(state.picked?)?;
    let open_since = state.progress(step.id).open_since?;
    (state.is_open(step.id) && open_since <= now).then_some(step)
}

/// Everything that goes on by itself, the next to look at first.
#[must_use]
pub fn running(state: &State, now: Moment) -> Vec<Running> {
    let steps = state.formula.steps.iter();
    let mut running: Vec<Forecast> = steps
        .filter_map(|step| state.forecast(step.id, now))
        .collect();
    running.sort_by_key(|forecast| forecast.look);
    running
}

/// The work that free hands could do now, best first: what may not wait much
/// longer, then whatever has the most still hanging on it.
#[must_use]
pub fn offers(state: &State, now: Moment) -> Vec<StepId> {
    let mut open: Vec<(&Step, Option<Moment>)> = state
        .formula
        .steps
        .iter()
        .filter(|step| step.is_hands() && can_start(state, step, now))
        .map(|step| (step, must_start_by(state, step)))
        .collect();
    // With nothing to choose from there is nothing to reckon.
    let tails = if open.len() > 1 {
        tails(state, now)
    } else {
        Map::new()
    };
    let rank = |&(step, by): &(&Step, Option<Moment>)| {
        let urgent = by.filter(|&by| by - now <= URGENT);
        // An oven that is due comes first: it takes a minute and saves twenty.
        let oven = step.kind == StepKind::OvenOn;
        let tail = tails.get(&step.id).copied().unwrap_or(minutes(0.0));
        (
            !oven,
            urgent.is_none(),
            urgent,
            std::cmp::Reverse(tail.get().round() as i64),
        )
    };
    open.sort_by_key(rank);
    open.into_iter().map(|(step, _)| step.id).collect()
}

fn can_start(state: &State, step: &Step, now: Moment) -> bool {
    let open = state.is_open(step.id);
    let opens = state.progress(step.id).open_since;
    let oven_later = state
        .oven_on_at(step, now)
        .is_some_and(|turn_on| turn_on > now);
    open && opens.is_some_and(|opens| opens <= now) && !oven_later
}

/// The moment after which waiting harms, for a step whose links say so.
fn must_start_by(state: &State, step: &Step) -> Option<Moment> {
    let links = step.after.iter();
    links
        .filter_map(|link| Some(state.progress(link.step).ended?.at + link.greatest?))
        .min()
}
