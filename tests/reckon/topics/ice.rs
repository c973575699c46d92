//! Ice in place of water.

use domain::thermal::constants::ICE_HEAT_OF_FUSION;
use domain::thermal::liquid::ice::{TRADE_MELTING, ice_at, melting_in_kelvin, trade_ice};
use domain::units::{Grams, JoulesPerGramKelvin, celsius, grams};

use super::{Answer, by};
use crate::reckon::Context;
use crate::reckon::item::{Item, Refused, fits};

pub(super) fn answer(item: &Item, _: &Context) -> Option<Result<Answer, Refused>> {
    let topic = item.topic.as_str();
    if topic.starts_with("ice share") {
        Some(share(item))
    } else if topic.starts_with("ice substitution") {
        Some(substitution(item))
    } else if topic.starts_with("ice formula constant") {
        // °F counts from 32 below the melting point, so that much less stands beside the tap's.
        let beside_tap = if topic.contains("°F") {
            TRADE_MELTING.to_fahrenheit() - 32.0
        } else {
            TRADE_MELTING.get()
        };
        Some(by("thermal::liquid::ice", beside_tap))
    } else if topic.starts_with("latent heat") && topic.contains("ice") {
        Some(by("thermal::constants", ICE_HEAT_OF_FUSION.get()))
    } else if topic.starts_with("L/c") {
        Some(in_kelvin(item))
    } else {
        None
    }
}

const NO_MEANING: &str = "the trade's formula has no meaning there";

/// Ice for one of water, in any unit of mass.
fn share(item: &Item) -> Result<Answer, Refused> {
    let whole = grams(1000.0);
    let ice = trade_ice(whole, item.celsius("tap")?, item.celsius("wanted")?);
    by("thermal::liquid::ice", ice.ok_or(NO_MEANING)? / whole)
}

fn substitution(item: &Item) -> Result<Answer, Refused> {
    let key = item.inputs.keys().find(|key| key.starts_with("water"));
    // Ice and water are of one unit, so the number alone counts.
    let total: Grams = item.grams(key.ok_or("its inputs hold no water")?)?;
    let (tap, wanted) = (item.celsius("tap")?, item.celsius("wanted")?);
    let from_freezer = item.celsius("ice");
    if from_freezer.is_ok() || item.topic.contains("exact") {
        let ice = from_freezer.unwrap_or(celsius(0.0));
        return by(
            "thermal::liquid::ice",
            ice_at(total, tap, wanted, ice).get(),
        );
    }
    let ice = trade_ice(total, tap, wanted).ok_or(NO_MEANING)?;
    by("thermal::liquid::ice", ice.get())
}

fn in_kelvin(item: &Item) -> Result<Answer, Refused> {
    let key = item.inputs.keys().find(|key| key.contains("cp"));
    let of_water = item.number(key.ok_or("its inputs hold no specific heat")?)?;
    let of_water = fits(JoulesPerGramKelvin::new(of_water))?;
    by(
        "thermal::liquid::ice",
        item.shown_difference(melting_in_kelvin(of_water)),
    )
}
