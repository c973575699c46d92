//! A filling that is made the day before.

use super::{Lever, Search};
use crate::bake::{Intent, Wishes};
use crate::formula::{ComponentKind, Formula, StepKind};
use crate::schedule::plan::ways::trial::LeftOff;
use crate::units::{Minutes, Moment, minutes};

/// A filling made the day before is in the fridge so long before anything else begins.
///
/// ASSUMPTION: judgement: a night.
const DAY_BEFORE: Minutes = minutes(8.0 * 60.0);

impl Search<'_> {
    /// Where nothing may be begun before a moment, a filling may still be made the evening before.
    ///
    /// Otherwise a plan puts it there by itself, if that helps. The mixing is fixed to the moment before which
    /// nothing else shall be begun, so that only the filling comes before that.
    pub(super) async fn day_before(
        &mut self,
        bake: usize,
        formula: &Formula,
    ) -> Result<(), LeftOff> {
        let state = self.bakes[bake].state();
        let Some(not_before) = state.wishes.not_before else {
            return Ok(());
        };
        let fillings = formula.components.iter();
        let fillings = fillings.filter(|part| part.kind == ComponentKind::Filling);
        for filling in fillings {
            let own = || {
                let steps = formula.steps.iter();
                steps.filter(|step| step.component == filling.id)
            };
            let Some(put_away) = own().find(|step| step.puts_perishable_away()) else {
                continue;
            };
            let (Some(first), Some(kept)) = (own().next(), state.kept_after(put_away)) else {
                continue;
            };
            let mixing = formula
                .steps
                .iter()
                .find(|step| step.component != filling.id && step.kind != StepKind::Gather);
            let Some(mixing) = mixing else { continue };
            let (Some(begun), Some(away)) = (
                self.was.step(bake, first.id),
                self.was.step(bake, put_away.id),
            ) else {
                continue;
            };
            let usual = away.end - begun.start;
            let Some(from) = self.free_before(not_before - DAY_BEFORE, usual) else {
                continue;
            };
            let (wishes, mix) = (state.wishes.clone(), not_before.max(self.trials.now));
            let lifted = Wishes {
                not_before: None,
                ..wishes
            };
            let intents = vec![
                Intent::Wish(Box::new(lifted)),
                Intent::Pin(first.id, Some(from)),
                Intent::Pin(mixing.id, Some(mix)),
            ];
            // Tried as it is asked for: what is refused then would be refused when it is pressed.
            let Some(after) = self.asked(bake, Intent::AtOnce(intents.clone())) else {
                continue;
            };
            let trial = self.with(bake, after).await?;
            let fill = own().find(|step| step.kind == StepKind::Fill);
            let (Some(begun), Some(away), Some(fill)) = (
                trial.step(bake, first.id),
                trial.step(bake, put_away.id),
                fill.and_then(|step| trial.step(bake, step.id)),
            ) else {
                continue;
            };
            let (from, to, fill) = (begun.start, away.end, fill.start);
            let days = kept.days().0;
            if to > not_before || fill - to > minutes(f64::from(days) * 24.0 * 60.0) {
                continue;
            }
            let lever = Lever::DayBefore {
                bake,
                component: filling.id,
                from,
                to,
                days,
            };
            let intents = intents.into_iter().map(|intent| (bake, intent)).collect();
            self.offer(bake, &trial, lever, None, minutes(0.0), intents);
        }
        Ok(())
    }

    /// The latest beginning of something so long that has ended by a moment, with somebody there.
    fn free_before(&self, by: Moment, length: Minutes) -> Option<Moment> {
        let mut start = by - length;
        for (from, to) in self.away().into_iter().rev() {
            if start < to && start + length > from {
                start = from - length;
            }
        }
        (start > self.trials.now).then_some(start)
    }
}
