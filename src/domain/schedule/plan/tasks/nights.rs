//! A night in the fridge that is a step: how long it lasts is chosen, within its formula's hours.
//!
//! Its task is of the least length, and whoever turns the dough out comes after that, before the greatest is over. What the
//! formula calls likely is what is aimed at: it is asked for as long as nothing is late by it.

use super::{Tasks, whole};
use crate::bake::State;
use crate::estimate::Estimate;
use crate::formula::{Step, StepId};
use crate::schedule::plan::what::What;
use crate::units::Minutes;

/// How long a night in the fridge may last that somebody ends by turning out the dough, and the step in which they do;
/// `None` of every other step.
#[must_use]
pub fn turned_out(state: &State, step: StepId) -> Option<(&Estimate<Minutes>, StepId)> {
    let night = state.formula.step(step)?;
    let hours = night.retards_for()?;
    let mut steps = state.formula.steps.iter();
    let takes = |other: &&Step| {
        let follows = other.after.iter().any(|link| link.step == step);
        follows && other.is_hands() && other.component == night.component
    };
    Some((hours, steps.find(takes)?.id))
}

impl Tasks<'_> {
    /// How many minutes after the end of the task of a night its dough should be turned out, and may be at the most.
    fn left_of_night(&self, bake: usize, night: StepId) -> Option<(i32, i32)> {
        let state = self.bakes[bake];
        let (hours, _) = turned_out(state, night)?;
        let since = self.lengths[bake].get(&night)?.start;
        let progress = state.progress(night);
        let (from, over) = match progress.open_since {
            Some(_) => (
                since,
                self.tasks[self.place(What::Step(bake, night))?].minutes,
            ),
            None => (self.now, whole(hours.low())),
        };
        let left = |end: Minutes| ((from + end - self.now).get().floor() as i32 - over).max(0);
        let likely = progress
            .look_again
            .map_or(hours.likely(), |look| look - since);
        Some((left(likely), left(hours.high())))
    }

    pub(crate) fn is_night(&self, place: usize) -> bool {
        let of = self.what[place].of();
        of.is_some_and(|(bake, step)| turned_out(self.bakes[bake], step).is_some())
    }

    /// How many minutes after the end of a night its dough is turned out at the latest, by the step that does.
    pub(super) fn most_of_night(&self, bake: usize, night: StepId, by: StepId) -> Option<i32> {
        let (_, out) = turned_out(self.bakes[bake], night)?;
        Some(self.left_of_night(bake, night).filter(|_| out == by)?.1)
    }

    /// Nights last as long as is likely, where nothing is fixed behind them.
    pub(crate) fn aim_at_nights(&mut self) {
        for bake in 0..self.bakes.len() {
            let state = self.bakes[bake];
            for step in &state.formula.steps {
                let Some((_, out)) = turned_out(state, step.id) else {
                    continue;
                };
                let places = [step.id, out].map(|step| self.place(What::Step(bake, step)));
                if let ([Some(from), Some(to)], false) = (places, state.pins.contains_key(&out))
                    && let Some((likely, most)) = self.left_of_night(bake, step.id)
                {
                    self.nights.push(self.links.len());
                    self.link(from, to, (likely.min(most), None), 0);
                }
            }
        }
    }

    /// Lets nights be so much shorter than is likely; whether any could.
    pub(crate) fn shorten_nights(&mut self, by: i32) -> bool {
        let mut could = false;
        for &night in &self.nights {
            let least = &mut self.links[night].least;
            could |= *least > 0;
            *least = (*least - by).max(0);
        }
        could
    }
}
