//! Whether bakes begin soon enough for what their hands do before a time away.

use super::before_away::MOST;
use super::begins::LESS_BUFFER;
use super::search::Search;
use super::{Margin, Timetable};
use crate::schedule::plan::Plan;
use crate::units::{Minutes, minutes};

impl Search<'_> {
    /// How much less the hands have to spare before a time away than they may be late.
    pub(super) fn missing(&self, of: &Timetable) -> Minutes {
        let told = of.plan.before_away(self.bakes, &self.away, self.now);
        let missing = told.iter().map(|told| told.buffer - told.spare);
        missing.fold(minutes(0.0), Minutes::max)
    }

    /// Whether a plan is worth calling off what was promised by another, because so much less is missing before a time away.
    pub(super) fn is_safer(&self, found: &Timetable, kept: &Timetable) -> bool {
        let is_late = |of: &Timetable| of.margins.iter().any(Margin::is_late);
        let less = self.missing(kept) - self.missing(found);
        less >= LESS_BUFFER && (is_late(kept) || !is_late(found))
    }

    /// Whether some of several bakes have too little to spare before a time away.
    pub(super) fn is_short(&self, plan: &Plan, of: &[usize]) -> bool {
        let several = self.buffers && self.bakes.len() > 1;
        several && plan.rests(self.bakes, of, &self.away).is_some()
    }

    /// The same with hands that rest before times away, where one leaves them too little to spare beside other bakes: these
    /// begin sooner by other times, so the order has to be one in which there is as much. None where a bake had to begin
    /// much sooner for it.
    pub(super) fn spared(
        &mut self,
        found: &Plan,
        of: &[usize],
        search: &dyn Fn(&mut Self) -> Option<Plan>,
    ) -> Option<Plan> {
        if !self.is_short(found, of) {
            return None;
        }
        let rests = found.rests(self.bakes, of, &self.away)?;
        let were = self.rests.len();
        self.rests.extend(rests);
        let spared = search(self).filter(|spared| {
            of.iter().all(|&bake| {
                let begins = |plan: &Plan| Some(plan.begin_of(bake, self.bakes[bake])?.1);
                let both = begins(found).zip(begins(spared));
                both.is_none_or(|(was, is)| was - is <= MOST)
            })
        });
        if spared.is_none() {
            self.rests.truncate(were);
        }
        spared
    }

    /// How much is missing before a time away, where that is asked for.
    pub(super) fn short(&self, plan: &Plan, of: &[usize]) -> Minutes {
        if self.buffers {
            plan.short_before_away(self.bakes, of, &self.away)
        } else {
            minutes(0.0)
        }
    }
}
