//! What a change of the kitchen does to a bake, as facts.

use domain::bake::{Forecast, Reason, State};
use domain::formula::{Length, Step, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::{Outline, Planned, bears_way_back, likely_outline};
use domain::thermal::liquid::{FrozenSplit, liquid_temperature};
use domain::units::{Celsius, Minutes, Moment};

/// How something that goes on by itself moved.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Shift {
    /// Its name.
    pub(crate) title: String,
    /// Before, or at the target.
    pub(crate) before: Forecast,
    /// Now.
    pub(crate) after: Forecast,
    /// Whether what it was filled with allows it to rise on once it is out of the fridge.
    pub(crate) bears: bool,
    /// Whether it comes out of there at a moment that was planned.
    pub(crate) is_planned: bool,
}

/// What a change of the kitchen does to one bake.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Effect {
    /// What the bake makes and what tells it from the others that run; whoever knows those says so.
    pub(crate) whose: String,
    /// What goes on by itself and moved.
    pub(crate) shifts: Vec<Shift>,
    /// The liquid as it had to be, and as it has to be, where a dough is still to be mixed.
    pub(crate) liquid: Option<(Liquid, Liquid)>,
    /// When the bread is on the table, where the dough isn't mixed yet or nothing that goes on tells how it moves.
    pub(crate) table: Option<TableShift>,
    /// When to turn the oven on now, where that moved.
    pub(crate) oven_on: Option<Moment>,
    /// What an oven that is on should have, and the kitchen it stands in, where its dial has to be turned for it.
    pub(crate) turn_dial: Option<(Celsius, Kitchen)>,
}

/// The liquid of the next dough to be mixed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Liquid {
    /// How warm it should be; with a part of it frozen, what all of it together counts as.
    pub(crate) at: Celsius,
    /// What of it has to be frozen.
    pub(crate) frozen: Option<FrozenSplit>,
    /// What the dough comes to with it.
    pub(crate) dough: Celsius,
}

/// How the end of a bake moved.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct TableShift {
    /// When it was likely.
    pub(crate) before: Moment,
    /// When it is likely now.
    pub(crate) after: Moment,
    /// The step that moves it most: its name, how much longer the longer way of the two takes there, and why.
    pub(crate) most: Option<(String, Minutes, Cause)>,
}

/// Why a step takes longer or less.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Cause {
    /// The yeast works at another pace.
    Yeast,
    /// Heat leaves at another pace.
    Cooling,
    /// The oven takes another time.
    Oven,
}

/// What a change of the kitchen does to a bake.
pub(super) fn effect(before: &State, after: &State, now: Moment) -> Effect {
    let mut shifts = Vec::new();
    for step in &after.formula.steps {
        if step.is_hands() || !after.is_open(step.id) {
            continue;
        }
        let shift = shift(before, after, step, now);
        let moved = shift.after.window.likely() - shift.before.window.likely();
        // A rise that keeps its time is worth a word; anything else only when it moves.
        let yeast = matches!(shift.after.reason, Reason::Yeast { .. });
        if yeast || moved.get().abs() >= 0.5 {
            shifts.push(shift);
        }
    }
    let liquid = liquid(before, after, now);
    let tells_table = (liquid.is_some() || shifts.is_empty()) && !after.all_ended();
    Effect {
        whose: String::new(),
        shifts,
        liquid,
        table: tells_table.then(|| table(before, after, now)),
        oven_on: oven_on(before, after, now),
        turn_dial: turn_dial(before, after),
    }
}

/// How a step moved, or would if it started now.
pub(super) fn shift(before: &State, after: &State, step: &Step, now: Moment) -> Shift {
    let forecast = |state: &State| {
        state
            .forecast(step.id, now)
            .unwrap_or_else(|| state.forecast_if_started(step, now))
    };
    let now = forecast(after);
    Shift {
        title: step.title.clone(),
        before: forecast(before),
        bears: bears_way_back(after, &now),
        is_planned: after.comes_out_as_planned(step.id),
        after: now,
    }
}

/// When to turn the oven on now, where that moved by more than a minute.
fn oven_on(before: &State, after: &State, now: Moment) -> Option<Moment> {
    let mut steps = after.formula.steps.iter();
    let (was, is) = steps.find_map(|step| {
        let is = after.oven_on_at(step, now)?;
        Some((before.oven_on_at(step, now)?, is))
    })?;
    ((was - is).get().abs() >= 1.0).then(|| is.max(now))
}

/// The oven's temperature, where it is on and its dial has to say something else for it from now on.
fn turn_dial(before: &State, after: &State) -> Option<(Celsius, Kitchen)> {
    let dial = |kitchen: &Kitchen| (kitchen.oven, kitchen.oven_off);
    if dial(&before.kitchen) == dial(&after.kitchen) {
        return None;
    }
    // On since it began to heat, and until what bakes in it is out.
    let mut on = None;
    for step in &after.formula.steps {
        let progress = after.progress(step.id);
        match step.length {
            Length::OvenHeats { oven } if progress.open_since.is_some() => on = Some(oven),
            Length::Bake { .. } if progress.ended.is_some() => return None,
            _ => {}
        }
    }
    on.map(|oven| (oven, after.kitchen))
}

/// The liquid of the next dough to be mixed, before and after.
fn liquid(before: &State, after: &State, now: Moment) -> Option<(Liquid, Liquid)> {
    let mut mixes = after
        .formula
        .steps
        .iter()
        .filter(|step| step.kind == StepKind::Mix && after.progress(step.id).ended.is_none());
    let component = mixes.next()?.component;
    let liquid = |state: &State| {
        let question = state.liquid_question(component, now)?;
        let answer = liquid_temperature(&question)?;
        Some(Liquid {
            at: answer.mild,
            frozen: answer.frozen,
            dough: answer.mild_dough.likely(),
        })
    };
    Some((liquid(before)?, liquid(after)?))
}

/// How the end moved, and which step moves it most: of the steps that the later of the two ends
/// hangs on, the one that takes the most longer there.
fn table(before: &State, after: &State, now: Moment) -> TableShift {
    let (was, is) = (likely_outline(before, now), likely_outline(after, now));
    let (from, to) = (was.table.likely(), is.table.likely());
    let (longer, shorter) = if to < from { (&was, &is) } else { (&is, &was) };
    let mut most: Option<(&Step, Minutes)> = None;
    let mut next = longer.steps.iter().max_by_key(|planned| planned.end);
    // A chain is never longer than the bake.
    for _ in 0..longer.steps.len() {
        let Some(planned) = next else { break };
        next = planned.waited_for.and_then(|step| find(longer, step));
        let other = find(shorter, planned.step);
        let step = after.formula.step(planned.step);
        if let (Some(other), Some(step)) = (other, step) {
            let by = (planned.end - planned.start) - (other.end - other.start);
            if by.get() > most.map_or(0.5, |(_, most)| most.get()) {
                most = Some((step, by));
            }
        }
    }
    TableShift {
        before: from,
        after: to,
        most: most.map(|(step, by)| (step.title.clone(), by, cause(step))),
    }
}

fn find(outline: &Outline, step: domain::formula::StepId) -> Option<&Planned> {
    outline.steps.iter().find(|planned| planned.step == step)
}

fn cause(step: &Step) -> Cause {
    match step.length {
        Length::Ferment { .. } => Cause::Yeast,
        Length::Chill { .. } | Length::Cool { .. } => Cause::Cooling,
        _ => Cause::Oven,
    }
}
