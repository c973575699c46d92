//! Food that counts as lost only because a press came late.

use super::Bake;
use super::since::{moments, since};
use super::undo::undone;
use crate::units::Moment;

impl Bake {
    /// What was said that ended how long something stood out that is lost, where it isn't lost if that was sooner, and it can
    /// have been: hands are floury, and nobody should throw a good bread away for it.
    ///
    /// Of a filling whose temperature was told late there is no such way back.
    #[must_use]
    pub fn press_that_lost(&self, now: Moment) -> Option<u32> {
        let state = self.state();
        let lost = state.stood(now).into_iter();
        let lost = lost.filter(|stood| stood.is_lost(now) && stood.until.is_some());
        let lost: Vec<_> = lost.collect();
        if lost.is_empty() {
            return None;
        }
        let undone = undone(self.log());
        let moments = moments(self.log(), &undone);
        let both = (0_u32..).zip(self.log());
        let said = both.filter(|(place, entry)| {
            let event = &entry.event;
            event.can_be_earlier() && !event.leaves_out() && !undone.contains(place)
        });
        let ended = said.filter_map(|(place, entry)| {
            let at = moments[place as usize];
            let step = entry.event.step().and_then(|step| state.formula.step(step));
            let ends = lost.iter().find(|stood| {
                stood.until == Some(at) && step.is_none_or(|step| stood.concerns(step))
            });
            Some((place, ends?.by()))
        });
        let (place, in_time) = ended.last()?;
        since(self, place, in_time).is_ok().then_some(place)
    }
}
