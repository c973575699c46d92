//! The oven's dials, other masses, and other altitudes.

use domain::estimate::{Basis, Estimate};
use domain::thermal::constants::FAN_OFFSET;
use domain::thermal::oven::altitude::{boiling_point, pressure, pressure_ratio};
use domain::thermal::oven::{GasMark, bake_window};
use domain::units::{Grams, Metres, grams, minutes};
use serde_json::json;

use super::{Answer, by};
use crate::reckon::Context;
use crate::reckon::item::{Item, Refused, fits};

pub(super) fn answer(item: &Item, _: &Context) -> Option<Result<Answer, Refused>> {
    let topic = item.topic.as_str();
    let starts = |begin| topic.starts_with(begin);
    Some(if starts("UK gas mark") {
        gas_mark(item)
    } else if starts("fan oven") {
        by("thermal::constants", item.shown_difference(FAN_OFFSET))
    } else if starts("bake time factor") {
        time_factor(item)
    } else if starts("standard atmosphere") {
        atmosphere(item)
    } else {
        return None;
    })
}

fn gas_mark(item: &Item) -> Result<Answer, Refused> {
    let stated = match item.inputs.get("mark") {
        Some(serde_json::Value::String(text)) => text.clone(),
        Some(number) => number.to_string(),
        None => return Err("its inputs hold no mark".to_owned()),
    };
    let wanted = match stated.as_str() {
        "1/4" | "0.25" => "¼",
        "1/2" | "0.5" => "½",
        other => other,
    };
    let mark = GasMark::ALL
        .into_iter()
        .find(|mark| mark.to_string() == wanted)
        .ok_or_else(|| format!("there is no gas mark {stated}"))?;
    by(
        "thermal::oven",
        json!([f64::from(mark.fahrenheit()), mark.rounded().get()]),
    )
}

fn time_factor(item: &Item) -> Result<Answer, Refused> {
    let (one, stated) = (grams(100.0), minutes(20.0));
    let other = fits(Grams::new(one.get() * item.number("mass_ratio")?))?;
    let formula = Estimate::new(stated, stated, stated, Basis::Formula);
    let window = bake_window(&formula, one, other);
    by("thermal::oven", window.likely() / stated)
}

fn atmosphere(item: &Item) -> Result<Answer, Refused> {
    let altitude = fits(Metres::new(item.number("z_m")?))?;
    by(
        "thermal::oven::altitude",
        json!([
            pressure(altitude).get(),
            boiling_point(altitude).get(),
            1.0 / pressure_ratio(altitude),
        ]),
    )
}
