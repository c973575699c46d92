//! Hands that have to be done before nobody is there any more.
//!
//! What slips by minutes on a day without a break is ready so much later. What slips into a night has to wait for the
//! morning, and a whole table with it; and an end that lies behind the night doesn't show that, for it doesn't move
//! while the evening slips a little. So hands before a time away have a buffer of their own: as much as they may come
//! later than likely, by the windows of what they hang on.

use super::buffer_of;
use crate::bake::State;
use crate::formula::Step;
use crate::schedule::plan::{Plan, What, chain};
use crate::units::{Minutes, Moment, minutes};

/// No bake begins sooner by more than this for a time away.
///
/// ASSUMPTION: judgement: half of a first rise. Whoever is later than that has another evening than was planned.
const MOST: Minutes = minutes(60.0);

/// Hands that end before nobody is there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeforeAway {
    /// From when on nobody is there.
    pub from: Moment,
    /// How much sooner the hands are likely done.
    pub spare: Minutes,
    /// How much sooner they should be, because they may be so much later than likely.
    pub buffer: Minutes,
}

impl Plan {
    /// How the hands' work stands to the times at which nobody is there, of those that have work before them and lie
    /// ahead. What is only for a table that is sooner has the buffer of that.
    #[must_use]
    pub fn before_away(
        &self,
        bakes: &[&State],
        away: &[(Moment, Moment)],
        now: Moment,
    ) -> Vec<BeforeAway> {
        let is_past = |bake: usize, from: Moment| {
            let table = bakes.get(bake).and_then(|state| super::table_of(state));
            table.is_some_and(|table| table <= from)
        };
        let ahead = away.iter().filter(|(from, _)| *from > now);
        let told = ahead.filter_map(|&(from, _)| {
            let is_of = |bake: usize| !is_past(bake, from);
            let (mut spare, mut short) = (None, minutes(-f64::from(u16::MAX)));
            for place in self.hands_before(bakes, &is_of, from) {
                let left = from - self.items[place].end;
                spare = Some(spare.map_or(left, |known: Minutes| known.min(left)));
                short = short.max(self.late_by(place) - left);
            }
            let spare = spare?;
            let buffer = (spare + short).max(minutes(0.0));
            Some(BeforeAway {
                from,
                spare,
                buffer,
            })
        });
        told.collect()
    }

    /// How much sooner some bakes should begin for the sake of what their hands do before nobody is there; nothing where
    /// all that has time enough, or hangs on something else than when they begin.
    pub(super) fn short_before_away(
        &self,
        bakes: &[&State],
        of: &[usize],
        away: &[(Moment, Moment)],
    ) -> Minutes {
        let is_of = |bake: usize| of.contains(&bake);
        let mut short = minutes(0.0);
        for &(from, _) in away {
            for place in self.hands_before(bakes, &is_of, from) {
                let short_of = self.late_by(place) - (from - self.items[place].end);
                if short_of > short && self.hangs_on_begin(place, bakes, of) {
                    short = short_of;
                }
            }
        }
        short
    }

    /// The hands' work of some bakes that could slip beyond a moment.
    fn hands_before<'a>(
        &'a self,
        bakes: &'a [&State],
        is_of: &'a dyn Fn(usize) -> bool,
        from: Moment,
    ) -> impl Iterator<Item = usize> + 'a {
        let is_hands = |what: What| match what {
            What::Step(bake, step) => {
                let state = bakes.get(bake);
                state.is_some_and(|state| state.formula.step(step).is_some_and(Step::is_hands))
            }
            other => other.is_in_passing(),
        };
        let items = self.items.iter().enumerate();
        let near = items.filter(move |(_, item)| {
            item.end <= from
                && from - item.end < MOST + minutes(15.0)
                && item.what.of().is_some_and(|(bake, _)| is_of(bake))
                && is_hands(item.what)
        });
        near.map(|(place, _)| place)
    }

    /// How much later than likely something may end.
    fn late_by(&self, place: usize) -> Minutes {
        buffer_of(&chain::window(&self.items, place)).min(MOST)
    }

    /// Whether something would be sooner if the bakes that it is of began sooner.
    fn hangs_on_begin(&self, place: usize, bakes: &[&State], of: &[usize]) -> bool {
        let mut root = place;
        while let Some(next) = self.items[root].waits_for {
            root = next;
        }
        match self.items[root].what {
            What::Step(bake, step) => {
                let first = self.begin_of(bake, bakes[bake]);
                of.contains(&bake) && first.is_some_and(|(first, _)| first == step)
            }
            _ => false,
        }
    }
}
