//! Questions about the oven and about what mixtures are like.

use domain::estimate::{Basis, Estimate};
use domain::food::{Composition, food};
use domain::thermal::oven::altitude::boiling_point;
use domain::thermal::oven::{BakeForm, Baking, Fan, Heat, oven_course};
use domain::thermal::probe::window_after;
use domain::thermal::vessel::Material;
use domain::units::{Celsius, Grams, Metres, Minutes};
use serde::Deserialize;
use serde_json::{Value, json};

use crate::heat::{START, minutes_after, minutes_of};

#[derive(Deserialize)]
struct BakingQuestion {
    piece_g: f64,
    form: String,
    dough_c: f64,
    core_c: f64,
    altitude_m: f64,
    fan: String,
    air_c: f64,
}

impl BakingQuestion {
    fn baking(&self) -> Baking {
        let form = match self.form.as_str() {
            "long" => BakeForm::Long,
            "ring" => BakeForm::Ring,
            "tin" => BakeForm::Tin,
            "touching" => BakeForm::Touching,
            _ => BakeForm::Round,
        };
        Baking {
            piece: Grams::clamped(self.piece_g),
            form,
            dough: Celsius::clamped(self.dough_c),
            core: Celsius::clamped(self.core_c),
            altitude: Metres::clamped(self.altitude_m),
        }
    }

    fn heat(&self) -> Heat {
        Heat {
            air: Celsius::clamped(self.air_c),
            fan: if self.fan == "fan" { Fan::On } else { Fan::Off },
        }
    }
}

/// How much longer one takes than another.
#[derive(Deserialize)]
pub(crate) struct BakeRatio {
    from: BakingQuestion,
    to: BakingQuestion,
}

impl BakeRatio {
    pub(crate) fn answer(&self) -> Value {
        let (from, to) = (self.from.baking(), self.to.baking());
        let boils = |baking: Baking| boiling_point(baking.altitude).get();
        json!({
            "ratio": to.longer_than(self.to.heat(), &from, self.from.heat()),
            "from_boiling_c": boils(from),
            "to_boiling_c": boils(to),
        })
    }
}

/// The middle of what bakes, and its window once it was read.
#[derive(Deserialize)]
pub(crate) struct OvenCourse {
    baking: BakingQuestion,
    likely_min: f64,
    at_min: Vec<f64>,
    /// What was believed: the window's ends.
    low_min: f64,
    high_min: f64,
    read_at_min: f64,
    read_c: f64,
}

impl OvenCourse {
    pub(crate) fn answer(&self) -> Value {
        let baking = self.baking.baking();
        let likely = Minutes::clamped(self.likely_min);
        let course = oven_course(&baking, self.baking.heat(), START, likely);
        let core = |&at: &f64| course.core_at(minutes_after(at)).get();
        let before = Estimate::new(
            minutes_after(self.low_min),
            minutes_after(self.likely_min),
            minutes_after(self.high_min),
            Basis::Formula,
        );
        let read_at = minutes_after(self.read_at_min);
        let read = Celsius::clamped(self.read_c);
        let window = window_after(&course, &before, None, &[], baking.core, read_at, read);
        json!({
            "core_c": self.at_min.iter().map(core).collect::<Vec<_>>(),
            "window_min": minutes_of(&window),
            "boiling_c": boiling_point(baking.altitude).get(),
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
