//! What isn't begun in the evening: what is ready no sooner by that, and what would only be weighed for the morning, with
//! butter lying out all night for it.

use super::search::Search;
use super::{margins, not_before, table_of, waits_for_table};
use crate::formula::StepKind;
use crate::schedule::plan::{Plan, What};
use crate::units::{Minutes, Moment, minutes};

impl Search<'_> {
    /// The plan of a bake that can't keep its table, as late as it can be and still be ready as soon as it can: where that
    /// hangs on a time away, what comes before has time enough.
    pub(super) fn late_by_sleep(&mut self, table: Moment, bake: usize) -> Option<Plan> {
        if self.away.is_empty() {
            return None;
        }
        let ready_by = vec![Some(table); self.bakes.len()];
        let from: Vec<_> = self.bakes.iter().map(|state| not_before(state)).collect();
        let soonest = self.soonest(&[bake], &ready_by, &from)?;
        // A length can be a minute more from another start.
        self.by(soonest.end.likely() + minutes(2.0), &[bake], None)
    }

    /// The plan of all in which a bake of which only the gathering comes before a time away begins behind that instead,
    /// unless another table is late by it that isn't without.
    pub(super) fn weighed_with_work(
        &mut self,
        plan: Plan,
        ready_by: &[Option<Moment>],
        at: &[Option<Moment>],
        buffer: &dyn Fn(Moment) -> Option<Minutes>,
    ) -> Plan {
        let mut later = at.to_vec();
        let mut own = Vec::new();
        for (bake, at) in later.iter_mut().enumerate() {
            if let Some(back) = self.only_weighs(&plan, bake) {
                *at = Some(back);
                own.extend(table_of(self.bakes[bake]));
            }
        }
        if own.is_empty() {
            return plan;
        }
        let all: Vec<usize> = (0..self.bakes.len()).collect();
        let Some(other) = self.soonest(&all, ready_by, &later) else {
            return plan;
        };
        let [was, is] = [&plan, &other].map(|plan| margins(self.bakes, plan, buffer));
        let mut both = was.iter().zip(&is);
        let is_late =
            both.any(|(was, is)| is.is_late() && !was.is_late() && !own.contains(&is.table));
        if is_late { plan } else { other }
    }

    /// The end of a time away between the gathering of a bake, with which it begins, and what that is for.
    fn only_weighs(&self, plan: &Plan, bake: usize) -> Option<Moment> {
        let state = self.bakes[bake];
        let is_own = |what: What| what.of().is_some_and(|(of, _)| of == bake);
        let mut items = plan.items.iter().filter(|item| is_own(item.what));
        let (first, next) = (items.next()?, items.next()?);
        let step = state.formula.step(first.what.of()?.1)?;
        let mut away = self.away.iter();
        let (_, to) = away.find(|&&(from, to)| first.end <= from && to <= next.start)?;
        let is_free = waits_for_table(state) && !state.pins.contains_key(&step.id);
        (is_free && step.kind == StepKind::Gather).then_some(*to)
    }
}
