//! What the Bench asks for next, and what goes on meanwhile.

use super::offers::{can_start, offers_by, present};
use crate::bake::{Forecast, State};
use crate::formula::{Step, StepId, StepKind};
use crate::kitchen::Place;
use crate::sorted;
use crate::units::Moment;

/// The one thing that the baker is asked to do or look at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ask {
    /// Work at this step.
    Work(StepId),
    /// Fold the dough of this step.
    Fold(StepId),
    /// Look whether this step has ended: its moment has come.
    Look(StepId),
    /// Put the dough of this step into the fridge, as it was planned.
    IntoFridge(StepId),
    /// Take the dough of this step out of the fridge: its time there is over.
    OutOfFridge(StepId),
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
            Self::Work(step)
            | Self::Fold(step)
            | Self::Look(step)
            | Self::IntoFridge(step)
            | Self::OutOfFridge(step)
            | Self::Wait(step) => Some(step),
            Self::Idle | Self::AllDone => None,
        }
    }

    /// Whether it is about what goes on by itself, and its moment has come.
    #[must_use]
    pub const fn is_due(self) -> bool {
        matches!(
            self,
            Self::Fold(_) | Self::Look(_) | Self::IntoFridge(_) | Self::OutOfFridge(_)
        )
    }
}

/// Something that goes on by itself.
pub type Running = Forecast;

/// What the baker is asked for now.
///
/// First what burns if it waits: what has baked, and what is in the oven. Then what the baker turned
/// to or is in the middle of, for no work is taken from under anybody's hands.
/// Then a dough that is to go into the fridge or to come out of it, a fold that is due, the switch of an oven that should be heating, what is
/// due to be looked at, the best work for free hands, and last the next thing to
/// wait for. What goes on by itself and isn't due can be turned to only when
/// nothing else is to be done.
#[must_use]
pub fn focus(state: &State, now: Moment) -> Ask {
    focus_by(state, now, &[])
}

/// The same where a plan says in which order the hands take up what they could.
#[must_use]
pub fn focus_by(state: &State, now: Moment, order: &[StepId]) -> Ask {
    if let Some(baked) = state.to_take_out() {
        return Ask::Work(baked);
    }
    let running = running(state, now);
    let is_due = |forecast: &&Forecast| forecast.look <= now;
    let bakes = |forecast: &&Forecast| {
        let step = state.formula.step(forecast.step);
        step.is_some_and(|step| step.kind == StepKind::Bake)
    };
    if let Some(forecast) = running.iter().filter(is_due).find(bakes) {
        return Ask::Look(forecast.step);
    }
    let fold_due = |forecast: &Forecast| forecast.folds.first().is_some_and(|&fold| fold <= now);
    let picked = picked(state, now);
    let waiting = picked.and_then(|step| running.iter().find(|running| running.step == step.id));
    if let (Some(step), None) = (picked, waiting) {
        return Ask::Work(step.id);
    }
    if let Some(moves) = moves(state, &running, now) {
        return moves;
    }
    match (picked, waiting) {
        (Some(step), Some(forecast)) if fold_due(forecast) => return Ask::Fold(step.id),
        (Some(step), Some(forecast)) if forecast.look <= now => return Ask::Look(step.id),
        _ => {}
    }
    if let Some(forecast) = running.iter().find(|forecast| fold_due(forecast)) {
        return Ask::Fold(forecast.step);
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
    if let Some(&step) = offers_by(state, now, order).first() {
        return Ask::Work(step);
    }
    match waiting.or(running.first()) {
        Some(forecast) => Ask::Wait(forecast.step),
        None if state.all_ended() => Ask::AllDone,
        None => Ask::Idle,
    }
}

/// What a dough is moved for: its planned time in the fridge, or whatever has it out of there by now.
fn moves(state: &State, running: &[Running], now: Moment) -> Option<Ask> {
    if let Some((step, place, _)) = state.to_be_moved(now) {
        let goes_in = place == Place::Fridge;
        let ask = if goes_in {
            Ask::IntoFridge
        } else {
            Ask::OutOfFridge
        };
        return Some(ask(step));
    }
    let mut running = running.iter();
    let out = running.find(|forecast| forecast.out_by.is_some() && forecast.look <= now)?;
    Some(Ask::OutOfFridge(out.step))
}

fn picked(state: &State, now: Moment) -> Option<&Step> {
    let step = state.formula.step(state.picked?)?;
    let open_since = state.progress(step.id).open_since?;
    (state.is_open(step.id) && open_since <= present(state, now)).then_some(step)
}

/// Everything that goes on by itself, the next to look at first.
#[must_use]
pub fn running(state: &State, now: Moment) -> Vec<Running> {
    let steps = state.formula.steps.iter();
    let mut running: Vec<Forecast> = steps
        .filter_map(|step| state.forecast(step.id, now))
        .collect();
    sorted::by_key(&mut running, |forecast| forecast.look);
    running
}
