//! Yeast: its rate against temperature, kinds of it, and its gas.

use domain::thermal::oven::altitude;
use domain::units::{BakersPercent, CelsiusDelta, Metres, Pascals, celsius};
use domain::units::{Celsius, Grams, Share, metres};
use domain::yeast::activity::{Cardinals, relative_rate};
use domain::yeast::kinds::YeastKind;
use domain::yeast::slowing::{LEAN, Slowing, pace};
use domain::yeast::{dose, gas, q10, thin_air};
use serde_json::json;

use super::{Answer, by};
use crate::reckon::item::{Item, Refused, fits};
use crate::reckon::{Context, text};

pub(super) fn answer(item: &Item, _: &Context) -> Option<Result<Answer, Refused>> {
    let topic = item.topic.as_str();
    let starts = |begin| topic.starts_with(begin);
    Some(if starts("CTMI relative rate") {
        rate(item)
    } else if starts("apparent Q10") {
        apparent(item)
    } else if starts("S. cerevisiae growth Topt, Tmax") {
        let Cardinals {
            optimum, maximum, ..
        } = Cardinals::GROWTH;
        by("yeast::activity", json!([optimum.get(), maximum.get()]))
    } else if starts("trade rule") {
        rule(item)
    } else if starts("Ea=") {
        energy(item)
    } else if starts("fresh →") {
        converted(item)
    } else if starts("CO2 from") {
        carbon_dioxide(item)
    } else if starts("sugar level above which") {
        slowing_sugar()
    } else if topic.contains("yeast reduction") {
        less_yeast(item)
    } else {
        return None;
    })
}

fn cardinals(minimum: f64, optimum: f64, maximum: f64) -> Result<Cardinals, Refused> {
    if !(minimum < optimum && optimum < maximum) {
        return Err("its cardinal temperatures are out of order".to_owned());
    }
    Ok(Cardinals {
        minimum: fits(Celsius::new(minimum))?,
        optimum: fits(Celsius::new(optimum))?,
        maximum: fits(Celsius::new(maximum))?,
    })
}

fn rate(item: &Item) -> Result<Answer, Refused> {
    let of = cardinals(
        item.number("Tmin")?,
        item.number("Topt")?,
        item.number("Tmax")?,
    )?;
    by("yeast::activity", relative_rate(item.celsius("T")?, &of))
}

/// The two temperatures that a topic names: "20→30 °C".
fn between(topic: &str) -> Result<(Celsius, Celsius), Refused> {
    match text::with_unit(topic, "°C").as_slice() {
        [from, to] => Ok((fits(Celsius::new(*from))?, fits(Celsius::new(*to))?)),
        _ => Err("its topic doesn't name two temperatures".to_owned()),
    }
}

fn apparent(item: &Item) -> Result<Answer, Refused> {
    let values = item.numbers("Tmin,Topt,Tmax")?;
    let [minimum, optimum, maximum] = values.as_slice() else {
        return Err("there are three cardinal temperatures".to_owned());
    };
    let of = cardinals(*minimum, *optimum, *maximum)?;
    let (from, to) = between(&item.topic)?;
    by("yeast::q10", q10::of_cardinals(&of, from, to))
}

/// A rule stated in the topic: so much per °C, or doubling per so many degrees.
fn rule(item: &Item) -> Result<Answer, Refused> {
    let topic = item.topic.as_str();
    let value = if let [percent] = text::with_unit(topic, "%").as_slice() {
        q10::of_growth_per_kelvin(fits(Share::new(percent / 100.0))?)
    } else if let [every_f] = text::with_unit(topic, "°F").as_slice() {
        q10::of_doubling(fits(CelsiusDelta::from_fahrenheit(*every_f))?)
    } else if let [every] = text::with_unit(topic, "°C").as_slice() {
        q10::of_doubling(fits(CelsiusDelta::new(*every))?)
    } else {
        return Err("its topic states no rule that the model knows".to_owned());
    };
    if topic.contains("implied Q10 and doubling") {
        return by("yeast::q10", json!([value, q10::doubling(value).get()]));
    }
    by("yeast::q10", value)
}

fn energy(item: &Item) -> Result<Answer, Refused> {
    let (from, to) = between(&item.topic)?;
    let energy = q10::activation_energy(item.number("Q10")?, from, to);
    by("yeast::q10", energy.get())
}

fn converted(item: &Item) -> Result<Answer, Refused> {
    let (_, to) = item.topic.split_once('→').ok_or("no kind is wanted")?;
    let to = if to.contains("active") {
        YeastKind::ActiveDry
    } else if to.contains("instant") {
        YeastKind::Instant
    } else {
        return Err(format!("the model doesn't know the yeast{to}"));
    };
    let converted = YeastKind::Fresh.as_kind(item.grams("fresh_g")?, to);
    by("yeast::kinds", converted.get())
}

/// By how much a baker notices that a dough is slower: a tenth, as every rise of a formula is known no better.
const NOTICED: f64 = 0.9;

/// The sugar above which yeast is slowed as much as anybody notices.
fn slowing_sugar() -> Result<Answer, Refused> {
    let notices = |tenths: &u16| {
        let sugar = BakersPercent::clamped(f64::from(*tenths) / 10.0);
        pace(LEAN, Slowing { sugar, ..LEAN }).likely() < NOTICED
    };
    let found = (0..=1000).find(notices).ok_or("no sugar slows it")?;
    by("yeast::slowing", f64::from(found) / 10.0)
}

/// How much less yeast, in percent, takes as long for a rise at a height as all of it lower down.
fn less_yeast(item: &Item) -> Result<Answer, Refused> {
    let feet = text::with_unit(&item.topic, "ft");
    let [feet] = feet.as_slice() else {
        return Err("its topic doesn't name one height".to_owned());
    };
    let height = fits(Metres::new(feet * 0.3048))?;
    let kept = dose::for_pace(thin_air::times(height));
    by("yeast::dose", (1.0 - kept) * 100.0)
}

fn carbon_dioxide(item: &Item) -> Result<Answer, Refused> {
    let topic = item.topic.as_str();
    let glucose_g = item
        .number("glucose_g")
        .ok()
        .or_else(|| text::with_unit(topic, "g glucose").first().copied());
    let glucose = fits(Grams::new(glucose_g.ok_or("how much glucose?")?))?;
    let at_c = item
        .number("T_C")
        .ok()
        .or_else(|| text::with_unit(topic, "°C").first().copied());
    let at = at_c.map_or(Ok(celsius(30.0)), |at_c| fits(Celsius::new(at_c)))?;
    let atmospheres = text::with_unit(topic, "atm").first().copied();
    let one = altitude::pressure(metres(0.0)).get();
    let pressure = fits(Pascals::new(atmospheres.unwrap_or(1.0) * one))?;
    let mass = gas::carbon_dioxide_from(glucose);
    let volume = gas::volume(mass, at, pressure);
    by("yeast::gas", json!([mass.get(), volume.get()]))
}
