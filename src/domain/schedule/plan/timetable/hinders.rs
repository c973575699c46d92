//! Why the hands aren't done sooner before nobody is there any more.

use super::not_before;
use crate::bake::{CALLED, State};
use crate::formula::StepId;
use crate::schedule::plan::{Plan, What};
use crate::units::Moment;

/// What keeps hands from being done sooner. Bakes are told by their places.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hinders {
    /// All that comes before follows at once from what begins now.
    Now,
    /// A step that goes on already.
    GoesOn(usize, StepId),
    /// Hands, an oven or the room that another bake has until then.
    Bake(usize),
    /// A step that was fixed, or is put into the fridge or taken out at a moment that was planned.
    Fixed(usize, StepId),
    /// Nothing of a bake is begun before a moment.
    NotBefore(Moment),
    /// Nobody is there until a moment.
    Nobody(Moment),
    /// Something that follows would then wait for longer than it may.
    Waits(usize, StepId),
}

impl Plan {
    /// What keeps something from being done sooner: what all that it waits for, one after the other, comes down to.
    pub(super) fn hinders(
        &self,
        mut place: usize,
        bakes: &[&State],
        now: Moment,
    ) -> Option<Hinders> {
        // A chain is never longer than the plan.
        for _ in &self.items {
            let item = &self.items[place];
            let (bake, step) = item.what.of()?;
            let state = bakes.get(bake)?;
            let stands = match item.what {
                What::Step(..) => state.pins.get(&step) == Some(&item.start),
                What::Retard(..) => {
                    let stay = state.retards.get(&step);
                    stay.is_some_and(|&(from, to)| item.start == from || item.start == to)
                }
                _ => false,
            };
            if stands {
                return Some(Hinders::Fixed(bake, step));
            }
            let Some(next) = item.waits_for else {
                let goes_on = item.start < now || state.progress(step).open_since.is_some();
                let is_hands = state.formula.step(step).is_some_and(|step| step.is_hands());
                return if goes_on && !is_hands {
                    Some(Hinders::GoesOn(bake, step))
                } else if item.start - now < CALLED {
                    Some(Hinders::Now)
                } else {
                    let from = not_before(state).filter(|&from| from == item.start);
                    from.map(Hinders::NotBefore)
                };
            };
            let before = &self.items[next];
            match before.what.of() {
                None => return Some(Hinders::Nobody(before.end)),
                Some((of, _)) if of != bake => return Some(Hinders::Bake(of)),
                Some((of, step)) if before.start > item.start => {
                    return Some(Hinders::Waits(of, step));
                }
                Some(_) => place = next,
            }
        }
        None
    }
}
