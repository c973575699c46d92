//! Questions about yeast and proofs.

use domain::estimate::{Basis, Estimate};
use domain::thermal::vessel::Surroundings;
use domain::units::{Celsius, CelsiusDelta, Minutes, Moment};
use domain::yeast::activity::{Cardinals, relative_rate};
use domain::yeast::proof::{Learnt, Proof, Unmet};
use serde::Deserialize;
use serde_json::{Value, json};

use crate::heat::{START, VesselQuestion, described, doubted, minutes_after, minutes_of};

#[derive(Deserialize)]
pub(crate) struct Rate {
    t_c: f64,
    minimum_c: f64,
    optimum_c: f64,
    maximum_c: f64,
}

impl Rate {
    pub(crate) fn answer(&self) -> Value {
        let cardinals = Cardinals {
            minimum: Celsius::clamped(self.minimum_c),
            optimum: Celsius::clamped(self.optimum_c),
            maximum: Celsius::clamped(self.maximum_c),
        };
        json!({ "rate": relative_rate(Celsius::clamped(self.t_c), &cardinals) })
    }
}

#[derive(Deserialize)]
pub(crate) struct ProofQuestion {
    vessel: VesselQuestion,
    range_min: [f64; 3],
    reference_c: f64,
    dough_c: [f64; 3],
    around: Vec<(f64, f64)>,
    had_min: f64,
    at_min: f64,
    #[serde(default)]
    doubts: Vec<Option<(String, f64)>>,
    /// What an error of kitchen, fridge and its own place has made of the dough before its start, in K.
    #[serde(default)]
    carried_k: [f64; 3],
    /// What it makes of what the rise asks for, as a logarithm.
    #[serde(default)]
    asked: [f64; 3],
}

fn estimate<T: Copy + PartialOrd>(ends: [f64; 3], of: impl Fn(f64) -> T) -> Estimate<T> {
    let [low, likely, high] = ends.map(of);
    Estimate::new(low, likely, high, Basis::Model)
}

impl ProofQuestion {
    pub(crate) fn answer(&self) -> Value {
        let proof = Proof {
            range: estimate(self.range_min, Minutes::clamped),
            reference: Celsius::clamped(self.reference_c),
            start: START,
            dough: estimate(self.dough_c, Celsius::clamped),
            surroundings: doubted(&self.around, &self.doubts),
            vessel: self.vessel.vessel(),
            had: Minutes::clamped(self.had_min),
            learnt: Learnt::default(),
        };
        let proof = proof.carrying(self.carried_k.map(CelsiusDelta::clamped), self.asked);
        json!({
            "body": described(proof.vessel.body()),
            "minutes": minutes_of(&proof.window()),
            "stalls": proof.stalls(),
            "reference_minutes": proof.reference_minutes_at(minutes_after(self.at_min)).get(),
        })
    }
}

#[derive(Deserialize)]
pub(crate) struct Backwards {
    vessel: VesselQuestion,
    range_min: [f64; 3],
    reference_c: f64,
    dough_c: f64,
    kitchen_c: f64,
    fridge_c: f64,
    ready_min: f64,
}

/// A number, or in words why there is none.
fn told(answer: Result<f64, Unmet>) -> Value {
    match answer {
        Ok(number) => json!(number),
        Err(Unmet::TooEarly) => json!("too early"),
        Err(Unmet::TooLate) => json!("too late"),
    }
}

impl Backwards {
    pub(crate) fn answer(&self) -> Value {
        let proof = Proof {
            range: estimate(self.range_min, Minutes::clamped),
            reference: Celsius::clamped(self.reference_c),
            start: START,
            dough: Estimate::exact(Celsius::clamped(self.dough_c), Basis::Model),
            surroundings: Surroundings::constant(Celsius::clamped(self.kitchen_c)),
            vessel: self.vessel.vessel(),
            had: Minutes::clamped(0.0),
            learnt: Learnt::default(),
        };
        let ready = minutes_after(self.ready_min);
        let fridge = Celsius::clamped(self.fridge_c);
        let in_the_kitchen = |out: Moment| (ready - out).get();
        json!({
            "body": described(proof.vessel.body()),
            "times": told(proof.dose_for(ready)),
            "around_c": told(proof.temperature_for(ready).map(Celsius::get)),
            "kitchen_min": told(proof.out_of_fridge_for(ready, fridge).map(in_the_kitchen)),
        })
    }
}
