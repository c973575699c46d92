//! Hands that have to be done before nobody is there any more.
//!
//! What slips by minutes on a day without a break is ready so much later. What slips into a night has to wait for the
//! morning, and a whole table with it; and an end that lies behind the night doesn't show that, for it doesn't move
//! while the evening slips a little. So hands before a time away have a buffer of their own: as much as they may come
//! later than likely, by the windows of what they hang on.

use super::hinders::Hinders;
use super::{LESS_BUFFER, buffer_of};
use crate::bake::State;
use crate::formula::{Step, StepId};
use crate::schedule::plan::{Plan, What};
use crate::units::{Minutes, Moment, minutes};

/// No bake begins sooner by more than this for a time away.
///
/// ASSUMPTION: judgement: half of a first rise. Whoever is later than that has another evening than was planned.
pub(crate) const MOST: Minutes = minutes(60.0);
/// What ends sooner than this before nobody is there can't be too short, nor is it worth a word.
pub(crate) const NEAR: Minutes = minutes(75.0);

/// Hands that end before nobody is there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BeforeAway {
    /// From when on nobody is there.
    pub from: Moment,
    /// How much sooner the hands are likely done.
    pub spare: Minutes,
    /// How much sooner they should be, because they may be so much later than likely.
    pub buffer: Minutes,
    /// What keeps them from being done sooner, where that is known.
    pub why: Option<Hinders>,
}

/// Whether nothing of a bake follows a step: for a table that lies behind a time away it can be done as well after that.
pub(crate) fn is_last(state: &State, step: StepId) -> bool {
    let steps = state.formula.steps.iter();
    let mut links = steps.flat_map(|step| &step.after);
    !links.any(|link| link.step == step)
}

/// The same of some bakes.
#[derive(Clone, Copy)]
struct Until {
    /// How much sooner the last of their work ends.
    spare: Minutes,
    /// How much less than it may be late the tightest of it has.
    short: Minutes,
    /// How much later than likely any of it may end.
    late: Minutes,
    /// The place of that which has least.
    tightest: usize,
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
            let until = self.until(bakes, from, &counts)?;
            Some(BeforeAway {
                from,
                spare: until.spare,
                buffer: (until.spare + until.short).max(minutes(0.0)),
                why: self.hinders(until.tightest, bakes, now),
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
        let shorts = untils.filter_map(|&(from, _)| Some(self.until(bakes, from, &counts)?.short));
        shorts.fold(minutes(0.0), Minutes::max)
    }

    /// When the hands of some bakes should rest before times away: from as much sooner as the latest of them may be late.
    /// Nothing where all of them have time enough.
    pub(super) fn rests(
        &self,
        bakes: &[&State],
        of: &[usize],
        away: &[(Moment, Moment)],
    ) -> Option<Vec<(Moment, Moment)>> {
        let counts = |bake: usize, _: usize| of.contains(&bake);
        let untils = away
            .iter()
            .filter_map(|&(from, _)| Some((from, self.until(bakes, from, &counts)?)));
        let untils: Vec<(Moment, Until)> = untils.collect();
        let is_short = untils.iter().any(|(_, until)| until.short > LESS_BUFFER);
        let rests = untils
            .iter()
            .map(|&(from, ref until)| (from - until.late, from));
        is_short.then(|| rests.collect())
    }

    /// Of the hands' work of some bakes that could slip beyond a moment; none where no work is so near.
    fn until(
        &self,
        bakes: &[&State],
        from: Moment,
        counts: &dyn Fn(usize, usize) -> bool,
    ) -> Option<Until> {
        let mut found: Option<Until> = None;
        for (place, item) in self.items.iter().enumerate() {
            let left = from - item.end;
            let (is_hands, is_last) = match item.what {
                What::Step(bake, id) => {
                    let step = bakes.get(bake).and_then(|state| state.formula.step(id));
                    let is_last = bakes.get(bake).is_some_and(|state| is_last(state, id));
                    (step.is_some_and(Step::is_hands), is_last)
                }
                other => (other.is_in_passing(), false),
            };
            let bake = item.what.of().map_or(usize::MAX, |(bake, _)| bake);
            if is_hands && left >= minutes(0.0) && left < NEAR && counts(bake, place) {
                let late = if is_last {
                    minutes(0.0)
                } else {
                    self.late_by(place)
                };
                let is = Until {
                    spare: left,
                    short: late - left,
                    late,
                    tightest: place,
                };
                found = Some(found.map_or(is, |most| Until {
                    spare: most.spare.min(is.spare),
                    short: most.short.max(is.short),
                    late: most.late.max(is.late),
                    tightest: if is.short > most.short {
                        place
                    } else {
                        most.tightest
                    },
                }));
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
