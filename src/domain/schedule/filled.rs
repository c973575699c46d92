//! How food that spoils limits a rise that is slowed or warmed to suit a wish.
//!
//! What was filled before it rises stands out of fridge and oven from the beginning of the work that
//! brings the filling to it until it goes into the oven. The two-hour rule of
//! [`PERISHABLE_LIMIT`] holds for all of that, less what lies in the fridge between. The rise counts to
//! the late end of its window, so that one time in ten it takes longer; the hands before and after it, who can hurry, as
//! long as is likely. The bake itself calls at the limit, whenever that comes.
//!
//! For the raw egg and the milk of a dough itself no such rule was found: sweet doughs have always
//! risen in the kitchen. [`EGG_AND_MILK_OUT`] is where something is said.

use super::outline::Planned;
use super::wish::steps_if_started;
pub use crate::bake::EGG_AND_MILK_OUT;
use crate::bake::{Forecast, HOT_KITCHEN, PERISHABLE_LIMIT, PERISHABLE_LIMIT_HOT, State};
use crate::food::FoodKind;
use crate::formula::{Caution, Formula, Length, Step, StepId, StepKind};
use crate::kitchen::Kitchen;
use crate::thermal::constants::FRIDGE;
use crate::units::{Celsius, Minutes, Moment, minutes};

/// Why something isn't offered for a dough that was filled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unsafe {
    /// Its filling would stand out longer than food that spoils may.
    TooLong,
    /// It would stand where it is hotter than food that spoils is let stand.
    TooWarm,
}

/// A rise of a dough that holds something that spoils.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Filled {
    /// How long it stands out before the rise begins and after it has ended.
    beside: Minutes,
    /// The part of it that comes after.
    after: Minutes,
    kitchen: Celsius,
}

impl Filled {
    /// Whether it may rise so long, which is to say to the late end of its window, in air of that temperature.
    ///
    /// Air as cold as a fridge is no place for a rise of it, which would take all day there: what
    /// has to be that cold goes into the fridge itself first.
    ///
    /// # Errors
    /// Why it may not.
    pub fn bears(&self, rise: Minutes, air: Celsius) -> Result<(), Unsafe> {
        let limit = out_limit(self.kitchen);
        if air > self.kitchen.max(HOT_KITCHEN) {
            Err(Unsafe::TooWarm)
        } else if air <= FRIDGE || self.beside + rise > limit {
            Err(Unsafe::TooLong)
        } else {
            Ok(())
        }
    }
}

/// What limits a rise, if the bake started then in this kitchen; `None` where nothing that spoils is
/// in the dough by then.
#[must_use]
pub fn filled(formula: &Formula, kitchen: &Kitchen, at: Moment, step: StepId) -> Option<Filled> {
    let steps = steps_if_started(formula, kitchen, at);
    let rise = steps.iter().find(|one| one.step == step)?;
    filled_in(formula, kitchen, &steps, rise)
}

/// Whether a rise that was put into the fridge may go on in the kitchen when it comes out, for the sake of what the
/// dough was filled with: what that has stood out before, by the log, counts as well.
#[must_use]
pub fn bears_way_back(state: &State, forecast: &Forecast) -> bool {
    let (formula, kitchen) = (&state.formula, &state.kitchen);
    let bears = |out: Moment| {
        let filled = filled(formula, kitchen, state.started, forecast.step)?;
        let standing = state.standing_at(out).into_iter();
        let since = standing.map(|standing| standing.since).min().unwrap_or(out);
        let beside = (out - since) + filled.after;
        let rise = forecast.window.high() - out;
        Some(Filled { beside, ..filled }.bears(rise, kitchen.air).is_ok())
    };
    forecast.out_by.and_then(bears).unwrap_or(true)
}

/// All rises of a bake together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rises {
    /// Whether every filled dough is baked before its filling stood out too long.
    pub bears_its_filling: bool,
    /// The longest rise outside a fridge, by its likely time.
    pub longest: Minutes,
}

/// What the rises come to, if the bake started then in this kitchen.
#[must_use]
pub fn rises_if_started(formula: &Formula, kitchen: &Kitchen, at: Moment) -> Rises {
    let steps = steps_if_started(formula, kitchen, at);
    let mut found = Rises {
        bears_its_filling: true,
        longest: minutes(0.0),
    };
    for one in &steps {
        let step = formula.step(one.step);
        if step.is_some_and(|step| matches!(step.length, Length::Ferment { .. })) {
            let length = one.end - one.start;
            let late = length + one.slack.1;
            let filled = filled_in(formula, kitchen, &steps, one);
            let bears = |filled: Filled| filled.bears(late, kitchen.air).is_ok();
            found.bears_its_filling &= filled.is_none_or(bears);
            found.longest = found.longest.max(length);
        }
    }
    found
}

