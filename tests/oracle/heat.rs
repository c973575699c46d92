//! Questions about bodies that cool or warm.

use domain::estimate::Estimate;
use domain::thermal::cooling::{cooling_window, deepest_layer_that_passes, two_stage};
use domain::thermal::oven::BakeForm;
use domain::thermal::transient::{Shape, centre_ratio, mean_ratio, terms};
use domain::thermal::vessel::{
    Body, Cooling, Course, Doubt, Form, Held, Material, Spot, Surroundings, Vessel,
};
use domain::units::{Celsius, CelsiusDelta, Grams, Millimetres, Minutes, Moment};
use serde::Deserialize;
use serde_json::{Value, json};

/// Any moment will do; only differences come out.
pub(crate) const START: Moment = Moment::from_epoch_ms(1_700_000_000_000);

pub(crate) fn minutes_after(minutes: f64) -> Moment {
    START + Minutes::clamped(minutes)
}

/// The ends and the middle of a window, in min after the start.
pub(crate) fn minutes_of(window: &Estimate<Moment>) -> [f64; 3] {
    [window.low(), window.likely(), window.high()].map(|end| (end - START).get())
}

#[derive(Deserialize)]
pub(crate) struct Series {
    shape: String,
    biot: f64,
    fourier: f64,
    terms: usize,
}

impl Series {
    pub(crate) fn answer(&self) -> Value {
        let shape = match self.shape.as_str() {
            "cylinder" => Shape::Cylinder,
            "sphere" => Shape::Sphere,
            _ => Shape::Slab,
        };
        let terms = terms(shape, self.biot, self.terms);
        let each = |pick: fn(&domain::thermal::transient::Term) -> f64| {
            terms.iter().map(pick).collect::<Vec<_>>()
        };
        json!({
            "eigenvalues": each(|term| term.eigenvalue),
            "centre_weights": each(|term| term.centre),
            "mean_weights": each(|term| term.mean),
            "centre": centre_ratio(shape, self.biot, self.fourier),
            "mean": mean_ratio(shape, self.biot, self.fourier),
        })
    }
}

/// Which vessel, by its constructor.
#[derive(Deserialize)]
pub(crate) struct VesselQuestion {
    kind: String,
    mass_g: f64,
    depth_mm: f64,
}

impl VesselQuestion {
    pub(crate) fn vessel(&self) -> Vessel {
        let mass = Grams::clamped(self.mass_g);
        let depth = Millimetres::clamped(self.depth_mm);
        match self.kind.as_str() {
            "piece" => BakeForm::Round.rising(mass, Material::DOUGH),
            "tin" => BakeForm::Tin.rising(mass, Material::DOUGH),
            "baked" => BakeForm::Round.cooling(mass),
            "fridge" => Vessel::filling(mass, depth, Cooling::Fridge),
            "ice_bath" => Vessel::filling(mass, depth, Cooling::IceBath),
            "stirred" => Vessel::filling_stirred(mass, depth, Cooling::Fridge),
            "jar" => Vessel::dough_held(Held::Jar, Material::DOUGH, mass),
            "bag" => {
                Vessel::filling_held(Held::Bag, Material::CUSTARD, mass, depth, Cooling::Fridge)
            }
            _ => Vessel::dough_in_bowl(mass),
        }
    }
}

/// What a body is, for the other side to reckon with the same numbers.
pub(crate) fn described(body: &Body) -> Value {
    let (form, radius, length) = match body.form {
        Form::Sphere { radius } => ("sphere", Some(radius), None),
        Form::Stick { radius } => ("stick", Some(radius), None),
        Form::Layer { depth } => ("layer", None, Some(depth)),
        Form::Dish { radius, depth } => ("dish", Some(radius), Some(depth)),
        Form::Roll { radius, length } => ("roll", Some(radius), Some(length)),
    };
    json!({
        "form": form,
        "radius_mm": radius.map(Millimetres::get),
        "length_mm": length.map(Millimetres::get),
        "conductivity_w_mk": body.material.conductivity.get(),
        "density_kg_m3": body.material.density.get(),
        "specific_heat_j_gk": body.material.specific_heat.get(),
        "film_w_m2k": body.film.get(),
    })
}

/// Temperatures in °C from minutes after the start; the first entry is from the beginning.
pub(crate) fn surroundings(history: &[(f64, f64)]) -> Surroundings {
    let celsius = |value: f64| Celsius::clamped(value);
    let first = history.first().map_or(20.0, |entry| entry.1);
    history
        .iter()
        .skip(1)
        .fold(Surroundings::constant(celsius(first)), |all, entry| {
            all.changed(minutes_after(entry.0), celsius(entry.1))
        })
}

