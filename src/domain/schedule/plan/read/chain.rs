//! What a moment of a plan hangs on.

use crate::estimate::{Basis, Estimate};
use crate::schedule::plan::{Item, Plan, What};
use crate::units::Moment;

impl Item {
    /// When it may end, for all that it hangs on.
    #[must_use]
    pub fn window(&self) -> Estimate<Moment> {
        let (early, late) = self.reach;
        Estimate::new(self.end - early, self.end, self.end + late, Basis::Model)
    }
}

/// The item of some that ends last; that nobody is there afterwards is no matter of the plan.
pub(crate) fn last(items: &[Item], is_of: &dyn Fn(What) -> bool) -> Option<usize> {
    let ends = items.iter().enumerate();
    let planned = ends.filter(|(_, item)| item.what != What::Away && is_of(item.what));
    planned
        .max_by_key(|(_, item)| item.end)
        .map(|(place, _)| place)
}

/// When everything planned is ready, of all breads the last, however it comes out; nothing where nothing is planned.
pub(crate) fn all_ready(items: &[Item]) -> Option<Estimate<Moment>> {
    let bakes = items.iter().filter_map(|item| item.what.of());
    let most = bakes.map(|(bake, _)| bake).max()?;
    let last_of = |bake: usize| last(items, &|what| what.of().is_some_and(|(of, _)| of == bake));
    let ends = (0..=most).filter_map(last_of);
    together(ends.map(|place| items[place].window()))
}

/// When the last of some is ready, whichever that is in the end.
pub(crate) fn together(ready: impl Iterator<Item = Estimate<Moment>>) -> Option<Estimate<Moment>> {
    ready.reduce(|one, other| {
        Estimate::new(
            one.low().max(other.low()),
            one.likely().max(other.likely()),
            one.high().max(other.high()),
            one.basis(),
        )
    })
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

    /// The same for an item itself.
    pub(crate) fn chain_of(&self, what: What) -> Vec<usize> {
        let place = self.items.iter().position(|item| item.what == what);
        place.map_or_else(Vec::new, |place| chain(&self.items, place))
    }

    fn chain_to(&self, is_of: &dyn Fn(What) -> bool) -> Vec<usize> {
        let last = last(&self.items, is_of);
        let mut places: Vec<usize> = last.map_or_else(Vec::new, |last| chain(&self.items, last));
        places.reverse();
        places
    }
}
