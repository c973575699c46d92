//! The kitchen and the baker's preferences, version 1.

use domain::formula::{FineScales, Scales};
use domain::kitchen::{Kitchen, OvenKind};
use domain::thermal::kneading::KneadingMethod;
use domain::units::{Celsius, Grams, Metres, Minutes, OutOfRange};
use serde::{Deserialize, Serialize};

use crate::choice;
use crate::read::{Kind, ReadError, Record, impossible};

/// The kitchen a bake happens in, as facts.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[allow(
    missing_docs,
    reason = "the fields carry their meaning and unit in their names"
)]
pub struct KitchenFacts {
    pub air_c: f64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub flour_c: Option<f64>,
    pub fridge_c: f64,
    #[serde(with = "choice::kneading")]
    pub kneading: KneadingMethod,
    #[serde(with = "choice::oven")]
    pub oven: OvenKind,
    pub oven_heats_in_min: f64,
    pub scales_g: f64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fine_scales: Option<FineScalesRecord>,
    #[serde(default)]
    pub altitude_m: f64,
}

/// Small scales.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "as above")]
pub struct FineScalesRecord {
    pub step_g: f64,
    pub up_to_g: f64,
}

/// How temperatures are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Degrees {
    /// °C.
    #[default]
    Celsius,
    /// °F.
    Fahrenheit,
}

/// The kitchen with the baker's preferences: one record, kept under one key.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "as above")]
pub struct KitchenRecord {
    pub version: u32,
    pub facts: KitchenFacts,
    pub degrees: Degrees,
    /// From 0 to 1.
    pub alarm_volume: f64,
    pub alarm_vibrates: bool,
    pub alarm_flashes: bool,
}

impl Record for KitchenRecord {
    const KIND: Kind = Kind::Kitchen;
}

impl Default for KitchenRecord {
    fn default() -> Self {
        Self {
            version: 1,
            facts: KitchenFacts::from(&Kitchen::UNMEASURED),
            degrees: Degrees::Celsius,
            alarm_volume: 0.8,
            alarm_vibrates: true,
            alarm_flashes: true,
        }
    }
}

impl From<&Kitchen> for KitchenFacts {
    fn from(kitchen: &Kitchen) -> Self {
        Self {
            air_c: kitchen.air.get(),
            flour_c: kitchen.flour.map(|flour| flour.get()),
            fridge_c: kitchen.fridge.get(),
            kneading: kitchen.kneading,
            oven: kitchen.oven,
            oven_heats_in_min: kitchen.oven_heats_in.get(),
            scales_g: kitchen.scales.step.get(),
            fine_scales: kitchen.scales.fine.map(|fine| FineScalesRecord {
                step_g: fine.step.get(),
                up_to_g: fine.up_to.get(),
            }),
            altitude_m: kitchen.altitude.get(),
        }
    }
}

impl TryFrom<&KitchenFacts> for Kitchen {
    type Error = ReadError;

    fn try_from(facts: &KitchenFacts) -> Result<Self, ReadError> {
        let fine = facts.fine_scales.map(|fine| {
            Ok::<_, ReadError>(FineScales {
                step: scale_step(fine.step_g)?,
                up_to: Grams::new(fine.up_to_g).map_err(odd)?,
            })
        });
        let heats_in = facts.oven_heats_in_min;
        if !(0.0..=240.0).contains(&heats_in) {
            return Err(impossible(
                Kind::Kitchen,
                format_args!("the oven heats in {heats_in} min"),
            ));
        }
        Ok(Self {
            air: Celsius::new(facts.air_c).map_err(odd)?,
            flour: facts.flour_c.map(Celsius::new).transpose().map_err(odd)?,
            fridge: Celsius::new(facts.fridge_c).map_err(odd)?,
            kneading: facts.kneading,
            oven: facts.oven,
            oven_heats_in: Minutes::new(heats_in).map_err(odd)?,
            scales: Scales {
                step: scale_step(facts.scales_g)?,
                fine: fine.transpose()?,
            },
            altitude: Metres::new(facts.altitude_m).map_err(odd)?,
        })
    }
}

fn scale_step(step_g: f64) -> Result<Grams, ReadError> {
    if !(0.001..=100.0).contains(&step_g) {
        return Err(impossible(
            Kind::Kitchen,
            format_args!("the scales show steps of {step_g} g"),
        ));
    }
    Grams::new(step_g).map_err(odd)
}

fn odd(cause: OutOfRange) -> ReadError {
    impossible(Kind::Kitchen, cause)
}
