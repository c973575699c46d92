//! The two-stage rule, and how long what spoils may stand.

use domain::bake::{Kept, PERISHABLE_LIMIT, PERISHABLE_LIMIT_HOT};
use domain::thermal::constants::FRIDGE;
use domain::thermal::cooling::{
    BOTH_STAGES, COLD, FIRST_STAGE, FROM_AMBIENT, HOT, WARM, deepest_layer_of,
};
use domain::thermal::newton::largest_time_constants;
use domain::thermal::vessel::Material;
use serde_json::json;

use super::{Answer, by};
use crate::reckon::Context;
use crate::reckon::item::{Item, Refused};

pub(super) fn answer(item: &Item, _: &Context) -> Option<Result<Answer, Refused>> {
    let topic = item.topic.as_str();
    let starts = |begin| topic.starts_with(begin);
    Some(if starts("Food Code 3-501.14(A)") {
        by(
            "thermal::cooling",
            json!([
                HOT.get(),
                WARM.get(),
                FIRST_STAGE.get() / 60.0,
                COLD.get(),
                BOTH_STAGES.get() / 60.0,
            ]),
        )
    } else if starts("cooling of food made from ambient ingredients") {
        by("thermal::cooling", FROM_AMBIENT.get() / 60.0)
    } else if let Some((_, kept)) = KEPT.iter().find(|(begin, _)| starts(begin)) {
        let (from, to) = kept.days();
        by("bake::keeps", json!([from, to]))
    } else if starts("cold hold / hot hold") {
        by("thermal::constants", json!([FRIDGE.get(), HOT.get()]))
    } else if starts("perishables out of the fridge") {
        by(
            "bake::perishable",
            json!([
                PERISHABLE_LIMIT.get() / 60.0,
                PERISHABLE_LIMIT_HOT.get() / 60.0,
            ]),
        )
    } else if starts("largest Newton time constant") {
        newton(item)
    } else if starts("deepest") && topic.contains("layer") {
        deepest(item)
    } else {
        return None;
    })
}

/// What a topic about days in the fridge begins with.
const KEPT: [(&str, Kept); 4] = [
    ("cream pie, refrigerated", Kept::CookedMilk),
    ("dairy-filled éclairs, refrigerated", Kept::Filled),
    ("egg dishes, refrigerated", Kept::CookedEgg),
    ("raw whites/yolks, refrigerated", Kept::RawEgg),
];

const TOO_WARM: &str = "nothing passes in surroundings as warm as that";

fn newton(item: &Item) -> Result<Answer, Refused> {
    let largest = largest_time_constants(item.celsius("Tenv")?).ok_or(TOO_WARM)?;
    by(
        "thermal::newton",
        json!([largest.first_stage.get(), largest.both_stages.get()]),
    )
}

fn deepest(item: &Item) -> Result<Answer, Refused> {
    let material = Material {
        conductivity: item.conductivity()?,
        density: item.density()?,
        specific_heat: item.specific_heat()?,
    };
    let depth = deepest_layer_of(material, item.film()?, item.celsius("Tenv")?);
    // The model's layer is cooled on one face; one that is cooled on both is twice as deep.
    let faces = if item.topic.to_lowercase().contains("both faces") {
        2.0
    } else {
        1.0
    };
    by("thermal::cooling", (depth.ok_or(TOO_WARM)? * faces).get())
}
