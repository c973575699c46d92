//! Measures, degrees, durations, and heat by mass.

use domain::thermal::constants::HEAT_OF_HYDRATION;
use domain::units::duration::fits_a_calendar;
use domain::units::measures::{Measure, OUNCE, POUND};
use domain::units::{Celsius, JoulesPerGram, Minutes};
use serde_json::{Value, json};

use super::{Answer, by};
use crate::reckon::Context;
use crate::reckon::item::{Item, Refused, fits, list};

pub(super) fn answer(item: &Item, _: &Context) -> Option<Result<Answer, Refused>> {
    let topic = item.topic.as_str();
    Some(if let Some(measures) = measures(topic) {
        let volumes: Vec<f64> = measures.iter().map(|one| one.volume().get()).collect();
        by("units::measures", one_or_all(&volumes))
    } else if topic.starts_with("ounce avoirdupois") {
        by("units::measures", OUNCE.get())
    } else if topic.starts_with("pound avoirdupois") {
        by("units::measures", POUND.get())
    } else if topic.starts_with("°F→°C") {
        to_celsius(item)
    } else if topic.starts_with("°C→°F") {
        to_fahrenheit(item)
    } else if topic.starts_with("ISO 8601 duration") {
        seconds(item)
    } else if topic.contains("RFC 5545 durations") {
        by("units::duration", sorted_out(&item.expected))
    } else if topic.starts_with("heat of hydration of flour") {
        by("thermal::constants", HEAT_OF_HYDRATION.get())
    } else if topic.starts_with("kneading energy") {
        work(item)
    } else {
        return None;
    })
}

/// The measures that a topic names, in its order.
fn measures(topic: &str) -> Option<Vec<Measure>> {
    Some(match topic {
        "US cup" => vec![Measure::UsCup],
        "US tablespoon" => vec![Measure::UsTablespoon],
        "US teaspoon" => vec![Measure::UsTeaspoon],
        "US fluid ounce" => vec![Measure::UsFluidOunce],
        "US, imperial fluid ounce" => vec![Measure::UsFluidOunce, Measure::ImperialFluidOunce],
        "metric teaspoon, tablespoon (UK/NZ), AU tablespoon, metric cup" => vec![
            Measure::MetricTeaspoon,
            Measure::MetricTablespoon,
            Measure::AustralianTablespoon,
            Measure::MetricCup,
        ],
        _ => return None,
    })
}

fn one_or_all(values: &[f64]) -> Value {
    match values {
        [one] => (*one).into(),
        all => all.into(),
    }
}

/// The numbers under a key, one or several.
fn given(item: &Item, key: &str) -> Result<Vec<f64>, Refused> {
    item.numbers(key)
        .or_else(|_| item.number(key).map(|one| vec![one]))
}

fn to_celsius(item: &Item) -> Result<Answer, Refused> {
    let read = given(item, "F")?.into_iter();
    let read: Result<Vec<Celsius>, Refused> = read
        .map(|value| fits(Celsius::from_fahrenheit(value)))
        .collect();
    let read = read?;
    match read.as_slice() {
        [one] if item.expected.is_number() => by("units", one.get()),
        all => by("units", list(all)),
    }
}

fn to_fahrenheit(item: &Item) -> Result<Answer, Refused> {
    let read = given(item, "C")?.into_iter();
    let read: Result<Vec<f64>, Refused> = read
        .map(|value| Ok(fits(Celsius::new(value))?.to_fahrenheit()))
        .collect();
    let read = read?;
    match read.as_slice() {
        [one] if item.expected.is_number() => by("units", *one),
        all => by("units", all.to_vec()),
    }
}

fn seconds(item: &Item) -> Result<Answer, Refused> {
    let length = Minutes::from_iso8601(item.text("s")?);
    let length = length.ok_or("it is no duration of a fixed length")?;
    by("units::duration", (length.get() * 60.0 * 1e6).round() / 1e6)
}

/// All durations that the item lists, whichever way, sorted out anew in the order of the lists.
fn sorted_out(listed: &Value) -> Value {
    let all = |key: &str| {
        let list = listed.get(key).and_then(Value::as_array);
        list.into_iter().flatten().filter_map(Value::as_str)
    };
    let every: Vec<&str> = all("valid").chain(all("invalid")).collect();
    let those = |valid: bool| -> Vec<&str> {
        let of_that = |text: &&&str| fits_a_calendar(text) == valid;
        every.iter().filter(of_that).copied().collect()
    };
    json!({ "valid": those(true), "invalid": those(false) })
}

fn work(item: &Item) -> Result<Answer, Refused> {
    let work = match item.number("BTU_per_lb") {
        Ok(value) => JoulesPerGram::from_btu_per_pound(value),
        Err(_) => JoulesPerGram::from_watt_hours_per_kilogram(item.number("Wh_per_kg")?),
    };
    by("units::measures", fits(work)?.get())
}
