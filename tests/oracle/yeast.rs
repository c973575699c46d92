//! Questions about yeast and proofs.

use domain::estimate::{Basis, Estimate};
use domain::units::{Celsius, Minutes};
use domain::yeast::activity::{Cardinals, relative_rate};
use domain::yeast::proof::Proof;
use serde::Deserialize;
use serde_json::{Value, json};

use crate::heat::{START, VesselQuestion, described, minutes_after, minutes_of, surroundings};

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
            surroundings: surroundings(&self.around),
            vessel: self.vessel.vessel(),
            had: Minutes::clamped(self.had_min),
        };
        json!({
            "body": described(proof.vessel.body()),
            "minutes": minutes_of(&proof.window()),
            "stalls": proof.stalls(),
            "reference_minutes": proof.reference_minutes_at(minutes_after(self.at_min)).get(),
        })
    }
}
