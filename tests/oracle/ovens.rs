//! Questions about the oven and about what mixtures are like.

use domain::food::{Composition, food};
use domain::thermal::oven::altitude::boiling_point;
use domain::thermal::oven::{Baked, Baking, Fan, Heat, form_ratio};
use domain::thermal::vessel::Material;
use domain::units::{Celsius, Grams, Metres, Millimetres, metres};
use serde::Deserialize;
use serde_json::{Value, json};

#[derive(Deserialize)]
struct OvenQuestion {
    fan: String,
    air_c: f64,
}

impl OvenQuestion {
    fn heat(&self) -> Heat {
        Heat {
            air: Celsius::clamped(self.air_c),
            fan: if self.fan == "fan" { Fan::On } else { Fan::Off },
        }
    }
}

#[derive(Deserialize)]
pub(crate) struct BakeRatio {
    piece_g: f64,
    dough_c: f64,
    core_c: f64,
    altitude_m: f64,
    from: OvenQuestion,
    to: OvenQuestion,
}

impl BakeRatio {
    pub(crate) fn answer(&self) -> Value {
        let baking = Baking {
            piece: Grams::clamped(self.piece_g),
            dough: Celsius::clamped(self.dough_c),
            core: Celsius::clamped(self.core_c),
            altitude: Metres::clamped(self.altitude_m),
        };
        json!({
            "ratio": baking.time_ratio(self.from.heat(), self.to.heat()),
            "boiling_c": boiling_point(baking.altitude).get(),
        })
    }
}

#[derive(Deserialize)]
struct FormQuestion {
    form: String,
    mass_g: f64,
    width_mm: f64,
    length_mm: f64,
}

impl FormQuestion {
    fn baked(&self) -> Baked {
        let mass = Grams::clamped(self.mass_g);
        let (width, length) = (
            Millimetres::clamped(self.width_mm),
            Millimetres::clamped(self.length_mm),
        );
        match self.form.as_str() {
            "roll" => Baked::Roll { mass, length },
            "filled" => Baked::Filled {
                mass,
                width,
                length,
            },
            _ => Baked::Ball { mass },
        }
    }
}

#[derive(Deserialize)]
pub(crate) struct FormRatio {
    from: FormQuestion,
    to: FormQuestion,
    dough_c: f64,
    core_c: f64,
}

impl FormRatio {
    pub(crate) fn answer(&self) -> Value {
        let ratio = form_ratio(
            self.from.baked(),
            self.to.baked(),
            Celsius::clamped(self.dough_c),
            Celsius::clamped(self.core_c),
            metres(0.0),
        );
        json!({
            "low": ratio.map(|ratio| ratio.low()),
            "likely": ratio.map(|ratio| ratio.likely()),
            "high": ratio.map(|ratio| ratio.high()),
            "boiling_c": boiling_point(metres(0.0)).get(),
        })
    }
}

#[derive(Deserialize)]
pub(crate) struct Mixture {
    parts: Vec<(String, f64)>,
    at_c: f64,
}

impl Mixture {
    pub(crate) fn answer(&self) -> Value {
        let parts: Vec<(Grams, Composition)> = self
            .parts
            .iter()
            .map(|(key, mass_g)| {
                let food = food(key).expect("run.py asks for foods of the table only");
                (Grams::clamped(*mass_g), food.composition)
            })
            .collect();
        let mixture = Composition::of_mixture(&parts).expect("run.py mixes something");
        let material = Material::of(&mixture, Celsius::clamped(self.at_c));
        let rows = parts.iter().map(|(_, of)| {
            [
                of.water,
                of.protein,
                of.fat,
                of.carbohydrate,
                of.fibre,
                of.ash,
            ]
            .map(|share| share.get())
        });
        json!({
            "compositions": rows.collect::<Vec<_>>(),
            "specific_heat_j_gk": material.specific_heat.get(),
            "density_kg_m3": material.density.get(),
            "conductivity_w_mk": material.conductivity.get(),
        })
    }
}
