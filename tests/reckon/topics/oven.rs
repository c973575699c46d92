//! The oven's dials, other masses, and other altitudes.

use domain::estimate::{Basis, Estimate};
use domain::thermal::constants::FAN_OFFSET;
use domain::thermal::oven::altitude::{boiling_point, pressure, pressure_ratio};
use domain::thermal::oven::{Baked, Baking, Fan, GasMark, Heat, bake_window, form_ratio};
use domain::units::{Celsius, Grams, Metres, Millimetres, grams, metres, minutes};
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

/// From `from_C` without a fan to `to_C`, whose `fan` may be on.
fn other_oven(item: &Item) -> Result<Answer, Refused> {
    let baking = Baking {
        piece: item.grams("piece_g")?,
        dough: item.celsius("dough")?,
        core: item.celsius("core")?,
        altitude: altitude(item)?,
    };
    let fan = item.inputs.get("fan").and_then(Value::as_bool);
    let heat = |air: Celsius, fan| Heat {
        air,
        fan: if fan { Fan::On } else { Fan::Off },
    };
    let from = heat(item.celsius("from")?, false);
    let to = heat(item.celsius("to")?, fan.unwrap_or(false));
    by("thermal::oven", baking.time_ratio(from, to))
}

/// A form of `from` and of `to` each: its mass, and its length and width where it has them.
fn other_form(item: &Item) -> Result<Answer, Refused> {
    let form = |key: &str| {
        let told = item.map(key)?;
        let number = |name: &str| {
            let found = told.get(name).and_then(Value::as_f64);
            found.ok_or_else(|| format!("its {key} has no {name}"))
        };
        let mass = fits(Grams::new(number("g")?))?;
        let across = |name| fits(Millimetres::new(number(name)?));
        match told.get("form").and_then(Value::as_str) {
            Some("ball" | "bun") => Ok(Baked::Ball { mass }),
            Some("roll" | "braid") => Ok(Baked::Roll {
                mass,
                length: across("length_mm")?,
            }),
            Some("tin" | "tray") => Ok(Baked::Filled {
                mass,
                width: across("width_mm")?,
                length: across("length_mm")?,
            }),
            other => Err(format!("the model has no form {other:?}")),
        }
    };
    let (dough, core) = (item.celsius("dough")?, item.celsius("core")?);
    let ratio = form_ratio(form("from")?, form("to")?, dough, core, altitude(item)?);
    let ratio = ratio.ok_or("the middle never has that temperature")?;
    by("thermal::oven", ratio.likely())
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
