//! The trade's rule of factors, and friction.

use domain::thermal::kneading::KneadingMethod;
use domain::thermal::liquid::rule::{dough_by_rule, friction_of_batch, rule_of_factors};
use domain::units::{CelsiusDelta, celsius_delta};

use super::{Answer, by};
use crate::reckon::Context;
use crate::reckon::item::{Item, Refused};

pub(super) fn answer(item: &Item, _: &Context) -> Option<Result<Answer, Refused>> {
    let topic = item.topic.as_str();
    if topic.starts_with("desired dough temperature") {
        let wants_liquid = item.inputs.keys().any(|key| key.starts_with("ddt"));
        Some(if wants_liquid {
            liquid(item)
        } else {
            dough(item)
        })
    } else if topic.starts_with("friction factor") {
        Some(if item.inputs.contains_key("method") {
            typical(item)
        } else {
            of_batch(item)
        })
    } else {
        None
    }
}

const BESIDE: [&str; 3] = ["ddt", "friction", "actual_dough"];
const OUT_OF_RANGE: &str = "the answer lies outside the model's temperatures";

/// The number of factors, where one is given, has to be that of the temperatures.
fn counted(item: &Item, factors: usize) -> Result<(), Refused> {
    match item.number("factors") {
        Ok(stated) if stated != factors as f64 => Err(format!(
            "it states {stated} factors and gives temperatures for {factors}"
        )),
        _ => Ok(()),
    }
}

fn friction(item: &Item) -> Result<CelsiusDelta, Refused> {
    if item.inputs.keys().any(|key| key.starts_with("friction")) {
        item.difference("friction")
    } else {
        Ok(celsius_delta(0.0))
    }
}

fn liquid(item: &Item) -> Result<Answer, Refused> {
    let known = item.celsius_but(&BESIDE)?;
    counted(item, known.len() + 1)?;
    let wanted = rule_of_factors(item.celsius("ddt")?, &known, friction(item)?);
    by(
        "thermal::liquid::rule",
        item.shown(wanted.ok_or(OUT_OF_RANGE)?),
    )
}

fn dough(item: &Item) -> Result<Answer, Refused> {
    let known = item.celsius_but(&BESIDE)?;
    if known.is_empty() {
        return Err("a plain fact: every formula states its own dough temperature".to_owned());
    }
    counted(item, known.len())?;
    let dough = dough_by_rule(&known, friction(item)?);
    by(
        "thermal::liquid::rule",
        item.shown(dough.ok_or(OUT_OF_RANGE)?),
    )
}

fn of_batch(item: &Item) -> Result<Answer, Refused> {
    let known = item.celsius_but(&BESIDE)?;
    counted(item, known.len())?;
    let factor = friction_of_batch(item.celsius("actual_dough")?, &known);
    by(
        "thermal::liquid::rule",
        item.shown_difference(factor.ok_or(OUT_OF_RANGE)?),
    )
}

fn typical(item: &Item) -> Result<Answer, Refused> {
    let name = item.text("method")?;
    let method = match name {
        "hand" | "by hand" => KneadingMethod::Hand,
        "stand mixer" | "mixer" => KneadingMethod::StandMixer,
        "food processor" | "processor" => KneadingMethod::FoodProcessor,
        other => return Err(format!("the model doesn't knead by {other}")),
    };
    let factor = method.published_friction();
    let factor = factor.ok_or_else(|| format!("the rule has no friction factor for {name}"))?;
    by("thermal::kneading", item.shown_difference(factor))
}