/// Whether a rise outside a fridge is too long for what is raw in the dough itself.
#[must_use]
pub fn is_long_for_egg_or_milk(formula: &Formula, rise: Minutes) -> bool {
    let mut parts = formula.dough_ingredients();
    rise > EGG_AND_MILK_OUT
        && parts.any(|part| matches!(part.food.kind, FoodKind::Egg | FoodKind::Milk))
}

/// How long what spoils will have stood out in a rise of a bake that goes on, by the late end of
/// the rise that has it longest, where all goes as planned. `stay` is a time in the fridge that no step is.
#[must_use]
pub(super) fn longest_out(
    state: &State,
    steps: &[Planned],
    stay: Option<(Moment, Moment)>,
    now: Moment,
) -> Minutes {
    let unmoved = state.unmoved_by(now);
    let state = unmoved.as_ref().unwrap_or(state);
    let formula = &state.formula;
    let mut longest = minutes(0.0);
    for rise in steps {
        let step = formula.step(rise.step);
        if !step.is_some_and(|step| matches!(step.length, Length::Ferment { .. })) {
            continue;
        }
        let before = all_before(formula, rise.step);
        let was_joined = before.iter().any(|&id| {
            let step = formula.step(id);
            step.is_some_and(Step::brings_perishable) && state.progress(id).ended.is_some()
        });
        let standing = state.standing_at(now).into_iter();
        let since = standing.map(|standing| standing.since).min();
        let since = since.filter(|_| was_joined);
        let Some(limits) = filled_from(formula, state.kitchen.air, steps, rise, since) else {
            continue;
        };
        let planned = state.stay(rise.step, rise.start);
        let stay = stay.or_else(|| planned.map(|stay| (stay.from, stay.to)));
        let (from, to) = stay.unwrap_or((rise.start, rise.start));
        let (from, to) = (from.max(rise.start), to.min(rise.end));
        let cold = (to - from).max(minutes(0.0));
        let late = (rise.end - rise.start) + rise.slack.1;
        longest = longest.max(limits.beside + late - cold);
    }
    longest
}

/// How long it may stand out there.
pub(super) fn out_limit(air: Celsius) -> Minutes {
    if air > HOT_KITCHEN {
        PERISHABLE_LIMIT_HOT
    } else {
        PERISHABLE_LIMIT
    }
}

fn filled_in(
    formula: &Formula,
    kitchen: &Kitchen,
    steps: &[Planned],
    rise: &Planned,
) -> Option<Filled> {
    filled_from(formula, kitchen.air, steps, rise, None)
}

/// The same where it has stood out since a moment already.
fn filled_from(
    formula: &Formula,
    kitchen: Celsius,
    steps: &[Planned],
    rise: &Planned,
    standing: Option<Moment>,
) -> Option<Filled> {
    let before = all_before(formula, rise.step);
    let step_of = |one: &Planned| formula.step(one.step);
    // What goes into the fridge doesn't go to the dough.
    let brings = |one: &Planned| step_of(one).is_some_and(Step::brings_perishable);
    let joined = steps
        .iter()
        .filter(|one| before.contains(&one.step) && brings(one));
    let itself = step_of(rise)?.cautions.contains(&Caution::Perishable);
    let since = joined.map(|one| one.start).chain(standing).min();
    let since = since.or(itself.then_some(rise.start))?;
    let of_kind = |kind: StepKind| {
        let steps = steps.iter();
        steps.filter(move |&one| step_of(one).is_some_and(|step| step.kind == kind))
    };
    let bakes = of_kind(StepKind::Bake).map(|one| one.start);
    let until = bakes.filter(|&start| start >= rise.end).min();
    let until = until.unwrap_or(rise.end);
    let after = until - rise.end;
    let mut beside = (rise.start - since) + after;
    for cold in of_kind(StepKind::Retard) {
        let (from, to) = (cold.start.max(since), cold.end.min(until));
        if to > from {
            beside = beside - (to - from);
        }
    }
    Some(Filled {
        beside,
        after,
        kitchen,
    })
}

/// All that a step waits for, however indirectly.
pub(super) fn all_before(formula: &Formula, step: StepId) -> Vec<StepId> {
    let mut found = vec![step];
    let mut next = 0;
    while let Some(&of) = found.get(next) {
        next += 1;
        let links = formula.step(of).map_or(&[][..], |step| &step.after);
        for link in links {
            if !found.contains(&link.step) {
                found.push(link.step);
            }
        }
    }
    found
}

/// A step with all that comes after it.
pub(super) fn all_after(formula: &Formula, step: StepId) -> Vec<StepId> {
    let mut found = vec![step];
    let mut is_found = true;
    while std::mem::take(&mut is_found) {
        for other in &formula.steps {
            let hangs_on = other.after.iter().any(|link| found.contains(&link.step));
            if hangs_on && !found.contains(&other.id) {
                found.push(other.id);
                is_found = true;
            }
        }
    }
    found
}
