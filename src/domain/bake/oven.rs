//! What one bread has of the oven: whether it is on for it, whether it is in there, and how hot it leaves it to another.
//!
//! Bakes share a kitchen and not a log. What an oven had from another bread as it was turned on is therefore an entry of
//! the bake that turns it on ([`found_hot`]), or its forecast would be that of an oven that heats from cold.

use super::intent::Intent;
use super::progress::How;
use super::state::State;
use crate::formula::{Length, Step, StepId, StepKind};
use crate::units::{Celsius, Minutes, Moment, minutes};

/// For how long after a bread has come out its oven is still taken to be hot: whoever has another one
/// to bake leaves it on.
///
/// ASSUMPTION: judgement.
pub(crate) const LEFT_ON: Minutes = minutes(30.0);
/// How long a hot oven takes to get over its open door.
///
/// ASSUMPTION: common practice, no source.
const RECOVERS: Minutes = minutes(5.0);
/// How fast an oven with its door ajar loses heat, in kelvins a minute.
///
/// ASSUMPTION: judgement; ovens differ by more than a factor of two.
const COOLS: f64 = 5.0;

/// How long an oven takes from one temperature to another, which it reaches in `cold` from the air's.
pub(crate) fn heats(from: Celsius, to: Celsius, air: Celsius, cold: Minutes) -> Minutes {
    let (rise, all) = ((to - from).get(), (to - air).get());
    let takes = if rise >= 0.0 && all > 0.0 {
        cold * (rise / all)
    } else {
        minutes(-rise / COOLS)
    };
    takes.max(RECOVERS).min(cold.max(RECOVERS))
}

/// What is asked of a bake where the oven that it turns on is hot from another bread: that is said with it.
#[must_use]
pub fn found_hot(intent: Intent, state: &State, others: &[&State], now: Moment) -> Intent {
    let (Intent::Done(step) | Intent::Skip(step)) = intent else {
        return intent;
    };
    let turns_on = state.formula.step(step).map(|step| step.kind) == Some(StepKind::OvenOn);
    let hot = others.iter().filter_map(|other| other.oven_hot(now));
    match hot.max_by_key(|&(until, _)| until).filter(|_| turns_on) {
        Some((_, oven)) => Intent::AtOnce(vec![Intent::OvenHot(step, oven), intent]),
        None => intent,
    }
}

/// The bread that an oven is still hot from, which was to be left on for another.
#[must_use]
pub fn left_on_by<'a>(others: &[&'a State], now: Moment) -> Option<&'a State> {
    let mut others = others.iter().filter(|other| !other.has_oven_on());
    others.find(|other| other.oven_hot(now).is_some()).copied()
}

impl State {
    /// Whether the oven is on for this bread: until it is out, nobody has to turn one on for another.
    #[must_use]
    pub fn has_oven_on(&self) -> bool {
        let ended = |step: &Step| self.progress(step.id).ended;
        let mut steps = self.formula.steps.iter();
        let is_on = steps.any(|step| {
            let ended = ended(step).filter(|ended| ended.how == How::Done);
            step.kind == StepKind::OvenOn && ended.is_some()
        });
        let mut steps = self.formula.steps.iter();
        is_on && steps.any(|step| step.needs.oven && ended(step).is_none())
    }

    /// What takes out a bread whose bake has ended: it goes on baking until then, whatever else the hands are wanted for.
    #[must_use]
    pub fn to_take_out(&self) -> Option<StepId> {
        let mut steps = self.formula.steps.iter();
        let found = steps.find(|step| self.is_open(step.id) && self.takes_out(step));
        found.map(|step| step.id)
    }

    /// Whether the last of this bread comes out of the oven now, or has and nothing else was done since or is left to do:
    /// then is when it is to be turned off.
    #[must_use]
    pub fn is_done_with_oven(&self) -> bool {
        let Some(out) = self.formula.steps.iter().rfind(|step| self.takes_out(step)) else {
            return false;
        };
        match self.progress(out.id).ended {
            None => self.to_take_out() == Some(out.id),
            Some(out) => {
                let mut others = self.steps.values().filter_map(|step| step.ended);
                self.all_ended() || others.all(|ended| ended.at <= out.at)
            }
        }
    }

    /// How long before its likely end the oven is to be hot for a step that may end so much early.
    ///
    /// The window of a rise after the cold opens hours early for what nobody knows of its dough's warmth, and an oven would
    /// stand hot and empty for as long: there it is as early as the formula's own range is.
    pub(crate) fn hot_before(&self, step: StepId, start: Moment, early: Minutes) -> Minutes {
        let step = self.formula.step(step);
        match step.map(|step| (step, &step.length)) {
            Some((
                step,
                Length::Ferment {
                    reference_minutes,
                    from_fridge,
                    ..
                },
            )) if *from_fridge || !self.times_in_fridge(step, start).is_empty() => {
                early.min(reference_minutes.likely() - reference_minutes.low())
            }
            _ => early,
        }
    }

    /// Whether hands take bread out of the oven with a step.
    pub(crate) fn takes_out(&self, step: &Step) -> bool {
        let bakes = |of: &Step| of.kind == StepKind::Bake;
        let mut before = step.after.iter();
        step.is_hands()
            && step.needs.oven
            && before.any(|link| self.formula.step(link.step).is_some_and(bakes))
    }

    /// Whether bread is in the oven: it holds what is in it until that is taken out.
    #[must_use]
    pub fn is_in_oven(&self) -> bool {
        let mut steps = self.formula.steps.iter();
        steps.any(|step| {
            let is_in = self.progress(step.id).open_since.is_some();
            step.kind == StepKind::Bake && is_in && self.out_at(step).is_none()
        })
    }

    /// When what was baked with a step came out.
    pub(crate) fn out_at(&self, baked: &Step) -> Option<Moment> {
        let mut steps = self.formula.steps.iter();
        let out = steps.find(|step| {
            self.takes_out(step) && step.after.iter().any(|link| link.step == baked.id)
        });
        let last = out.map_or(baked.id, |out| out.id);
        Some(self.progress(last).ended?.at)
    }

    /// Until when the oven is hot from this bread, which is now while it is on, and how hot: it was heated for it, it is
    /// in there, or it came out not long ago.
    fn oven_hot(&self, now: Moment) -> Option<(Moment, Celsius)> {
        let steps = &self.formula.steps;
        let is_heated = steps.iter().any(|step| {
            let ended = self.progress(step.id).ended;
            step.kind == StepKind::OvenHeats && ended.is_some_and(|end| end.how == How::Done)
        });
        steps.iter().find_map(|step| {
            let Length::Bake { oven, .. } = step.length else {
                return None;
            };
            let is_hot = is_heated || self.progress(step.id).open_since.is_some();
            let until = self.out_at(step).unwrap_or(now);
            (is_hot && now - until <= LEFT_ON).then_some((until, oven))
        })
    }
}
