//! The orders in which breads can come into one oven.

use super::rounds::{Guess, Rounds};
use crate::formula::{Length, StepId};
use crate::schedule::plan::lengths::ovens::{heat, reheated};
use crate::schedule::plan::what::What;
use crate::units::{Moment, minutes};

/// Of more breads not every order is tried.
const BREADS: usize = 3;

impl Rounds<'_> {
    /// Every order, with the oven as hot as one bread leaves it to the next; and whether these are all there are.
    pub(crate) fn orders(&self, guess: &Guess) -> (Vec<Guess>, bool) {
        let mut orders = vec![Vec::new()];
        let breads: Vec<usize> = (0..self.bakes.len())
            .filter(|&bake| self.in_oven(guess, bake).next().is_some())
            .collect();
        let is_all = breads.len() <= BREADS;
        for &bread in breads.iter().filter(|_| is_all) {
            let with = |order: &Vec<usize>| {
                let (order, places) = (order.clone(), 0..=order.len());
                places.map(move |at| {
                    let mut order = order.clone();
                    order.insert(at, bread);
                    order
                })
            };
            orders = orders.iter().flat_map(with).collect();
        }
        let orders = orders.iter().map(|order| self.in_order(guess, order));
        (orders.collect(), is_all)
    }

    /// What of a bread the oven is still to be turned on for, and what is baked then.
    fn in_oven<'b>(
        &'b self,
        guess: &'b Guess,
        bake: usize,
    ) -> impl Iterator<Item = (StepId, bool)> + 'b {
        let state = self.bakes[bake];
        let of = move |length: &Length| match length {
            Length::OvenHeats { .. } => Some(false),
            Length::Bake { .. } => Some(true),
            _ => None,
        };
        let steps = state.formula.steps.iter();
        let left = steps.filter(move |step| {
            guess.lengths[bake].contains_key(&step.id)
                && state.progress(step.id).open_since.is_none()
        });
        left.filter_map(move |step| Some((step.id, of(&step.length)?)))
    }

    /// One bread as the one before comes out; or beside it, where they can share the oven.
    fn in_order(&self, guess: &Guess, order: &[usize]) -> Guess {
        let takes = |bake: usize, step: StepId| {
            let length = guess.lengths[bake].get(&step);
            length.map_or(minutes(0.0), |length| {
                length.end - length.start.max(self.now)
            })
        };
        // The oven is somebody's already.
        let going = (0..self.bakes.len()).flat_map(|bake| {
            let steps = self.bakes[bake].formula.steps.iter();
            let goes_on = steps.filter(move |step| {
                matches!(step.length, Length::Bake { .. })
                    && self.bakes[bake].progress(step.id).open_since.is_some()
                    && guess.lengths[bake].contains_key(&step.id)
            });
            goes_on.map(move |step| (bake, self.now, self.now + takes(bake, step.id)))
        });
        let mut last: Option<(usize, Moment, Moment)> = going.max_by_key(|&(.., out)| out);
        let mut starts = guess.was.clone();
        for &bake in order {
            let mut at = match last {
                None => self.now,
                Some((other, into, out)) => {
                    let of = heat(self.bakes[bake]);
                    if of.is_some() && of == heat(self.bakes[other]) {
                        into
                    } else {
                        out
                    }
                }
            };
            for (step, is_in) in self.in_oven(guess, bake) {
                let out = at + takes(bake, step);
                if let Some(start) = starts
                    .iter_mut()
                    .find(|(what, _)| *what == What::Step(bake, step))
                {
                    start.1 = at;
                }
                if is_in {
                    last = Some((bake, at, out));
                }
                at = out;
            }
        }
        let mut lengths = guess.lengths.clone();
        let hot = reheated(self.bakes, &mut lengths, &starts, self.now);
        Guess {
            was: guess.was.clone(),
            lengths,
            hot,
            lets_wait: guess.lets_wait.clone(),
        }
    }
}
