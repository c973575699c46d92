//! An oven that is hot from the bread before.
//!
//! Whether it is follows from the schedule, and the schedule from how long it heats, so both are
//! looked for in turn like the lengths of rises. Until another order is found, the bread that makes
//! the oven hot stays before the one that needs it: what is proven holds for that order.

use crate::bake::{LEFT_ON, State, heats};
use crate::formula::{Length, StepId};
use crate::schedule::plan::lengths::Lengths;
use crate::schedule::plan::start_in;
use crate::schedule::plan::what::What;
use crate::thermal::oven::Fan;
use crate::units::{Celsius, Moment, minutes};

/// How many trays bake at once where a fan moves the heat between them.
///
/// ASSUMPTION: two; without a fan one, in the middle (common practice, no source).
const TRAYS_WITH_FAN: u32 = 2;
/// Breads whose temperatures are the same on a dial that goes by so much can share an oven.
///
/// ASSUMPTION: five kelvins are no more than an oven is off anyway (common practice, no source).
const DIAL_STEP: f64 = 5.0;

/// How many trays an oven takes at once.
pub(crate) fn trays(bakes: &[&State]) -> u32 {
    match bakes.first().map(|state| state.kitchen.oven.fan()) {
        Some(Fan::On) => TRAYS_WITH_FAN,
        _ => 1,
    }
}

/// What an oven has to be for a bake, where another that needs the same can be in it as well: the step of the dial. None
/// where there is room for one, or the bake needs more than one temperature.
pub(crate) fn heat(state: &State) -> Option<u16> {
    let step = |oven: Celsius| (oven.get() / DIAL_STEP).round() as u16;
    let mut ovens = state
        .formula
        .steps
        .iter()
        .filter_map(|step| match step.length {
            Length::OvenHeats { oven } | Length::Bake { oven, .. } => Some(oven),
            _ => None,
        });
    let first = step(ovens.next()?);
    let is_one = trays(&[state]) > 1 && ovens.all(|oven| step(oven) == first);
    is_one.then_some(first)
}

/// A bread whose oven is hot from another: the places of the two bakes and their steps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Hot {
    /// The bread that comes out before.
    pub after: (usize, StepId),
    /// The heating that is short because of it.
    pub heats: (usize, StepId),
    /// Whether the bread is still in the oven as the heating begins.
    pub shares: bool,
}

/// Shortens every heating that hasn't begun where a schedule lets it follow another bread, and makes
/// it as long as from cold where it doesn't.
pub(crate) fn reheated(
    bakes: &[&State],
    lengths: &mut [Lengths],
    starts: &[(What, Moment)],
    now: Moment,
) -> Vec<Hot> {
    let mut found = Vec::new();
    for (bake, state) in bakes.iter().enumerate() {
        for step in &state.formula.steps {
            let Length::OvenHeats { oven } = step.length else {
                continue;
            };
            let is_begun = state.progress(step.id).open_since.is_some();
            let start = start_in(starts, What::Step(bake, step.id));
            let (false, Some(start)) = (is_begun, start) else {
                continue;
            };
            let hot = hot_from(bakes, lengths, starts, (bake, start), now);
            let Some(length) = lengths[bake].get_mut(&step.id) else {
                continue;
            };
            let cold = state.kitchen.oven_heats_in;
            let takes = hot.map_or(cold, |hot| heats(hot.oven, oven, state.kitchen.air, cold));
            // Its doubt is that of an oven that heats, so much of it as is left.
            let was = length.end - length.start;
            let share = if was > minutes(0.0) { takes / was } else { 1.0 };
            length.slack = (length.slack.0 * share, length.slack.1 * share);
            length.end = length.start + takes;
            found.extend(hot.and_then(|hot| {
                let heats = (bake, step.id);
                let shares = hot.shares;
                hot.after.map(|after| Hot {
                    after,
                    heats,
                    shares,
                })
            }));
        }
    }
    found
}

/// Whether a bread that is still to be baked could leave its oven hot for another one.
pub(crate) fn is_shared(bakes: &[&State], lengths: &[Lengths]) -> bool {
    let has = |bake: usize, is: fn(&Length) -> bool| {
        let state: &State = bakes[bake];
        let mut steps = state.formula.steps.iter();
        steps.any(|step| is(&step.length) && lengths[bake].contains_key(&step.id))
    };
    let heats = |bake| has(bake, |length| matches!(length, Length::OvenHeats { .. }));
    let bakes_in_it = |bake| has(bake, |length| matches!(length, Length::Bake { .. }));
    let all = 0..bakes.len();
    all.clone()
        .any(|bake| heats(bake) && all.clone().any(|other| other != bake && bakes_in_it(other)))
}

/// What an oven is hot from.
#[derive(Clone, Copy)]
struct LeftHot {
    out: Moment,
    oven: Celsius,
    /// The bake and step, where it still lies ahead.
    after: Option<(usize, StepId)>,
    /// Whether it is still in there.
    shares: bool,
}

/// The last bread of another bake that is out of the oven by `start`, if that isn't long before; or one that is in it, and
/// can share it.
fn hot_from(
    bakes: &[&State],
    lengths: &[Lengths],
    starts: &[(What, Moment)],
    (of, start): (usize, Moment),
    now: Moment,
) -> Option<LeftHot> {
    let others = bakes.iter().enumerate().filter(|&(bake, _)| bake != of);
    let breads = others.flat_map(|(bake, state)| {
        state.formula.steps.iter().filter_map(move |step| {
            let Length::Bake { oven, .. } = step.length else {
                return None;
            };
            let can_share = heat(state).is_some() && heat(state) == heat(bakes[of]);
            let has_baked = state.progress(step.id).ended.is_some();
            let (out, after, shares) = match state.out_at(step) {
                Some(out) => (out, None, false),
                // It is in there until it is taken out, which is at once.
                None if has_baked => (now, None, false),
                None => {
                    let length = lengths[bake].get(&step.id)?;
                    let begun = start_in(starts, What::Step(bake, step.id))?;
                    let left = length.end - length.start.max(now);
                    let out = begun.max(now) + left;
                    let is_in = can_share && begun <= start && start < out;
                    (out, Some((bake, step.id)), is_in)
                }
            };
            Some(LeftHot {
                out,
                oven,
                after,
                shares,
            })
        })
    });
    // Starts are whole minutes, ends may not be.
    let by = start + minutes(1.0);
    let last = breads
        .filter(|bread| bread.out <= by || bread.shares)
        .max_by_key(|bread| bread.out)?;
    (start - last.out <= LEFT_ON).then_some(last)
}
