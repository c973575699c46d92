//! Some of the bakes planned, with what is known of them and beside what others do.

use super::{Known, Timetable, not_before};
use crate::bake::State;
use crate::schedule::plan::{Bounds, Goal, Plan, Proven, plan};
use crate::units::{Minutes, Moment, minutes};

/// One search after the other, of the bakes at some places each.
pub(super) struct Search<'a> {
    pub(super) bakes: &'a [&'a State],
    pub(super) away: Vec<(Moment, Moment)>,
    pub(super) buffers: bool,
    pub(super) now: Moment,
    pub(super) before: Option<&'a Timetable>,
    /// By bake: what is known of it, once somebody has asked.
    pub(super) known: Vec<Option<Known>>,
    /// Where breads for several tables were looked for together: how they lie then, which is the order to go forwards in.
    pub(super) together: Option<Plan>,
    /// When the hands rest before times away, in what is looked for backwards.
    pub(super) rests: Vec<(Moment, Moment)>,
    /// How often what is searched now may still ask whether to go on.
    pub(super) left: u32,
    /// By how much a beginning may be sooner than it has to be, because patience ended before that was proven.
    pub(super) short_by: Minutes,
    pub(super) go_on: &'a mut dyn FnMut() -> bool,
}

impl Search<'_> {
    pub(super) fn known(&mut self, bake: usize) -> Known {
        let known = self.known[bake].take();
        let known = known.unwrap_or_else(|| Known::of(self.bakes[bake], self.now));
        self.known[bake].insert(known).clone()
    }

    /// Some of the bakes as late as a table allows.
    pub(super) fn by(
        &mut self,
        table: Moment,
        of: &[usize],
        beside: Option<&Plan>,
    ) -> Option<Plan> {
        self.by_each(&[Some(table)], of, beside)
    }

    /// The same of a table for each, or one for all.
    pub(super) fn by_each(
        &mut self,
        tables: &[Option<Moment>],
        of: &[usize],
        beside: Option<&Plan>,
    ) -> Option<Plan> {
        let from: Vec<_> = of
            .iter()
            .map(|&bake| not_before(self.bakes[bake]))
            .collect();
        let bounds = Bounds {
            goal: Goal::By(tables.iter().copied().max()??),
            ready_by: tables,
            not_before: &from,
            ..Bounds::default()
        };
        let plan = self.planned(of, bounds, beside)?;
        Some(plan.reordered(&|place| of.get(place).copied()))
    }

    /// Some of the bakes as soon as can be.
    pub(super) fn soonest(
        &mut self,
        of: &[usize],
        ready_by: &[Option<Moment>],
        not_before: &[Option<Moment>],
    ) -> Option<Plan> {
        let among = |all: &[Option<Moment>]| of.iter().map(|&bake| all[bake]).collect::<Vec<_>>();
        let (ready_by, not_before) = (among(ready_by), among(not_before));
        let bounds = Bounds {
            ready_by: &ready_by,
            not_before: &not_before,
            ..Bounds::default()
        };
        self.planned(of, bounds, None)
    }

    fn planned(&mut self, of: &[usize], bounds: Bounds, beside: Option<&Plan>) -> Option<Plan> {
        let bakes: Vec<&State> = of.iter().map(|&bake| self.bakes[bake]).collect();
        let before = self.before.map(|before| &before.plan);
        let before = self.together.as_ref().or(before).map(|before| {
            let place = |old| of.iter().position(|&bake| bake == old);
            before.clone().reordered(&place)
        });
        let bounds = Bounds {
            closed: &self.away,
            beside: beside.map(|plan| (plan, self.bakes)),
            pins: true,
            spares: self.buffers,
            rests: if bounds.goal == Goal::Soonest {
                &[]
            } else {
                &self.rests
            },
            ..bounds
        };
        // No search takes more than half of what is left, so that there always is something for the next one.
        let (left, go_on) = (&mut self.left, &mut *self.go_on);
        let least = *left / 2;
        let mut turn = || {
            *left -= u32::from(*left > least);
            *left > least && go_on()
        };
        let found = plan(&bakes, bounds, self.now, before.as_ref(), &mut turn);
        let ended = *left <= least;
        if let Goal::By(by) = bounds.goal {
            let short_by = match found.as_ref().map(|found| found.proven) {
                Some(Proven::Short(short_by)) => short_by,
                None if ended => by - self.now,
                _ => minutes(0.0),
            };
            self.short_by = self.short_by.max(short_by);
        }
        found
    }
}
