//! How warm the liquid should be, in words.

use domain::thermal::liquid::{Advice, LiquidAnswer, Move, Reach};
use domain::units::{Celsius, CelsiusDelta};
use platform::store::Degrees;

use super::quantity::{NEAR_ENOUGH_K, about, mass, temperature};

/// "Milk at 38 °C."
pub(crate) fn liquid_sentence(name: &str, answer: &LiquidAnswer, degrees: Degrees) -> String {
    match answer.reach {
        Reach::Ice(split) => format!(
            "{name}: {} from the tap with {} of ice",
            mass(split.water),
            mass(split.ice)
        ),
        _ => format!("{name} at {}", temperature(answer.mild, degrees)),
    }
}

/// What the dough will come to, and why no nearer to its target.
pub(crate) fn reach_sentence(answer: &LiquidAnswer, target: Celsius, degrees: Degrees) -> String {
    let dough = &answer.mild_dough;
    let comes_to = format!(
        "The dough should come to {} ({} to {}).",
        temperature(dough.likely(), degrees),
        temperature(dough.low(), degrees),
        temperature(dough.high(), degrees)
    );
    let near = (dough.likely() - target).get().abs() < NEAR_ENOUGH_K;
    let why = match answer.reach {
        Reach::OnTarget | Reach::Ice(_) => String::new(),
        Reach::TooWarmWanted { .. } | Reach::TooColdWanted { .. } if near => {
            format!(" That is near enough to {}.", temperature(target, degrees))
        }
        Reach::TooWarmWanted { cap } => format!(
            " {} is out of reach this way: liquid warmer than {} would harm the yeast.",
            temperature(target, degrees),
            temperature(cap, degrees)
        ),
        Reach::TooColdWanted { coldest, .. } => format!(
            " {} is out of reach this way: {} is as cold as you have it.",
            temperature(target, degrees),
            temperature(coldest, degrees)
        ),
    };
    // A ratio of two differences is the same on both scales.
    let sensitivity = format!(
        " Ten degrees more in the liquid move the dough by {}.",
        at_least_some(answer.for_ten_kelvin, Degrees::Celsius)
    );
    format!("{comes_to}{why}{sensitivity}")
}

/// A difference that is small, but not nothing.
fn at_least_some(delta: CelsiusDelta, degrees: Degrees) -> String {
    if delta.get().abs() < 0.25 {
        "less than half a degree".to_owned()
    } else {
        about(delta, degrees)
    }
}

/// One more thing that would help.
pub(crate) fn advice(advice: &Advice, degrees: Degrees) -> String {
    let gain = at_least_some(advice.gain, degrees);
    let what = match advice.action {
        Move::WarmFlour => "Warm the flour to hand warmth",
        Move::WarmBowl => "Rinse the bowl with hot water",
        Move::WarmTheRest => "Let what comes from the fridge warm up first",
        Move::WarmerPlace => "Knead in a warmer spot",
        Move::ChillFlour => "Chill the flour in the fridge",
        Move::ChillBowl => "Chill the bowl",
        Move::ChillTheRest => "Take the other ingredients straight from the fridge",
        Move::CoolerPlace => "Knead in a cooler spot",
    };
    format!("{what}: {gain} nearer.")
}
