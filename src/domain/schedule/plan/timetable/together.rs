//! Breads for several tables that stand in each other's way are looked for together.

use super::begins::{Begin, EARLIER};
use super::search::Search;
use super::{not_before, table_of};
use crate::schedule::plan::{NOTABLE, Plan};
use crate::units::minutes;

impl Search<'_> {
    /// Whether a bake begins so much sooner than it had to by itself that nothing but something that stands in its way
    /// can be why.
    pub(super) fn gives_way(&mut self, bake: usize, begin: &Begin) -> bool {
        let state = self.bakes[bake];
        let (Some(at), Some(buffer), Some(table)) = (begin.at, begin.buffer, table_of(state))
        else {
            return false;
        };
        let stands = !state.pins.is_empty() || !state.retards.is_empty();
        !stands && at < table - buffer - self.known(bake).takes - EARLIER
    }

    /// How late bakes for several tables can begin if none of them stands where it would be by itself, each a buffer before
    /// its table; taken where all of them together begin later by that, or where one of them is short of time before nobody is
    /// there and then isn't. Gives the plan of them.
    ///
    /// What is for a sooner table leaves its hands and its oven as they happen to be free, and a bread that has to fit
    /// between can lose hours to a few minutes.
    pub(super) fn together(
        &mut self,
        of: &[usize],
        beside: Option<&Plan>,
        begins: &mut [Begin],
        is_short: bool,
    ) -> Option<Plan> {
        let ready_by = of.iter().map(|&bake| {
            let table = table_of(self.bakes[bake])?;
            // To the minute, one that takes a minute longer would lose its place in the oven.
            Some(table - begins[bake].buffer? - NOTABLE)
        });
        let ready_by: Vec<_> = ready_by.collect();
        let search = |search: &mut Self| search.by_each(&ready_by, of, beside);
        let plan = search(self)?;
        let plan = self.spared(&plan, of, &search).unwrap_or(plan);
        let short = self.short(&plan, of);
        let at = of.iter().map(|&bake| {
            let buffer = begins[bake].buffer.unwrap_or(minutes(0.0));
            let at = self.begin_of(bake, &plan, Some(&plan), buffer, short);
            at.max(not_before(self.bakes[bake]))
        });
        let at: Vec<_> = at.collect();
        let mut later = of.iter().zip(&at);
        let later = later.try_fold(minutes(0.0), |all, (&bake, &at)| {
            Some(all + (at? - begins[bake].at?))
        })?;
        let is_safer = is_short && !self.is_short(&plan, of);
        (is_safer || later > EARLIER).then(|| {
            for (&bake, at) in of.iter().zip(at) {
                begins[bake].at = at;
            }
            plan
        })
    }
}