/// The same with the doubt of each entry, if it has one: whose it is, and by how many K it may be off.
pub(crate) fn doubted(history: &[(f64, f64)], doubts: &[Option<(String, f64)>]) -> Surroundings {
    let doubt = |place: usize| {
        let (of, off) = doubts.get(place)?.as_ref()?;
        let of = match of.as_str() {
            "kitchen" => Spot::Kitchen,
            "fridge" => Spot::Fridge,
            _ => Spot::Own,
        };
        let off = CelsiusDelta::clamped(*off);
        Some(Doubt { of, off })
    };
    let first = surroundings(&history[..history.len().min(1)]);
    let first = match doubt(0) {
        Some(doubt) => first.doubted(doubt),
        None => first,
    };
    history
        .iter()
        .enumerate()
        .skip(1)
        .fold(first, |all, (place, entry)| {
            let (at, to) = (minutes_after(entry.0), Celsius::clamped(entry.1));
            all.put(at, to, 1.0, doubt(place))
        })
}

#[derive(Deserialize)]
pub(crate) struct CourseQuestion {
    vessel: VesselQuestion,
    initial_c: f64,
    around: Vec<(f64, f64)>,
    at_min: Vec<f64>,
}

impl CourseQuestion {
    pub(crate) fn answer(&self) -> Value {
        let vessel = self.vessel.vessel();
        let course = vessel.course(
            START,
            Celsius::clamped(self.initial_c),
            &surroundings(&self.around),
        );
        let at = |pick: &dyn Fn(Moment) -> Celsius| {
            let temperatures = self.at_min.iter().map(|&at| pick(minutes_after(at)).get());
            temperatures.collect::<Vec<_>>()
        };
        json!({
            "body": described(vessel.body()),
            "time_constant_min": vessel.time_constant().get(),
            "mean_c": at(&|moment| course.mean_at(moment)),
            "core_c": at(&|moment| course.core_at(moment)),
        })
    }
}

/// A body that changes its film as well as what is around it.
#[derive(Deserialize)]
pub(crate) struct MovedQuestion {
    vessel: VesselQuestion,
    initial_c: f64,
    /// Minute, °C and how many times the film of still air; the first from the beginning.
    around: Vec<(f64, f64, f64)>,
    at_min: Vec<f64>,
}

impl MovedQuestion {
    pub(crate) fn answer(&self) -> Value {
        let vessel = self.vessel.vessel();
        let nowhere = Surroundings::constant(Celsius::clamped(self.initial_c));
        let around = self.around.iter().fold(nowhere, |around, change| {
            around.moved(
                minutes_after(change.0),
                Celsius::clamped(change.1),
                change.2,
            )
        });
        let course = vessel.course(START, Celsius::clamped(self.initial_c), &around);
        let all = |read: fn(&Course, Moment) -> Celsius| {
            let at = self.at_min.iter();
            at.map(|&at| read(&course, minutes_after(at)).get())
                .collect::<Vec<_>>()
        };
        json!({
            "mean_c": all(Course::mean_at),
            "core_c": all(Course::core_at),
            "time_constant_min": vessel.time_constant().get(),
            "body": described(vessel.body()),
        })
    }
}

#[derive(Deserialize)]
pub(crate) struct TwoStageQuestion {
    vessel: VesselQuestion,
    initial_c: f64,
    around: Vec<(f64, f64)>,
}

impl TwoStageQuestion {
    pub(crate) fn answer(&self) -> Value {
        let vessel = self.vessel.vessel();
        let stages = two_stage(
            &vessel,
            Celsius::clamped(self.initial_c),
            &surroundings(&self.around),
            START,
        );
        json!({
            "body": described(vessel.body()),
            "minutes_to_21": stages.minutes_to_21.map(Minutes::get),
            "minutes_to_5": stages.minutes_to_5.map(Minutes::get),
            "passes": stages.passes,
        })
    }
}

#[derive(Deserialize)]
pub(crate) struct CoolingWindowQuestion {
    vessel: VesselQuestion,
    from_c: f64,
    to_c: f64,
    around: Vec<(f64, f64)>,
    #[serde(default)]
    doubts: Vec<Option<(String, f64)>>,
}

impl CoolingWindowQuestion {
    pub(crate) fn answer(&self) -> Value {
        let vessel = self.vessel.vessel();
        let window = cooling_window(
            &vessel,
            Celsius::clamped(self.from_c),
            Celsius::clamped(self.to_c),
            &doubted(&self.around, &self.doubts),
            START,
        );
        json!({
            "body": described(vessel.body()),
            "minutes": minutes_of(&window),
        })
    }
}

#[derive(Deserialize)]
pub(crate) struct Deepest {
    ice_bath: bool,
    around_c: f64,
}

impl Deepest {
    pub(crate) fn answer(&self) -> Value {
        let cooling = if self.ice_bath {
            Cooling::IceBath
        } else {
            Cooling::Fridge
        };
        let deepest = deepest_layer_that_passes(cooling, Celsius::clamped(self.around_c));
        json!({ "depth_mm": deepest.map(Millimetres::get) })
    }
}
