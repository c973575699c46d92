//! What a baker says was measured or seen, and whether it can be so.

use super::decide::{known, open};
use super::event::Event;
use super::intent::Refusal;
use super::state::State;
use crate::formula::{ComponentId, Length, Step, StepId};
use crate::kitchen::{COLDEST_AIR, FURTHEST_OVEN, Kitchen, MOST_FRIDGE_HOLDS, WARMEST_AIR};
use crate::units::{Celsius, Grams, Minutes, Moment, OutOfRange, Share};

/// A dough's temperature.
pub(super) fn dough(
    state: &State,
    component: ComponentId,
    temperature: Celsius,
) -> Result<Event, Refusal> {
    let known = state.formula.component(component);
    let component = known.ok_or(Refusal::Unknown)?.id;
    let temperature = within(temperature.get(), "dough temperature", "°C", -5.0, 60.0)?;
    let temperature = Celsius::clamped(temperature);
    Ok(Event::DoughMeasured {
        component,
        temperature,
    })
}

/// The temperature in the middle of something.
pub(super) fn core(state: &State, step: StepId, temperature: Celsius) -> Result<Event, Refusal> {
    let step = known(state, step)?;
    let temperature = within(temperature.get(), "core temperature", "°C", -20.0, 130.0)?;
    let temperature = Celsius::clamped(temperature);
    Ok(Event::CoreMeasured { step, temperature })
}

/// How hot the oven is as it is turned on.
pub(super) fn oven(state: &State, step: StepId, oven: Celsius) -> Result<Event, Refusal> {
    let step = open(state, step)?;
    let oven = within(oven.get(), "oven temperature", "°C", 0.0, 400.0)?;
    let oven = Celsius::clamped(oven);
    Ok(Event::OvenHot { step, oven })
}

/// What a piece weighs.
pub(super) fn piece(state: &State, piece: u16, mass: Grams) -> Result<Event, Refusal> {
    if piece >= state.formula.pieces.count {
        return Err(Refusal::Unknown);
    }
    let mass = within(mass.get(), "piece", "g", 1.0, 20_000.0).map(Grams::clamped)?;
    Ok(Event::PieceWeighed { piece, mass })
}

/// How far a dough was seen to have risen, and how long ago.
pub(super) fn rise(
    state: &State,
    step: StepId,
    share: Share,
    ago: Minutes,
    now: Moment,
) -> Result<Event, Refusal> {
    let step = open(state, step)?;
    let rises = |step: &Step| matches!(step.length, Length::Ferment { .. });
    if !state.formula.step(step).is_some_and(rises) {
        return Err(Refusal::Unknown);
    }
    within(share.get() * 100.0, "rise", "%", 5.0, 100.0)?;
    let since = state.progress(step).open_since.unwrap_or(now);
    let most = (now.max(state.newest) - since).get().max(0.0);
    within(ago.get(), "time since then", "min", 0.0, most)?;
    Ok(Event::RiseSeen { step, share, ago })
}

pub(super) fn delay(by: Minutes) -> Result<Minutes, Refusal> {
    within(by.get(), "delay", "min", 1.0, 24.0 * 60.0).map(Minutes::clamped)
}

pub(super) fn air_of(air: Celsius) -> Result<Celsius, Refusal> {
    let (coldest, warmest) = (COLDEST_AIR.get(), WARMEST_AIR.get());
    let air = within(air.get(), "kitchen temperature", "°C", coldest, warmest)?;
    Ok(Celsius::clamped(air))
}

/// What changed, of what a bake needs to know; nothing when all is as it was.
pub(super) fn kitchen_changed(state: &State, kitchen: Kitchen) -> Result<Vec<Event>, Refusal> {
    let air = air_of(kitchen.air)?;
    within(kitchen.fridge.get(), "fridge temperature", "°C", -5.0, 20.0)?;
    if let Some(flour) = kitchen.flour {
        within(flour.get(), "flour temperature", "°C", -25.0, 50.0)?;
    }
    let (holds, most) = (
        f64::from(kitchen.fridge_holds),
        f64::from(MOST_FRIDGE_HOLDS),
    );
    within(holds, "room in the fridge", "", 1.0, most)?;
    let heats_in = kitchen.oven_heats_in.get();
    within(heats_in, "oven's heating", "min", 0.0, 240.0)?;
    if let Some(off) = kitchen.oven_off {
        let furthest = FURTHEST_OVEN.get();
        within(off.get(), "oven's error", "K", -furthest, furthest)?;
    }
    let mut events = Vec::new();
    if air != state.kitchen.air {
        events.push(Event::KitchenMeasured { air });
    }
    let before = state.kitchen;
    if kitchen != (Kitchen { air, ..before }) {
        events.push(Event::KitchenChanged(Box::new(kitchen)));
    }
    Ok(events)
}

pub(super) fn within(
    value: f64,
    label: &'static str,
    unit: &'static str,
    min: f64,
    max: f64,
) -> Result<f64, Refusal> {
    if value >= min && value <= max {
        Ok(value)
    } else {
        Err(Refusal::Implausible(OutOfRange {
            label,
            value,
            min,
            max,
            unit,
        }))
    }
}
