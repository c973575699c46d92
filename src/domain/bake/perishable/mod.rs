//! How long food that spoils has stood out of fridge and oven.
//!
//! The two-hour rule: food that spoils may stand out for two hours, and for one in
//! a kitchen above 90 °F. Source: USDA FSIS, "danger zone" (40 to 140 °F). That
//! time out adds up, and that the oven begins it anew, is common practice, no
//! source. Local food-safety guidance comes first.
//!
//! A component spoils when a step of work on it carries [`Caution::Perishable`].
//! What is counted, each from the log alone:
//!
//! - a cooked filling from the end of its cooling, unless that is in the fridge,
//!   to the end of the step that puts it there; where its cooling was left out, from the
//!   beginning of that; and while it cools from when it is put where it isn't cold, until it
//!   is put where it is;
//! - from the beginning of the work that takes it out and brings it to the dough
//!   or the bread (its end less its likely length, for a beginning isn't logged)
//!   until it goes into the oven or, with the dough, into the fridge, also in the midst of a rise;
//!   what came before the fridge is added. A rise that nobody takes out is out as it is forecast to be
//!   ([`State::out_of_fridge_by`]);
//! - from the end of the bake, anew, what was baked with it;
//! - what is filled or finished after the bake, from the beginning of that work.
//!
//! A fridge above [`WARM_FRIDGE`] is no fridge here: what is in it stands out.
//!
//! Serving ends it. A step that was left out proves nothing: a cream whose way
//! into the fridge was skipped counts as standing out, and so does a filled dough whose
//! night in the fridge was.
//!
//! What all of that comes to by the rules, with cooling and the dough itself, is in [`stood`].
//!
//! Left out: raw egg in washes; what is left over of a filling.

mod anew;
mod stood;
mod turns;

pub use self::stood::{EGG_AND_MILK_OUT, Keeps, LONGEST_OUT, Spoils, Stood};
use self::turns::Turn;
use super::state::State;
use crate::formula::{Caution, ComponentId, Step, StepId, StepKind};
use crate::kitchen::Place;
use crate::units::{Celsius, Minutes, Moment, celsius, minutes};

/// Perishable food may stand out this long (USDA FSIS, the two-hour rule).
pub const PERISHABLE_LIMIT: Minutes = minutes(120.0);
/// In a kitchen warmer than [`HOT_KITCHEN`] it may stand out this long (USDA FSIS).
pub const PERISHABLE_LIMIT_HOT: Minutes = minutes(60.0);
/// 90 °F, above which the shorter limit holds (USDA FSIS).
pub const HOT_KITCHEN: Celsius = celsius(32.2);

/// A fridge warmer than this doesn't hold food that spoils: the highest temperature that law in England, Wales and
/// Northern Ireland lets chilled food be held at. Source: Food Standards Agency, Guidance on Temperature Control
/// Legislation in the United Kingdom (2007, 2016).
pub const WARM_FRIDGE: Celsius = celsius(8.0);

/// Food that spoils and stands out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Standing {
    /// The step that will put the bread away or, before the bake, the one that brought the food out.
    pub step: StepId,
    /// The moment to count from: earlier than it came out by what it had stood out before.
    pub since: Moment,
}

impl State {
    /// All food that spoils and stands out by the newest entry, the bread once.
    #[must_use]
    pub fn standing(&self) -> Vec<Standing> {
        self.standing_at(self.newest)
    }

    /// The same now.
    #[must_use]
    pub fn standing_at(&self, now: Moment) -> Vec<Standing> {
        let serve = self.formula.steps.iter().find(|step| serves(step));
        let mut found: Vec<Standing> = Vec::new();
        for component in self.spoiling() {
            let times = self.as_it_stands(now).times_out(component, now);
            let Some(out) = times.iter().find(|out| out.until.is_none()) else {
                continue;
            };
            let standing = Standing {
                step: serve.filter(|_| out.baked).map_or(out.step, |step| step.id),
                since: out.since,
            };
            match found.iter_mut().find(|known| known.step == standing.step) {
                Some(known) => known.since = known.since.min(standing.since),
                None => found.push(standing),
            }
        }
        found
    }

    /// How long a component has stood out before the oven by now; and since when it does, if it does now, counted from
    /// earlier by what came before.
    pub(crate) fn out_before_bake(
        &self,
        component: ComponentId,
        now: Moment,
    ) -> (Minutes, Option<Moment>) {
        let times = self.as_it_stands(now).times_out(Some(component), now);
        let last = times.iter().rfind(|out| !out.baked);
        let stood = last.map_or(minutes(0.0), |out| out.until.unwrap_or(now) - out.since);
        let since = last.filter(|out| out.until.is_none());
        (stood, since.map(|out| out.since))
    }

