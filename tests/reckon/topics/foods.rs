//! Foods: what they are made of, how they take up heat, what a cup of them weighs.

mod by_name;

use domain::food::choi_okos::{self, Component};
use domain::food::{self, Composition, crumb, moisture};
use domain::thermal::constants::{MILK_FAT_HEAT_OF_FUSION, MILK_FAT_MELTED};
use domain::thermal::mixing::melted_share;
use domain::thermal::vessel::Material;
use domain::units::{Celsius, Grams, Share, celsius};
use serde_json::{Value, json};

pub(super) use self::by_name::named;
use super::{Answer, by};
use crate::reckon::item::{Item, Refused, fits};
use crate::reckon::{Context, text};

pub(super) fn answer(item: &Item, context: &Context) -> Option<Result<Answer, Refused>> {
    let topic = item.topic.as_str();
    let starts = |begin| topic.starts_with(begin);
    Some(if starts("composition per 100 g") {
        composition(item, context)
    } else if starts("US cup weight") {
        weight(item, context, "cup")
    } else if starts("household measure weight") {
        item.text("measure")
            .and_then(|measure| weight(item, context, measure))
    } else if starts("edible share") {
        edible(item)
    } else if starts("Choi–Okos component specific heats") {
        components(item, |component, at| component.specific_heat(at).get())
    } else if starts("Choi–Okos component conductivities") {
        components(item, |component, at| component.conductivity(at).get())
    } else if starts("Choi–Okos component densities") {
        components(item, |component, at| component.density(at).get())
    } else if starts("Choi–Okos food properties") {
        properties(item, context)
    } else if starts("Choi–Okos mixture") {
        mixture(item)
    } else if starts("Earle moisture-only") {
        moisture_only(item)
    } else if starts("published specific heat") {
        published(item)
    } else if starts("crystalline sucrose") {
        sucrose()
    } else if starts("enthalpy of fusion, anhydrous milk fat") {
        by("thermal::constants", MILK_FAT_HEAT_OF_FUSION.get())
    } else if starts("melting point of milk fat") {
        let [.., (melted_at, _)] = MILK_FAT_MELTED;
        by("thermal::constants", melted_at.get())
    } else if starts("liquid fat in butter") {
        melted(item)
    } else if starts("bread crumb") {
        crumb_of(item)
    } else {
        return None;
    })
}

fn of_number(item: &Item, context: &Context) -> Result<(Composition, &'static str), Refused> {
    let ndb = item.ndb()?;
    let found = context.published.composition(ndb);
    found.ok_or_else(|| format!("no table here has the food {ndb}"))
}

fn composition(item: &Item, context: &Context) -> Result<Answer, Refused> {
    let (of, part) = of_number(item, context)?;
    let usual = vec!["water", "protein", "fat", "carb", "fibre", "ash", "sugar"];
    let shares: Result<Vec<f64>, Refused> = item
        .order()
        .unwrap_or(usual)
        .into_iter()
        .map(|name| {
            Ok(100.0
                * match name {
                    "water" => of.water,
                    "protein" => of.protein,
                    "fat" => of.fat,
                    "carb" | "carbohydrate" => of.carbohydrate,
                    "fibre" | "fiber" => of.fibre,
                    "ash" => of.ash,
                    "sugar" | "sugars" => of.sugar,
                    other => return Err(format!("the model doesn't tell {other} apart")),
                }
                .get())
        })
        .collect();
    by(part, shares?)
}

fn weight(item: &Item, context: &Context, measure: &str) -> Result<Answer, Refused> {
    let (ndb, said) = (item.ndb()?, item.text("food").unwrap_or_default());
    let found = context.published.household_weight(ndb, measure, said);
    let (mass, part) = found.ok_or_else(|| format!("no table here weighs a {measure} of {ndb}"))?;
    by(part, mass.get())
}

fn edible(item: &Item) -> Result<Answer, Refused> {
    let refuse = fits(Share::new(item.number("refuse_pct")? / 100.0))?;
    let key = item.inputs.keys().find(|key| key.ends_with("_g"));
    let whole = item.grams(key.ok_or("its inputs hold no mass")?)?;
    by("units", (whole - whole * refuse).get())
}

/// Whether the item follows the same constant for water as the model does.
fn same_water(item: &Item) -> Result<(), Refused> {
    let ours = Component::Water.specific_heat(celsius(0.0)).get();
    match item.number("water_const") {
        Ok(theirs) if theirs != ours => Err(format!(
            "the model follows the constant {ours} for water, and not {theirs}"
        )),
        _ => Ok(()),
    }
}

fn unfrozen(item: &Item) -> Result<Celsius, Refused> {
    let at = item.celsius("T")?;
    if (0.0..=150.0).contains(&at.get()) {
        Ok(at)
    } else {
        Err("outside the model: foods are unfrozen, from 0 to 150 °C".to_owned())
    }
}

