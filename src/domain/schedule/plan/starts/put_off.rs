//! Work that a plan puts off though the hands are free for it.
//!
//! A dough that is mixed ferments, whether it is kneaded or not: so nothing is gained for a moment far ahead by letting it
//! stand at the bowl, and whoever stands there goes on. A plan of links and lengths doesn't know that, and one from before
//! may have promised otherwise.

use crate::bake::State;
use crate::formula::Step;
use crate::schedule::plan::{NOTABLE, Plan, What};
use crate::units::Moment;

impl Plan {
    /// The first work that may wait only so long for work that has ended or goes on, and begins later than hands are free
    /// for it; and since when they are. What needs more than hands waits for that.
    pub(crate) fn put_off(&self, bakes: &[&State], now: Moment) -> Option<(What, Moment)> {
        self.items.iter().find_map(|item| {
            let What::Step(bake, id) = item.what else {
                return None;
            };
            let state = bakes.get(bake)?;
            let is_free = |step: &&Step| {
                let needs = step.needs;
                step.is_hands() && !needs.oven && !needs.hob && !needs.fridge
            };
            let step = state.formula.step(id).filter(is_free)?;
            if state.pins.contains_key(&id) {
                return None;
            }
            let (mut from, mut follows) = (now, false);
            for link in &step.after {
                let ended = state.progress(link.step).ended.is_some();
                let work = state.formula.step(link.step).is_some_and(Step::is_hands);
                follows |= work && link.greatest.is_some();
                if !ended {
                    let before = self.item(What::Step(bake, link.step))?;
                    if !work || before.start > now {
                        return None;
                    }
                    from = from.max(before.end);
                }
            }
            let others = self.items.iter().filter(|other| other.start < item.start);
            let takes_hands = |what: What| match what {
                What::Step(bake, step) => {
                    let step = bakes.get(bake).and_then(|state| state.formula.step(step));
                    step.is_some_and(Step::is_hands)
                }
                other => other == What::Away || other.is_in_passing(),
            };
            let busy = others.filter(|other| takes_hands(other.what));
            let from = busy.fold(from, |from, other| from.max(other.end));
            (follows && item.start - from >= NOTABLE).then_some((item.what, from))
        })
    }
}
