//! Questions about units, water, ice, altitude and mixing.

use domain::food::choi_okos::Component;
use domain::food::{Food, food};
use domain::thermal::constants::{FRIDGE, MILK_FAT_MELTED, YEAST_LIQUID_CAP};
use domain::thermal::kneading::KneadingMethod;
use domain::thermal::liquid::chilling::{spread_flour, time_to};
use domain::thermal::liquid::frozen::frozen_for;
use domain::thermal::liquid::ice::ice_at;
use domain::thermal::liquid::{LiquidPart, LiquidQuestion, liquid_temperature};
use domain::thermal::mixing::{Part, Sources, mixed_temperature};
use domain::thermal::oven::altitude::{boiling_point, pressure_ratio};
use domain::units::measures::Measure;
use domain::units::{Celsius, CelsiusDelta, Grams, Metres, Millilitres, Millimetres, Minutes};
use serde::Deserialize;
use serde_json::{Value, json};

#[derive(Deserialize)]
pub(crate) struct Units {
    celsius: f64,
    fahrenheit: f64,
    kelvin: f64,
    grams: f64,
    pounds: f64,
    millilitres: f64,
    millimetres: f64,
    inches: f64,
}

impl Units {
    pub(crate) fn answer(&self) -> Value {
        let mass = Grams::clamped(self.grams);
        let volume = Millilitres::clamped(self.millilitres);
        let measures: Vec<f64> = [
            Measure::UsQuart,
            Measure::UsPint,
            Measure::UsCup,
            Measure::UsFluidOunce,
            Measure::UsTablespoon,
            Measure::UsTeaspoon,
            Measure::ImperialPint,
            Measure::ImperialFluidOunce,
        ]
        .map(|measure| volume.to_measures(measure))
        .to_vec();
        json!({
            "kilograms": mass.to_kilograms(),
            "ounces": mass.to_ounces(),
            "pounds": mass.to_pounds(),
            "grams": Grams::from_pounds(self.pounds).map(Grams::get).ok(),
            "measures": measures,
            "inches": Millimetres::clamped(self.millimetres).to_inches(),
            "centimetres": Millimetres::clamped(self.millimetres).to_centimetres(),
            "millimetres": Millimetres::from_inches(self.inches).map(Millimetres::get).ok(),
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
        let total = Grams::clamped(self.total_g);
        let ice = ice_at(
            total,
            Celsius::clamped(self.tap_c),
            Celsius::clamped(self.wanted_c),
            Celsius::clamped(self.ice_c),
        );
        json!({ "ice_g": ice.get(), "water_g": (total - ice).get() })
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
            liquids: vec![LiquidPart {
                food: food_of(&self.liquid),
                mass: Grams::clamped(self.liquid_g),
                coldest: Celsius::MIN,
            }],
            target: Celsius::clamped(self.target_c),
            kitchen: Celsius::clamped(self.kitchen_c),
            fridge: FRIDGE,
            method,
            kneading: Minutes::clamped(self.kneading_min),
            // As far as it goes, so that nothing stands in the way of the temperature wanted.
            cap: Celsius::MAX,
        };
        let liquid = Part::of(
            food_of(&self.liquid),
            Grams::clamped(self.liquid_g),
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

#[derive(Deserialize)]
struct ColdLiquid {
    food: String,
    mass_g: f64,
    coldest_c: f64,
}

impl ColdLiquid {
    fn part(&self) -> LiquidPart {
        LiquidPart {
            food: food_of(&self.food),
            mass: Grams::clamped(self.mass_g),
            coldest: Celsius::clamped(self.coldest_c),
        }
    }

    /// What it is, with its water, for the other side to freeze.
    fn described(&self) -> Value {
        let part = self.part();
        let mut told = described(&Part::of(part.food, part.mass, part.coldest));
        told["water"] = json!(part.food.composition.water.get());
        told
    }
}

/// How much of one of several liquids must be frozen.
#[derive(Deserialize)]
pub(crate) struct Split {
    liquids: Vec<ColdLiquid>,
    which: usize,
    wanted_c: f64,
}

impl Split {
    pub(crate) fn answer(&self) -> Value {
        let liquids: Vec<LiquidPart> = self.liquids.iter().map(ColdLiquid::part).collect();
        let wanted = Celsius::clamped(self.wanted_c);
        let split = frozen_for(&liquids, self.which % liquids.len(), wanted);
        json!({
            "liquids": self.liquids.iter().map(ColdLiquid::described).collect::<Vec<_>>(),
            "frozen_g": split.frozen.get(),
            "rest_g": split.rest.get(),
        })
    }
}

/// The dough that a frozen part makes, in a kitchen too warm for chilling alone.
#[derive(Deserialize)]
pub(crate) struct FrozenDough {
    parts: Vec<PartQuestion>,
    liquid: ColdLiquid,
    target_c: f64,
    kitchen_c: f64,
    method: usize,
    kneading_min: f64,
}

impl FrozenDough {
    pub(crate) fn answer(&self) -> Value {
        let method = KneadingMethod::ALL[self.method % KneadingMethod::ALL.len()];
        let parameters = method.parameters();
        let question = LiquidQuestion {
            parts: self.parts.iter().map(PartQuestion::part).collect(),
            liquids: vec![self.liquid.part()],
            target: Celsius::clamped(self.target_c),
            kitchen: Celsius::clamped(self.kitchen_c),
            fridge: FRIDGE,
            method,
            kneading: Minutes::clamped(self.kneading_min),
            cap: YEAST_LIQUID_CAP,
        };
        let answer = liquid_temperature(&question);
        let answer = answer.as_ref();
        json!({
            "parts": question.parts.iter().map(described).collect::<Vec<_>>(),
            "liquid": self.liquid.described(),
            "sources": usual_sources(),
            "time_constant_min": parameters.time_constant.get(),
            "hand_share": parameters.hand_share.get(),
            "warming_k_min": parameters.warming_per_minute.get(),
            "reach": answer.map(|answer| format!("{:?}", answer.reach)),
            "frozen_g": answer.and_then(|answer| answer.frozen).map_or(0.0, |split| split.frozen.get()),
            "dough_c": answer.map(|answer| answer.mild_dough.likely().get()),
        })
    }
}

/// How long spread flour takes to cool.
#[derive(Deserialize)]
pub(crate) struct Flour {
    from_c: f64,
    around_c: f64,
    to_c: f64,
}

impl Flour {
    pub(crate) fn answer(&self) -> Value {
        let [from, around, to] = [self.from_c, self.around_c, self.to_c].map(Celsius::clamped);
        let time = time_to(spread_flour(), from, around, to);
        json!({
            "body": crate::heat::described(&spread_flour()),
            "minutes": time.map(|time| [time.low(), time.likely(), time.high()].map(Minutes::get)),
        })
    }
}
