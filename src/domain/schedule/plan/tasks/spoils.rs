//! What a bread is filled with is baked before it has stood out too long: what is put off is put off where nothing spoils.
//!
//! The two-hour rule of [`PERISHABLE_LIMIT`](crate::bake::PERISHABLE_LIMIT) counts from the work that brings a filling to
//! the dough until the oven, less a night in the fridge between, and with all that it had stood out before. Work that has
//! yet to put it into the fridge may come as late as its formula lets it. All lengths are the likely ones. What stands
//! out longer whatever is done waits no longer than that; and a night in the fridge that was planned of a rise is by the
//! clock, and told where it lets food stand too long.

use super::{Tasks, whole};
use crate::bake::brings;
use crate::formula::{Length, Step, StepKind};
use crate::kitchen::Place;
use crate::schedule::filled::{all_before, out_limit};
use crate::schedule::plan::what::What;
use crate::units::{Minutes, minutes};

/// Work that puts a filling away, and that no formula limits, comes so late at most. ASSUMPTION: judgement.
const PUT_AWAY: Minutes = minutes(30.0);

/// So much sooner than the rule asks, for hands are late now and then. ASSUMPTION: judgement.
const TO_SPARE: Minutes = minutes(5.0);

impl Tasks<'_> {
    pub(super) fn add_spoiling(&mut self, bake: usize) {
        let state = self.bakes[bake];
        let formula = &state.formula;
        let is_planned_night = |step: &Step| state.retards.contains_key(&step.id);
        for joins in formula.steps.iter().filter(|step| joins(step)) {
            let comes_after = |step: &&Step| all_before(formula, step.id).contains(&joins.id);
            let mut baked = formula.steps.iter().filter(comes_after);
            let baked = baked.find(|step| step.kind == StepKind::Bake);
            let Some(baked) = baked.filter(|step| state.progress(step.id).open_since.is_none())
            else {
                continue;
            };
            let Some(to) = self.place(What::Step(bake, baked.id)) else {
                continue;
            };
            let before = all_before(formula, baked.id);
            let between = formula.steps.iter().filter(comes_after);
            let between = between.filter(|step| before.contains(&step.id));
            let (mut cold, mut is_by_clock) = (0, false);
            for step in between {
                is_by_clock |= is_planned_night(step);
                let night = self.place(What::Step(bake, step.id));
                let night = night.filter(|_| step.kind == StepKind::Retard);
                cold += night.map_or(0, |night| self.tasks[night].minutes);
            }
            if is_by_clock {
                continue;
            }
            let limit = whole(out_limit(state.kitchen.air) - TO_SPARE) + cold;
            let (stood, since) = state.out_before_bake(joins.component, self.now);
            let put_away = self.put_away(bake, joins);
            if let (Some(since), None) = (since, put_away) {
                let by = self.minute(since) + limit;
                self.start_by(to, by, 0);
            } else if let Some(from) = self.place(What::Step(bake, joins.id)) {
                let most =
                    limit - self.tasks[from].minutes - whole(stood) - put_away.unwrap_or_default();
                let most = most.max(self.least_between(from, to));
                self.spoils.push(self.links.len());
                self.link(from, to, (0, Some(most)), 0);
            }
        }
    }

    /// How long a filling may stand yet until work that is to come has put it into the fridge; `None` where none is.
    fn put_away(&self, bake: usize, joins: &Step) -> Option<i32> {
        let state = self.bakes[bake];
        let before = all_before(&state.formula, joins.id);
        let mut steps = state.formula.steps.iter();
        let (step, place) = steps.find_map(|step| {
            let puts_away = step.needs.fridge
                && brings(step)
                && step.component == joins.component
                && before.contains(&step.id);
            let place = self.place(What::Step(bake, step.id));
            Some((step, place.filter(|_| puts_away)?))
        })?;
        let takes = self.tasks[place].minutes;
        let cools = step.after.iter().find_map(|link| {
            let cools = state.formula.step(link.step)?;
            matches!(cools.length, Length::Chill { .. }).then_some((link, cools))
        });
        let Some((link, cools)) = cools else {
            return Some(takes);
        };
        if state.place_of(cools.id) == Some(Place::Fridge) {
            return Some(0);
        }
        let may_wait = match state.progress(cools.id).ended {
            Some(_) => self.tasks[place].latest,
            None => None,
        };
        let may_wait = may_wait.unwrap_or_else(|| whole(link.greatest.unwrap_or(PUT_AWAY)));
        Some(may_wait + takes)
    }

    /// How long it takes at the least from the end of a task to the start of one that comes after it.
    fn least_between(&self, from: usize, to: usize) -> i32 {
        let mut ends: Vec<Option<i32>> = vec![None; self.tasks.len()];
        ends[from] = Some(0);
        for _ in 0..self.tasks.len() {
            let mut is_found = false;
            for link in &self.links {
                let end = ends[link.from].map(|end| end + link.least + self.tasks[link.to].minutes);
                if end > ends[link.to] {
                    ends[link.to] = end;
                    is_found = true;
                }
            }
            if !is_found {
                break;
            }
        }
        ends[to].map_or(0, |end| end - self.tasks[to].minutes)
    }
}

/// Whether hands bring something that spoils to the dough.
fn joins(step: &Step) -> bool {
    brings(step) && !step.needs.fridge
}
