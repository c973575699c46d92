//! What comes before something that stands where it stands: a step that was fixed, or a retard that is planned.

use super::not_before;
use super::search::Search;
use crate::bake::State;
use crate::formula::StepId;
use crate::schedule::plan::{Item, Plan, What};
use crate::units::{Minutes, Moment, minutes};

/// A moment by which all of a bake can have ended that has a retard planned; none where it has none.
///
/// As late as can be by then, what comes before the retard is as late as that allows.
pub(crate) fn after_retards(state: &State) -> Option<Moment> {
    const DAY: Minutes = minutes(24.0 * 60.0);
    let outs = state.retards.values().map(|&(_, out)| out);
    outs.max().map(|out| out + DAY)
}

impl Plan {
    /// How much later than likely a bake may come to its first step that stands where it stands: the windows of what
    /// ends before that, in quadrature. None where nothing of it does.
    pub(crate) fn lead_of(&self, bake: usize, state: &State) -> Option<Minutes> {
        let steps = self.items.iter().filter_map(|item| match item.what {
            What::Step(of, step) if of == bake => Some((step, item)),
            _ => None,
        });
        let stands = |&(step, item): &(StepId, &Item)| {
            let retard = state.retards.get(&step).map(|(from, _)| from);
            let at = state.pins.get(&step).or(retard);
            at.is_some_and(|&at| (item.start - at).get().abs() < 1.0)
        };
        let until = steps.clone().find(stands)?.1.start;
        let late = steps.filter(|(_, item)| item.end <= until);
        let late = late.fold(0.0, |late, (_, item)| late + item.slack.1.get().powi(2));
        Some(Minutes::clamped(f64::sqrt(late)).up_to_five())
    }
}

impl Search<'_> {
    /// A bake that a fixed step makes late, as late as the end allows that it then has.
    pub(super) fn late_by_fix(&mut self, bake: usize) -> Option<Plan> {
        let state = self.bakes[bake];
        if state.pins.is_empty() {
            return None;
        }
        let mut from = vec![None; self.bakes.len()];
        let wished = from.clone();
        from[bake] = not_before(state);
        let end = self.soonest(&[bake], &wished, &from)?.end.likely();
        let latest = self.by(end, &[bake], None)?;
        // What can't be kept as it was fixed is late for another reason.
        latest.lead_of(bake, state).is_some().then_some(latest)
    }
}
