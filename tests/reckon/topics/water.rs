//! Water as measured.

use domain::thermal::water::{density, specific_heat};

use super::{Answer, by};
use crate::reckon::Context;
use crate::reckon::item::{Item, Refused};

pub(super) fn answer(item: &Item, _: &Context) -> Option<Result<Answer, Refused>> {
    if item.topic.starts_with("water specific heat") {
        Some(at(item).and_then(|at| by("thermal::water", specific_heat(at).get())))
    } else if item.topic.starts_with("water density") {
        Some(at(item).and_then(|at| by("thermal::water", density(at).get())))
    } else {
        None
    }
}

fn at(item: &Item) -> Result<domain::units::Celsius, Refused> {
    let at = item.celsius("T")?;
    if (0.0..=100.0).contains(&at.get()) {
        Ok(at)
    } else {
        Err("outside the model: water is liquid from 0 to 100 °C".to_owned())
    }
}
