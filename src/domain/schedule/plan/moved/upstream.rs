//! What leads to what moved, and which way.

use super::{Both, End, Why};
use crate::formula::{Step, StepId};
use crate::schedule::plan::What;
use crate::units::Minutes;

impl Why {
    /// Which way it moves what follows from it: above 0 later, below 0 sooner, and 0 where it can do both.
    #[must_use]
    pub fn leads(&self) -> f64 {
        match self {
            Self::Ready(_, by) | Self::Hands(_, by) => by.get(),
            Self::Dough(_, by) => -by.get(),
            Self::LeftOut(_) | Self::Earlier(..) | Self::Looked(_, true) => -1.0,
            Self::NotYet(..) | Self::FoldNotYet(..) | Self::Looked(_, false) => 1.0,
            // A dough that nobody put into the fridge rises on meanwhile.
            Self::Unmoved(..) => 0.0,
            _ if self.is_passing() => 1.0,
            _ => 0.0,
        }
    }
}

impl Both<'_> {
    /// What the later of the two moments hangs on that are told, an end's or what begins at another time: by the places
    /// of the later plan.
    pub(super) fn chain(&self, end: &End, next: Option<What>, told: Minutes) -> Vec<What> {
        let is_later = told.get() > 0.0;
        let made = if is_later { &self.after } else { &self.before };
        let plan = &made.timetable.plan;
        let places = match next {
            Some(next) => {
                let what = if is_later {
                    Some(next)
                } else {
                    self.was(next).map(|was| was.what)
                };
                what.map_or_else(Vec::new, |what| plan.chain_of(what))
            }
            None => {
                let bakes = end.bakes.iter();
                let known = bakes.filter_map(|&bake| {
                    if is_later {
                        Some(bake)
                    } else {
                        self.place_before(bake)
                    }
                });
                plan.critical_of(&known.collect::<Vec<_>>())
            }
        };
        let moved = places.into_iter().filter_map(|place| {
            let what = plan.items[place].what;
            let id = &made.bakes.get(what.of()?.0)?.id;
            let bake = self.after.bakes.iter().position(|known| known.id == *id)?;
            Some(what.at(bake))
        });
        moved.collect()
    }

    /// Whether what ended comes before something in a chain: what that hangs on follows it, or both are hands' work.
    pub(super) fn is_before(&self, bake: usize, place: usize, chain: &[What]) -> bool {
        if chain.is_empty() {
            // Nothing is left but what ended.
            return true;
        }
        let Some(ended) = self.after.bakes[bake].log()[place].event.step() else {
            return false;
        };
        let is_hands =
            |bake: usize, step: StepId| self.step(bake, step).is_some_and(Step::is_hands);
        let works = is_hands(bake, ended);
        let steps = || chain.iter().filter_map(|what| what.of());
        let mut before: Vec<StepId> = steps()
            .filter_map(|(of, step)| (of == bake).then_some(step))
            .collect();
        let mut next = 0;
        while let Some(step) = before.get(next).and_then(|&step| self.step(bake, step)) {
            next += 1;
            let formula = &self.state(bake).formula;
            let ahead = formula.steps.iter();
            let ahead = ahead.filter(|one| {
                step.after.iter().any(|link| link.step == one.id) || step.ahead_of == Some(one.id)
            });
            for one in ahead {
                if !before.contains(&one.id) {
                    before.push(one.id);
                }
            }
        }
        before.contains(&ended) || (works && steps().any(|(of, step)| is_hands(of, step)))
    }
}
