//! The oven's dials, other masses, and other altitudes.

use domain::estimate::{Basis, Estimate};
use domain::thermal::constants::FAN_OFFSET;
use domain::thermal::oven::altitude::{boiling_point, pressure, pressure_ratio};
use domain::thermal::oven::{BakeForm, Baking, Fan, GasMark, Heat, bake_window};
use domain::units::{Celsius, Grams, Metres, grams, metres, minutes};
use serde_json::{Value, json};

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
    } else if starts("bake time in another oven") {
        other_oven(item)
    } else if starts("bake time of another form") {
        other_form(item)
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

fn altitude(item: &Item) -> Result<Metres, Refused> {
    let at = item.number("z_m");
    at.map_or(Ok(metres(0.0)), |at| fits(Metres::new(at)))
}

fn still(air: Celsius) -> Heat {
    Heat { air, fan: Fan::Off }
}

/// From `from_C` without a fan to `to_C`, whose `fan` may be on.
fn other_oven(item: &Item) -> Result<Answer, Refused> {
    let baking = Baking {
        piece: item.grams("piece_g")?,
        form: BakeForm::Round,
        dough: item.celsius("dough")?,
        core: item.celsius("core")?,
        altitude: altitude(item)?,
    };
    let fan = match item.inputs.get("fan").and_then(Value::as_bool) {
        Some(true) => Fan::On,
        _ => Fan::Off,
    };
    let to = Heat {
        air: item.celsius("to")?,
        fan,
    };
    by(
        "thermal::oven",
        baking.time_ratio(still(item.celsius("from")?), to),
    )
}

/// A form of `from` and of `to` each, with its mass, in one oven without a fan.
fn other_form(item: &Item) -> Result<Answer, Refused> {
    let (dough, core) = (item.celsius("dough")?, item.celsius("core")?);
    let altitude = altitude(item)?;
    let baking = |key: &str| {
        let told = item.map(key)?;
        let mass = told.get("g").and_then(Value::as_f64);
        let mass = mass.ok_or_else(|| format!("its {key} has no g"))?;
        let form = match told.get("form").and_then(Value::as_str) {
            Some("round" | "ball" | "bun") => BakeForm::Round,
            Some("long" | "roll" | "stick" | "braid") => BakeForm::Long,
            Some("ring" | "wreath") => BakeForm::Ring,
            Some("tin") => BakeForm::Tin,
            Some("touching") => BakeForm::Touching,
            other => return Err(format!("the model has no form {other:?}")),
        };
        Ok::<_, Refused>(Baking {
            piece: fits(Grams::new(mass))?,
            form,
            dough,
            core,
            altitude,
        })
    };
    let oven = still(item.celsius("oven")?);
    let (from, to) = (baking("from")?, baking("to")?);
    by("thermal::oven", to.longer_than(oven, &from, oven))
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
