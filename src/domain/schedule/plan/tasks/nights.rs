//! A night in the fridge that is a step: how long it lasts is chosen, within its formula's hours.
//!
//! Its task is of the least length, and whoever turns the dough out comes after that, before the greatest is over. What the
//! formula calls likely is what is aimed at: it is asked for as long as nothing is late by it.

use super::{Tasks, whole};
use crate::bake::State;
use crate::estimate::Estimate;
use crate::formula::{Step, StepId};
use crate::schedule::plan::starts::aims::Aim;
use crate::schedule::plan::starts::best::Best;
use crate::schedule::plan::what::What;
use crate::units::Minutes;

/// By how many minutes a night in the fridge is tried shorter than is likely.
const SHORTER: i32 = 15;

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

    /// How long the nights are to be, beyond the least.
    fn asked_of_nights(&self) -> Vec<i32> {
        let nights = self.nights.iter();
        nights.map(|&night| self.links[night].least).collect()
    }

    /// Has the nights of some tasks last so many minutes less than was asked.
    fn shorten_nights(&mut self, asked: &[i32], by: i32, of: &dyn Fn(usize) -> bool) {
        for (&night, &asked) in self.nights.iter().zip(asked) {
            let link = &mut self.links[night];
            let by = if of(link.from) { by } else { 0 };
            link.least = (asked - by).max(0);
        }
    }

    /// What is found with nights as long as is likely, or else by as little shorter as it takes; if nothing is, they stay.
    pub(crate) fn with_nights<T>(
        &mut self,
        find: &mut dyn FnMut(&mut Self) -> Option<T>,
    ) -> Option<T> {
        let found = find(self);
        let asked = self.asked_of_nights();
        let mut fits = asked
            .iter()
            .max()
            .map_or(0, |most| (most + SHORTER - 1) / SHORTER);
        if found.is_some() || fits == 0 {
            return found;
        }
        let mut with = |tasks: &mut Self, steps: i32| {
            tasks.shorten_nights(&asked, steps * SHORTER, &|_| true);
            find(tasks)
        };
        let mut found = with(self, fits);
        let mut fails = if found.is_some() { 0 } else { fits - 1 };
        while fits - fails > 1 {
            let steps = (fits + fails) / 2;
            match with(self, steps) {
                None => fails = steps,
                is => (fits, found) = (steps, is),
            }
        }
        let by = if found.is_some() { fits * SHORTER } else { 0 };
        self.shorten_nights(&asked, by, &|_| true);
        found
    }

    /// The best with the nights of what is late shorter by as much as that gains, if it does: what is late by a night that is
    /// longer than it has to be is late for nothing.
    pub(crate) fn late_for_nothing(
        &mut self,
        aims: &[Aim],
        best: Best,
        find: &mut dyn FnMut(&mut Self, &[i32]) -> Option<Best>,
    ) -> Best {
        let asked = self.asked_of_nights();
        let late = self.ends_late(aims, &best.starts);
        let of: Vec<bool> = (0..self.tasks.len())
            .map(|task| {
                aims.iter()
                    .zip(&late)
                    .any(|(aim, &late)| late > 0 && aim.is_of(task))
            })
            .collect();
        let of = |task: usize| of[task];
        let mut nights = self.nights.iter();
        if !nights.any(|&night| self.links[night].least > 0 && of(self.links[night].from)) {
            return best;
        }
        self.shorten_nights(&asked, i32::MAX, &of);
        let shortest = find(self, &best.starts);
        let Some(shortest) =
            shortest.filter(|shortest| self.ends_late(aims, &shortest.starts) < late)
        else {
            self.shorten_nights(&asked, 0, &of);
            return best;
        };
        let least = self.ends_late(aims, &shortest.starts);
        let gains = late.iter().zip(&least).map(|(late, least)| late - least);
        let gain = gains.max().unwrap_or(0).max(0);
        self.shorten_nights(&asked, gain, &of);
        let exact = find(self, &best.starts);
        if let Some(exact) = exact.filter(|exact| self.ends_late(aims, &exact.starts) <= least) {
            return exact;
        }
        self.shorten_nights(&asked, i32::MAX, &of);
        shortest
    }
}