fn components(item: &Item, of: fn(Component, Celsius) -> f64) -> Result<Answer, Refused> {
    same_water(item)?;
    let at = unfrozen(item)?;
    let usual = vec!["water", "protein", "fat", "carbohydrate", "fibre", "ash"];
    let values: Result<Vec<f64>, Refused> = item
        .order()
        .unwrap_or(usual)
        .into_iter()
        .map(|name| {
            let component = match name {
                "water" => Component::Water,
                "protein" => Component::Protein,
                "fat" => Component::Fat,
                "carbohydrate" | "carb" => Component::Carbohydrate,
                "fibre" | "fiber" => Component::Fibre,
                "ash" => Component::Ash,
                other => return Err(format!("the model doesn't tell {other} apart")),
            };
            Ok(of(component, at))
        })
        .collect();
    by("food::choi_okos", values?)
}

fn properties(item: &Item, context: &Context) -> Result<Answer, Refused> {
    same_water(item)?;
    let at = unfrozen(item)?;
    let (of, _) = of_number(item, context)?;
    let c = choi_okos::specific_heat(&of, at).get();
    let (rho, k) = (
        choi_okos::density(&of, at),
        choi_okos::conductivity(&of, at),
    );
    by("food::choi_okos", json!([c, rho.get(), k.get()]))
}

/// A dough or a filling, by what goes into it: c, ρ and k.
fn mixture(item: &Item) -> Result<Answer, Refused> {
    same_water(item)?;
    let at = unfrozen(item)?;
    let parts: Result<Vec<(Grams, Composition)>, Refused> = item
        .map("ingredients_g")?
        .iter()
        .map(|(said, mass)| {
            let found = named(said).ok_or_else(|| format!("the model doesn't know {said}"))?;
            let mass = mass.as_f64().ok_or("a mass is no number")?;
            Ok((fits(Grams::new(mass))?, found.composition))
        })
        .collect();
    let mixed = Composition::of_mixture(&parts?).ok_or("it weighs nothing")?;
    let of = Material::of(&mixed, at);
    let (c, rho, k) = (of.specific_heat, of.density, of.conductivity);
    by("thermal::vessel", json!([c.get(), rho.get(), k.get()]))
}

fn moisture_only(item: &Item) -> Result<Answer, Refused> {
    let water = fits(Share::new(item.number("water_pct")? / 100.0))?;
    by("food::moisture", moisture::specific_heat(water).get())
}

/// A food described in words: "butter 15 % water, 4.4 °C".
fn published(item: &Item) -> Result<Answer, Refused> {
    let said = item.text("food")?;
    let at_c = text::middle(&text::with_unit(said, "°C")).unwrap_or(20.0);
    let at = fits(Celsius::new(at_c))?;
    if said.contains("milk fat") || said.contains("butterfat") {
        return by("food::choi_okos", Component::Fat.specific_heat(at).get());
    }
    if text::words(said)
        .first()
        .is_some_and(|word| word == "bread")
        && !said.contains("flour")
    {
        return by("food::crumb", crumb::SPECIFIC_HEAT.get());
    }
    let percent = text::middle(&text::with_unit(said, "%"));
    let mut found = named(said).ok_or_else(|| format!("the model doesn't know {said}"))?;
    if let Some(percent) = percent {
        let share = fits(Share::new(percent / 100.0))?;
        let stated = found.composition;
        found.composition = if said.contains("% fat") {
            stated.with_fat(share)
        } else {
            stated.with_water(share)
        };
    }
    let part = if found.measured.is_some() {
        "food"
    } else {
        "food::choi_okos"
    };
    by(part, found.specific_heat(at).get())
}

fn sucrose() -> Result<Answer, Refused> {
    let sugar = food::food("sugar").and_then(|sugar| sugar.measured_specific_heat);
    let sugar = sugar.ok_or("the model has no measured sugar")?;
    by("food", sugar.get())
}

/// One share for every season that the item tells apart: the model has one curve.
fn melted(item: &Item) -> Result<Answer, Refused> {
    let at_c = text::middle(&text::with_unit(&item.topic, "°C")).ok_or("no temperature")?;
    let percent = melted_share(fits(Celsius::new(at_c))?).get() * 100.0;
    let value: Value = match &item.expected {
        Value::Array(seasons) => vec![percent; seasons.len()].into(),
        _ => percent.into(),
    };
    by("thermal::mixing", value)
}

fn crumb_of(item: &Item) -> Result<Answer, Refused> {
    let porosity = fits(Share::new(item.number("porosity_pct")? / 100.0))?;
    let density = crumb::density(porosity).get();
    let diffusivity = crumb::diffusivity(porosity).get();
    by("food::crumb", json!([density, diffusivity]))
}
