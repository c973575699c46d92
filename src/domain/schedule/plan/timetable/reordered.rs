//! A plan as others stand beside it, at other times, and held against where its bakes are.

use super::Timetable;
use crate::bake::State;
use crate::estimate::Estimate;
use crate::schedule::plan::{Plan, What};
use crate::units::{Minutes, Moment};

impl Timetable {
    /// The same where the bakes stand in another order: `place_of` says where each stands now, of
    /// so many, if it is planned still.
    #[must_use]
    pub fn reordered(&self, place_of: &dyn Fn(usize) -> Option<usize>, bakes: usize) -> Self {
        let mut moved = Self {
            plan: self.plan.clone().reordered(place_of),
            margins: self.margins.clone(),
            begins: vec![None; bakes],
            ready: vec![None; bakes],
            known: vec![None; bakes],
        };
        for (old, (begins, known)) in self.begins.iter().zip(&self.known).enumerate() {
            if let Some(place) = place_of(old) {
                (moved.begins[place], moved.known[place]) = (*begins, known.clone());
                moved.ready[place] = self.ready[old];
            }
        }
        moved
    }
}

impl Plan {
    /// Whether the bakes have fallen behind it: something should have ended or begun, and hasn't.
    #[must_use]
    pub fn is_overtaken(&self, bakes: &[&State], now: Moment) -> bool {
        self.items.iter().any(|item| {
            let (bake, step) = match item.what {
                What::Step(bake, step) => (bake, step),
                What::Retard(bake, ..) => {
                    let state = bakes.get(bake).filter(|_| item.start < now);
                    return state.is_some_and(|state| state.to_be_moved(now).is_some());
                }
                _ => return false,
            };
            let progress = bakes.get(bake).map(|state| state.progress(step));
            progress.is_some_and(|progress| {
                let is_open = progress.open_since.is_some();
                progress.ended.is_none() && (item.end < now || (item.start < now && !is_open))
            })
        })
    }

    /// The same plan at other times.
    #[must_use]
    pub(super) fn shifted(&self, by: Minutes) -> Self {
        let mut shifted = self.clone();
        for item in &mut shifted.items {
            (item.start, item.end) = (item.start + by, item.end + by);
        }
        let end = self.end;
        shifted.end = Estimate::new(
            end.low() + by,
            end.likely() + by,
            end.high() + by,
            end.basis(),
        );
        shifted
    }

    /// The same plan where the bakes stand in another order.
    pub(crate) fn reordered(mut self, place_of: &dyn Fn(usize) -> Option<usize>) -> Self {
        let moved = |what: What| match what.of() {
            Some((bake, _)) => Some(what.at(place_of(bake)?)),
            None => Some(what),
        };
        let all = self.items.len();
        self.items
            .retain_mut(|item| moved(item.what).map(|what| item.what = what).is_some());
        // Where something has gone, the places are others. Only starts are looked at then, so what waited for what may go.
        if self.items.len() < all {
            for item in &mut self.items {
                item.waits_for = None;
            }
        }
        self
    }
}
