//! Baker's percentages, scaling, and what baking takes away.

use domain::formula::bakers;
use domain::thermal::vessel::Material;
use domain::units::{BakersPercent, Grams, Millilitres, Share};
use serde_json::{Map, Value, json};

use super::{Answer, by};
use crate::reckon::item::{Item, Refused, fits, list};
use crate::reckon::{Context, text};

pub(super) fn answer(item: &Item, _: &Context) -> Option<Result<Answer, Refused>> {
    let topic = item.topic.as_str();
    let starts = |begin| topic.starts_with(begin);
    Some(if item.inputs.contains_key("water") && has_percents(item) {
        water(item)
    } else if item.inputs.contains_key("flour_g") && has_percents(item) {
        masses(item, |given| {
            Ok(bakers::masses_for_flour(item.grams("flour_g")?, given))
        })
    } else if item.inputs.contains_key("dough_g") && has_percents(item) {
        masses(item, |given| {
            Ok(bakers::masses_for_dough(item.grams("dough_g")?, given))
        })
    } else if starts("baker's percentages sum") {
        read(&item.inputs).and_then(|given| {
            let percents: Vec<BakersPercent> = given.into_iter().map(|(_, one)| one).collect();
            by("formula::bakers", bakers::total(&percents).get())
        })
    } else if starts("baker's percentages of") {
        percents(topic)
    } else if starts("dough for") && topic.contains("loss") {
        before_baking(item)
    } else if starts("specific volume: mixed dough") {
        // Without gas; mixing leaves a few percent of air in it.
        by("thermal::vessel", 1000.0 / Material::DOUGH.density.get())
    } else if topic.contains("oven spring") {
        expansion(topic)
    } else {
        return None;
    })
}

fn has_percents(item: &Item) -> bool {
    item.map("pct").is_ok()
}

fn read(table: &Map<String, Value>) -> Result<Vec<(&str, BakersPercent)>, Refused> {
    table
        .iter()
        .map(|(name, value)| {
            let percent = value.as_f64();
            let percent = percent.ok_or_else(|| format!("{name} has no percentage"))?;
            Ok((name.as_str(), fits(BakersPercent::new(percent))?))
        })
        .collect()
}

fn masses(
    item: &Item,
    scaled: impl Fn(&[BakersPercent]) -> Result<Vec<Grams>, Refused>,
) -> Result<Answer, Refused> {
    let given = read(item.map("pct")?)?;
    let percents: Vec<BakersPercent> = given.iter().map(|(_, percent)| *percent).collect();
    let masses = scaled(&percents)?;
    let named = given.iter().zip(masses);
    let table: Map<String, Value> = named
        .map(|((name, _), mass)| ((*name).to_owned(), mass.get().into()))
        .collect();
    by("formula::bakers", Value::Object(table))
}

/// Water with and without what the yeast brings, where the topic asks for both.
fn water(item: &Item) -> Result<Answer, Refused> {
    let contents = item.map("water")?;
    // "eggs" are of "egg", "yeast_fresh" is of "yeast".
    let content = |name: &str| {
        contents.iter().find_map(|(food, percent)| {
            let same = name.starts_with(food.as_str());
            same.then(|| percent.as_f64()).flatten()
        })
    };
    let mut parts = Vec::new();
    for (name, percent) in read(item.map("pct")?)? {
        if let Some(of_it) = content(name) {
            parts.push((name, (percent, fits(Share::new(of_it / 100.0))?)));
        }
    }
    let all = |with_yeast: bool| {
        let counted = parts
            .iter()
            .filter(|(name, _)| with_yeast || !name.contains("yeast"));
        let counted: Vec<(BakersPercent, Share)> = counted.map(|(_, part)| *part).collect();
        bakers::water(&counted).get()
    };
    if item.topic.contains("yeast excluded / included") {
        by("formula::bakers", json!([all(false), all(true)]))
    } else {
        by("formula::bakers", all(true))
    }
}

/// Masses stand in the topic, the flour first: "1000/600/100/20 g".
fn percents(topic: &str) -> Result<Answer, Refused> {
    let masses: Result<Vec<Grams>, Refused> = text::numbers(topic)
        .iter()
        .map(|found| fits(Grams::new(found.value)))
        .collect();
    let masses = masses?;
    let flour = masses.first().ok_or("its topic holds no masses")?;
    by("formula::bakers", list(&bakers::percents(&masses, *flour)))
}

/// The losses stand in the topic: "dough for 500 g baked at 10 % and 13 % loss".
fn before_baking(item: &Item) -> Result<Answer, Refused> {
    let baked = item.grams("baked_g")?;
    let stated = match item.number("loss_pct") {
        Ok(one) => vec![one],
        Err(_) => text::with_unit(&item.topic, "%"),
    };
    let doughs: Result<Vec<f64>, Refused> = stated
        .into_iter()
        .map(|percent| {
            let loss = fits(Share::new(percent / 100.0))?;
            let dough = bakers::dough_for(baked, loss);
            Ok(dough.ok_or("nothing would be left")?.get())
        })
        .collect();
    match doughs?.as_slice() {
        [one] if item.expected.is_number() => by("formula::bakers", *one),
        all => by("formula::bakers", all.to_vec()),
    }
}

/// Mass and volumes stand in the topic: "173.5 g: 145→515 mL end of proof, +360 mL oven spring".
fn expansion(topic: &str) -> Result<Answer, Refused> {
    let (masses, volumes) = (text::with_unit(topic, "g"), text::with_unit(topic, "mL"));
    let ([mass_g], [mixed, proofed, spring]) = (masses.as_slice(), volumes.as_slice()) else {
        return Err("its topic doesn't hold a mass and three volumes".to_owned());
    };
    let mass = fits(Grams::new(*mass_g))?;
    let volume = |value: f64| fits(Millilitres::new(value));
    let (mixed, proofed, spring) = (volume(*mixed)?, volume(*proofed)?, volume(*spring)?);
    by(
        "units",
        json!([
            proofed / mixed,
            (proofed / mass).get(),
            ((proofed + spring) / mass).get(),
        ]),
    )
}
