//! Where the hands of a baker who looks at one bread are wanted by another.

use domain::bake::{BakeId, State, Status};
use domain::formula::StepId;
use domain::units::Moment;

use super::{AT_ONCE, BakeView};
use crate::state::Planned;

/// Where else the hands are wanted now.
pub(super) fn elsewhere(
    planned: &Planned,
    states: &[&State],
    views: &[BakeView],
    (here, now): (usize, Moment),
) -> Option<(BakeId, StepId)> {
    let others = planned.bakes.iter().zip(states).enumerate();
    let mut others = others.filter(|&(place, _)| place != here);
    if states[here].to_take_out().is_some() {
        return None;
    }
    if let Some(baked) =
        others.find_map(|(_, (id, state))| Some((id.clone(), state.to_take_out()?)))
    {
        return Some(baked);
    }
    // What is due there can't wait for what only goes on here.
    let mut due = views.iter().filter(|view| {
        let is_paused = matches!(view.bake.state().status, Status::Paused { .. });
        view.ask.is_due() && !is_paused && planned.place(&view.bake.id) != Some(here)
    });
    if let Some(due) = due.find_map(|view| Some((view.bake.id.clone(), view.ask.step()?))) {
        return Some(due);
    }
    let item = planned.timetable.plan.hands_at(states, now)?;
    let (bake, step) = item.what.of()?;
    let is_now = item.start - now < AT_ONCE && bake != here && states[bake].is_open(step);
    is_now.then(|| (planned.bakes[bake].clone(), step))
}
