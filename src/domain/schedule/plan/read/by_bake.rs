//! What a plan says of one of its bakes, and of what the hands are at.

use crate::bake::{PERISHABLE_LIMIT, State};
use crate::formula::{Step, StepId};
use crate::schedule::outline::{Outline, Planned};
use crate::schedule::plan::{Item, Plan, What};
use crate::units::Moment;

impl Plan {
    /// The steps of one of its bakes, in the order in which they start.
    #[must_use]
    pub fn order_of(&self, bake: usize) -> Vec<StepId> {
        let items = self.items.iter().filter_map(|item| match item.what {
            What::Step(of, step) if of == bake => Some(step),
            _ => None,
        });
        items.collect()
    }

    /// What the hands are at by the plan, or take up next: the first of their work that hasn't ended by now.
    #[must_use]
    pub fn hands_at(&self, bakes: &[&State], now: Moment) -> Option<&Item> {
        let is_work = |item: &&Item| match item.what {
            What::Step(bake, step) => bakes.get(bake).is_some_and(|state| {
                let of = state.formula.step(step);
                of.is_some_and(Step::is_hands) && state.progress(step).ended.is_none()
            }),
            other => other.is_in_passing() && item.end > now,
        };
        self.items.iter().find(is_work)
    }

    /// When somebody comes back to one of its bakes: where its next work begins as a time away ends.
    #[must_use]
    pub fn on_return(&self, bake: usize, state: &State) -> Option<Moment> {
        let start = self.items.iter().find_map(|item| match item.what {
            What::Step(of, step) if of == bake => {
                let step = state.formula.step(step).filter(|step| step.is_hands());
                step.map(|_| item.start)
            }
            _ => None,
        })?;
        // A plan counts whole minutes.
        let mut away = state.wishes.away.iter();
        let ended = away.find(|(_, to)| (start - *to).get().abs() < 1.0);
        ended.map(|&(_, to)| to)
    }

    /// How much longer than it should something waits that is left out for hours by that, all such waits together, in min.
    pub(crate) fn left_out_for(&self) -> f64 {
        let late = self.items.iter().filter_map(|item| item.too_late_by);
        late.filter(|&late| late > PERISHABLE_LIMIT)
            .fold(0.0, |all, late| all + late.get())
    }

    /// The plan of one of its bakes alone.
    #[must_use]
    pub fn of(&self, bake: usize) -> Option<Outline> {
        let mut steps = Vec::new();
        let mut last = None;
        for (place, item) in self.items.iter().enumerate() {
            let What::Step(of, step) = item.what else {
                continue;
            };
            if of != bake {
                continue;
            }
            if last.is_none_or(|last: usize| item.end >= self.items[last].end) {
                last = Some(place);
            }
            let waited_for = item
                .waits_for
                .and_then(|place| match self.items[place].what {
                    What::Step(of, step) if of == bake => Some(step),
                    _ => None,
                });
            steps.push(Planned {
                step,
                start: item.start,
                end: item.end,
                slack: item.slack,
                waited_for,
                too_late_by: item.too_late_by,
            });
        }
        let table = self.items[last?].window();
        Some(Outline { steps, table })
    }
}
