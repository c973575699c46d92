//! The heat balance of a bowl, and what the same formula comes to.

use domain::food::{Composition, FoodKind, choi_okos};
use domain::thermal::liquid::balance::liquid_for;
use domain::thermal::mixing::{Part, PartKind, Sources};
use domain::units::{
    Celsius, Grams, JoulesPerGram, JoulesPerGramKelvin, celsius, celsius_delta, grams,
};
use serde_json::{Value, json};

use super::foods::named;
use super::{Answer, INGREDIENTS, by};
use crate::reckon::item::{Item, Refused, fits};
use crate::reckon::{Context, text};

pub(super) fn answer(item: &Item, context: &Context) -> Option<Result<Answer, Refused>> {
    if item.inputs.contains_key(INGREDIENTS) {
        return Some(liquid(item));
    }
    // Topics of a dough that speak of a formula mean the nearest one above.
    let of_formula = item.topic.contains("above") || item.inputs.contains_key("same formula");
    if !of_formula {
        return None;
    }
    if item.topic.contains("specific heat") {
        Some(above(context).and_then(|formula| specific_heat(item, formula)))
    } else if item.topic.contains("water content") {
        Some(above(context).and_then(water))
    } else {
        None
    }
}

fn above(context: &Context) -> Result<&Item, Refused> {
    let formula = context.formula.as_ref();
    formula.ok_or_else(|| "there is no formula in the file".to_owned())
}

/// Name, mass and temperature; the liquid that is asked for has none.
type Ingredient<'a> = (&'a str, Grams, Option<Celsius>);

fn ingredients(item: &Item) -> Result<Vec<Ingredient<'_>>, Refused> {
    item.map(INGREDIENTS)?
        .iter()
        .map(|(name, row)| {
            let mass_g = row.get(0).and_then(Value::as_f64);
            let mass_g = mass_g.ok_or_else(|| format!("{name} has no mass"))?;
            let at = match row.get(1).and_then(Value::as_f64) {
                Some(at_c) => Some(fits(Celsius::new(at_c))?),
                None => None,
            };
            Ok((name.as_str(), fits(Grams::new(mass_g))?, at))
        })
        .collect()
}

fn is_flour(name: &str) -> bool {
    named(name).map_or_else(
        || name.contains("flour"),
        |found| found.kind == Some(FoodKind::Flour),
    )
}

fn heat_of(item: &Item, name: &str) -> Result<JoulesPerGramKelvin, Refused> {
    let stated = item.map("cp_kJkgK").ok().and_then(|table| table.get(name));
    if let Some(stated) = stated.and_then(Value::as_f64) {
        return fits(JoulesPerGramKelvin::new(stated));
    }
    let found = named(name).ok_or_else(|| format!("the model doesn't know {name}"))?;
    Ok(found.specific_heat(celsius(20.0)))
}

fn liquid(item: &Item) -> Result<Answer, Refused> {
    let target = item.celsius("target")?;
    let (mut parts, mut asked) = (Vec::new(), Vec::new());
    for (name, mass, at) in ingredients(item)? {
        let part = Part {
            kind: if is_flour(name) {
                PartKind::Flour
            } else {
                PartKind::Other
            },
            mass,
            temperature: at.unwrap_or(target),
            specific_heat: heat_of(item, name)?,
            milk_fat: grams(0.0),
            off: celsius_delta(0.0),
        };
        if at.is_some() {
            parts.push(part);
        } else {
            asked.push(part);
        }
    }
    let [liquid] = asked.as_slice() else {
        return Err(format!(
            "{} ingredients have no temperature, and one is wanted",
            asked.len()
        ));
    };
    // Heat that melting takes is given for the whole bowl, so it is spread over it.
    let dough_g: f64 = parts.iter().map(|part| part.mass.get()).sum::<f64>() + liquid.mass.get();
    let melting_j = item.number("melt_kJ").unwrap_or(0.0) * 1000.0;
    let melting = fits(JoulesPerGram::new(melting_j / dough_g))?;
    let sources = Sources {
        hydration: item.per_gram("hyd")?,
        work: item.per_gram("knead")? - melting,
        ..Sources::NONE
    };
    let wanted = liquid_for(&parts, liquid, target, &sources);
    let wanted = wanted.ok_or("the liquid would leave the model's temperatures")?;
    by("thermal::liquid::balance", item.shown(wanted))
}

fn mixture(formula: &Item) -> Result<(Composition, Grams, Grams), Refused> {
    let mut parts = Vec::new();
    let (mut dough, mut flour) = (grams(0.0), grams(0.0));
    for (name, mass, _) in ingredients(formula)? {
        let found = named(name).ok_or_else(|| format!("the model doesn't know {name}"))?;
        parts.push((mass, found.composition));
        dough += mass;
        if is_flour(name) {
            flour += mass;
        }
    }
    let whole = Composition::of_mixture(&parts).ok_or("the formula weighs nothing")?;
    Ok((whole, dough, flour))
}

fn specific_heat(item: &Item, formula: &Item) -> Result<Answer, Refused> {
    let at_c = text::middle(&text::with_unit(&item.topic, "°C")).unwrap_or(20.0);
    let (whole, ..) = mixture(formula)?;
    let c = choi_okos::specific_heat(&whole, fits(Celsius::new(at_c))?);
    by("food::choi_okos", c.get())
}

fn water(formula: &Item) -> Result<Answer, Refused> {
    let (whole, dough, flour) = mixture(formula)?;
    if flour <= grams(0.0) {
        return Err("the formula has no flour".to_owned());
    }
    let of_flour = dough * whole.water / flour * 100.0;
    by("food", json!([whole.water.get() * 100.0, of_flour]))
}
