//! Hands that have to be done before nobody is there any more.
//!
//! What slips by minutes on a day without a break is ready so much later. What slips into a night has to wait for the
//! morning, and a whole table with it; and an end that lies behind the night doesn't show that, for it doesn't move
//! while the evening slips a little. So hands before a time away have a buffer of their own: as much as they may come
//! later than likely, by the windows of what they hang on.

use super::buffer_of;
use crate::bake::State;
use crate::formula::Step;
use crate::schedule::plan::{Plan, What};
use crate::units::{Minutes, Moment, minutes};

/// No bake begins sooner by more than this for a time away.
///
/// ASSUMPTION: judgement: half of a first rise. Whoever is later than that has another evening than was planned.
const MOST: Minutes = minutes(60.0);
/// What ends sooner than this before nobody is there can't be too short, nor is it worth a word.
const NEAR: Minutes = minutes(75.0);

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
        let ahead = away.iter().filter(|(from, _)| *from > now);
        let told = ahead.filter_map(|&(from, _)| {
            let counts = |bake: usize, _: usize| {
                let table = bakes.get(bake).and_then(|state| super::table_of(state));
                table.is_none_or(|table| table > from)
            };
            let (spare, short) = self.until(bakes, from, &counts)?;
            Some(BeforeAway {
                from,
                spare,
                buffer: (spare + short).max(minutes(0.0)),
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
        let counts =
            |bake: usize, place: usize| of.contains(&bake) && self.hangs_on_begin(place, bakes, of);
        let untils = away.iter();
        let shorts = untils.filter_map(|&(from, _)| Some(self.until(bakes, from, &counts)?.1));
        shorts.fold(minutes(0.0), Minutes::max)
    }

    /// Of the hands' work of some bakes that could slip beyond a moment: how much sooner the last of it ends, and how much
    /// less than it may be late the tightest of it has. None where no work is so near.
    fn until(
        &self,
        bakes: &[&State],
        from: Moment,
        counts: &dyn Fn(usize, usize) -> bool,
    ) -> Option<(Minutes, Minutes)> {
        let mut found: Option<(Minutes, Minutes)> = None;
        for (place, item) in self.items.iter().enumerate() {
            let left = from - item.end;
            let is_hands = match item.what {
                What::Step(bake, step) => {
                    let step = bakes.get(bake).and_then(|state| state.formula.step(step));
                    step.is_some_and(Step::is_hands)
                }
                other => other.is_in_passing(),
            };
            let bake = item.what.of().map_or(usize::MAX, |(bake, _)| bake);
            if is_hands && left >= minutes(0.0) && left < NEAR && counts(bake, place) {
                let short = self.late_by(place) - left;
                found = Some(match found {
                    Some((spare, most)) => (spare.min(left), most.max(short)),
                    None => (left, short),
                });
            }
        }
        found
    }

    /// How much later than likely something may end.
    fn late_by(&self, place: usize) -> Minutes {
        buffer_of(&self.items[place].window()).min(MOST)
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
