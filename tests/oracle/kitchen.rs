//! Questions about units, water, ice, altitude and mixing.

use domain::food::choi_okos::Component;
use domain::food::{Food, food};
use domain::thermal::constants::MILK_FAT_MELTED;
use domain::thermal::kneading::KneadingMethod;
use domain::thermal::liquid::ice::ice_at;
use domain::thermal::liquid::{LiquidPart, LiquidQuestion, liquid_temperature};
use domain::thermal::mixing::{Part, Sources, mixed_temperature};
use domain::thermal::oven::altitude::{boiling_point, pressure_ratio};
use domain::units::{Celsius, CelsiusDelta, Grams, Metres, Minutes};
use serde::Deserialize;
use serde_json::{Value, json};

#[derive(Deserialize)]
pub(crate) struct Units {
    celsius: f64,
    fahrenheit: f64,
    kelvin: f64,
}

impl Units {
    pub(crate) fn answer(&self) -> Value {
        json!({
            "fahrenheit": Celsius::clamped(self.celsius).to_fahrenheit(),
            "celsius": Celsius::from_fahrenheit(self.fahrenheit).map(Celsius::get).ok(),
            "fahrenheit_difference": CelsiusDelta::clamped(self.kelvin).to_fahrenheit(),
        })
    }
}

#[derive(Deserialize)]
pub(crate) struct Water {
    t_c: f64,
}

impl Water {
    pub(crate) fn answer(&self) -> Value {
        let t = Celsius::clamped(self.t_c);
        json!({
            "specific_heat_j_gk": Component::Water.specific_heat(t).get(),
            "conductivity_w_mk": Component::Water.conductivity(t).get(),
            "density_kg_m3": Component::Water.density(t).get(),
        })
    }
}

#[derive(Deserialize)]
pub(crate) struct Ice {
    total_g: f64,
    tap_c: f64,
    wanted_c: f64,
    ice_c: f64,
}

impl Ice {
    pub(crate) fn answer(&self) -> Value {
        let split = ice_at(
            Grams::clamped(self.total_g),
            Celsius::clamped(self.tap_c),
            Celsius::clamped(self.wanted_c),
            Celsius::clamped(self.ice_c),
        );
        json!({ "ice_g": split.ice.get(), "water_g": split.water.get() })
    }
}

#[derive(Deserialize)]
pub(crate) struct Boiling {
    altitude_m: f64,
}

impl Boiling {
    pub(crate) fn answer(&self) -> Value {
        let altitude = Metres::clamped(self.altitude_m);
        json!({
            "pressure_ratio": pressure_ratio(altitude),
            "boiling_c": boiling_point(altitude).get(),
        })
    }
}

#[derive(Deserialize)]
struct PartQuestion {
    food: String,
    mass_g: f64,
    t_c: f64,
}

fn food_of(key: &str) -> &'static Food {
    food(key).expect("run.py asks for foods of the table only")
}

impl PartQuestion {
    fn part(&self) -> Part {
        Part::of(
            food_of(&self.food),
            Grams::clamped(self.mass_g),
            Celsius::clamped(self.t_c),
        )
    }
}

/// What a part is, for the other side to reckon with the same numbers.
fn described(part: &Part) -> Value {
    json!({
        "kind": format!("{:?}", part.kind),
        "mass_g": part.mass.get(),
        "t_c": part.temperature.get(),
        "specific_heat_j_gk": part.specific_heat.get(),
        "milk_fat_g": part.milk_fat.get(),
    })
}

fn usual_sources() -> Value {
    let sources = Sources::USUAL;
    json!({
        "hydration_j_g": sources.hydration.get(),
        "sugar_j_g": sources.sugar.get(),
        "salt_j_g": sources.salt.get(),
        "milk_fat_j_g": sources.milk_fat.get(),
        "milk_fat_melted": MILK_FAT_MELTED.map(|(at, share)| [at.get(), share.get()]),
    })
}

#[derive(Deserialize)]
pub(crate) struct Mixing {
    parts: Vec<PartQuestion>,
}

impl Mixing {
    pub(crate) fn answer(&self) -> Value {
        let parts: Vec<Part> = self.parts.iter().map(PartQuestion::part).collect();
        json!({
            "parts": parts.iter().map(described).collect::<Vec<_>>(),
            "sources": usual_sources(),
            "mixed_c": mixed_temperature(&parts, &Sources::USUAL).map(Celsius::get),
        })
    }
}

#[derive(Deserialize)]
pub(crate) struct Liquid {
    parts: Vec<PartQuestion>,
    liquid: String,
    liquid_g: f64,
    target_c: f64,
    kitchen_c: f64,
    method: usize,
    kneading_min: f64,
}

impl Liquid {
    pub(crate) fn answer(&self) -> Value {
        let method = KneadingMethod::ALL[self.method % KneadingMethod::ALL.len()];
        let parameters = method.parameters();
        let question = LiquidQuestion {
            parts: self.parts.iter().map(PartQuestion::part).collect(),
            liquid: LiquidPart {
                food: food_of(&self.liquid),
                mass: Grams::clamped(self.liquid_g),
            },
            target: Celsius::clamped(self.target_c),
            kitchen: Celsius::clamped(self.kitchen_c),
            method,
            kneading: Minutes::clamped(self.kneading_min),
            // Far apart, so that nothing stands in the way of the temperature wanted.
            yeast_cap: Celsius::MAX,
            coldest: Celsius::MIN,
        };
        let liquid = Part::of(
            question.liquid.food,
            question.liquid.mass,
            Celsius::clamped(20.0),
        );
        let answer = liquid_temperature(&question);
        json!({
            "parts": question.parts.iter().map(described).collect::<Vec<_>>(),
            "liquid": described(&liquid),
            "sources": usual_sources(),
            "time_constant_min": parameters.time_constant.get(),
            "hand_share": parameters.hand_share.get(),
            "warming_k_min": parameters.warming_per_minute.get(),
            "wanted_c": answer.as_ref().map(|answer| answer.wanted.get()),
            "dough_c": answer.as_ref().map(|answer| answer.dough.likely().get()),
        })
    }
}