    /// What spoils in this bake: its components, or none but the dough itself.
    fn spoiling(&self) -> Vec<Option<ComponentId>> {
        let steps = &self.formula.steps;
        let spoils = |id: ComponentId| {
            steps
                .iter()
                .any(|step| step.handles_perishable() && step.component == id)
        };
        let mut spoiling: Vec<Option<ComponentId>> = self
            .formula
            .components
            .iter()
            .filter(|component| spoils(component.id))
            .map(|component| Some(component.id))
            .collect();
        // Where only the serving says that it spoils, what spoils was in the dough from the start.
        if spoiling.is_empty() && steps.iter().any(serves) {
            spoiling.push(None);
        }
        spoiling
    }

    /// How long what stands out now may stand in this kitchen.
    #[must_use]
    pub fn perishable_limit(&self) -> Minutes {
        let standing = self.standing();
        let since = standing.iter().map(|standing| standing.since).min();
        self.perishable_limit_since(since.unwrap_or(self.newest))
    }

    /// How long food may stand that came out at that moment. An hour of heat isn't
    /// made good by a cooler one, so the shorter limit holds if it was ever so hot since.
    #[must_use]
    pub fn perishable_limit_since(&self, since: Moment) -> Minutes {
        self.limit_between(since, Moment::from_epoch_ms(i64::MAX))
    }

    /// The same of food that was away again at a moment.
    fn limit_between(&self, since: Moment, until: Moment) -> Minutes {
        let ends = self.air.iter().skip(1).map(|&(at, _)| Some(at));
        let stretches = self.air.iter().zip(ends.chain([None]));
        let mut stretches =
            stretches.filter(|((from, _), end)| *from < until && end.is_none_or(|end| end > since));
        let hot = stretches.any(|(&(_, air), _)| air > HOT_KITCHEN);
        if hot || self.was_put_where_it_is_hot(since, until) {
            PERISHABLE_LIMIT_HOT
        } else {
            PERISHABLE_LIMIT
        }
    }

    /// Whether the baker put anything where it is as hot, and left it there beyond a moment.
    fn was_put_where_it_is_hot(&self, since: Moment, until: Moment) -> bool {
        self.moves.iter().any(|seen| {
            let left = self.progress(seen.of).ended;
            let hot = match seen.what {
                Place::Warm(at) | Place::Water(at) => at > HOT_KITCHEN,
                Place::Kitchen | Place::Fridge => false,
            };
            hot && seen.at < until && left.is_none_or(|left| left.at > since)
        })
    }

    /// Goes through what happened to a component, or to the dough: every time that it stood out, oldest first.
    fn times_out(&self, component: Option<ComponentId>, now: Moment) -> Vec<TimeOut> {
        let mut turns: Vec<(Moment, StepId, Turn)> = Vec::new();
        for step in &self.formula.steps {
            self.add_turns(step, component, now, &mut turns);
        }
        let mut out: Option<(Moment, StepId)> = None;
        let mut before = minutes(0.0);
        let (mut joined, mut baked) = (component.is_none(), false);
        let mut times = Vec::new();
        for (place, &(at, step, turn)) in turns.iter().enumerate() {
            let warm = matches!(turn, Turn::InFridge | Turn::DoughAway)
                && self.fridge_is_warm(&turns[place + 1..]);
            let takes_out = match turn {
                Turn::Out => true,
                Turn::InFridge => warm,
                Turn::Joined => {
                    joined = true;
                    true
                }
                Turn::DoughOut => joined,
                Turn::DoughAway => joined && warm,
                Turn::Baked => {
                    baked = true;
                    joined
                }
                _ => false,
            };
            let puts_away = match turn {
                Turn::Away | Turn::Served => true,
                Turn::InFridge => !warm,
                Turn::DoughAway => joined && !warm,
                Turn::Oven => joined,
                _ => false,
            };
            if takes_out {
                out = out.or(Some((at, step)));
            }
            if puts_away && let Some((since, step)) = out.take() {
                before += at - since;
                times.push(TimeOut {
                    step,
                    since: at - before,
                    until: Some(at),
                    joined,
                    baked,
                });
            }
            if matches!(turn, Turn::Oven) && joined {
                before = minutes(0.0);
            }
        }
        times.extend(out.map(|(since, step)| TimeOut {
            step,
            since: since - before,
            until: None,
            joined,
            baked,
        }));
        times
    }
}

/// A time at which food that spoils stood out.
struct TimeOut {
    /// The step that brought it out.
    step: StepId,
    /// See [`Standing::since`].
    since: Moment,
    /// When it was put away, baked or served; none while it stands out.
    until: Option<Moment>,
    /// Whether it was in the dough by its end, and whether that was baked.
    joined: bool,
    baked: bool,
}

pub(super) fn serves(step: &Step) -> bool {
    step.kind == StepKind::Serve && step.cautions.contains(&Caution::Perishable)
}
