//! What a moment of a plan hangs on.

use super::{Item, Plan, What};
use crate::estimate::{Basis, Estimate};
use crate::units::{Minutes, Moment};

/// The window of an item's end, from those of everything on the chain that it hangs on, which are
/// taken as independent of each other.
pub(super) fn window(items: &[Item], last: usize) -> Estimate<Moment> {
    let (mut early, mut late) = (0.0, 0.0);
    for place in chain(items, last) {
        early += items[place].slack.0.get().powi(2);
        late += items[place].slack.1.get().powi(2);
    }
    let end = items[last].end;
    let earlier = Minutes::clamped(f64::sqrt(early));
    let later = Minutes::clamped(f64::sqrt(late));
    Estimate::new(end - earlier, end, end + later, Basis::Model)
}

/// The item of some that ends last; that nobody is there afterwards is no matter of the plan.
pub(super) fn last(items: &[Item], is_of: &dyn Fn(What) -> bool) -> Option<usize> {
    let ends = items.iter().enumerate();
    let planned = ends.filter(|(_, item)| item.what != What::Away && is_of(item.what));
    planned
        .max_by_key(|(_, item)| item.end)
        .map(|(place, _)| place)
}

/// The chain that an item hangs on, from it backwards.
///
/// What waits only so that something later needn't wait too long is left out: it may well take
/// longer, and that which it waits for goes on with the chain.
fn chain(items: &[Item], last: usize) -> Vec<usize> {
    let mut places = Vec::new();
    let mut next = Some(last);
    while let Some(place) = next {
        next = items[place].waits_for;
        let is_held_back = next.is_some_and(|other| items[other].start > items[place].start);
        if !is_held_back {
            places.push(place);
        }
    }
    places
}

impl Plan {
    /// The places of the items that the end hangs on, first to last: whatever makes one of them
    /// longer makes the end later.
    #[must_use]
    pub fn critical(&self) -> Vec<usize> {
        self.chain_to(&|_| true)
    }

    /// The same for the end of some of its bakes.
    #[must_use]
    pub fn critical_of(&self, bakes: &[usize]) -> Vec<usize> {
        self.chain_to(&|what| what.of().is_some_and(|(bake, _)| bakes.contains(&bake)))
    }

    fn chain_to(&self, is_of: &dyn Fn(What) -> bool) -> Vec<usize> {
        let last = last(&self.items, is_of);
        let mut places: Vec<usize> = last.map_or_else(Vec::new, |last| chain(&self.items, last));
        places.reverse();
        places
    }
}
