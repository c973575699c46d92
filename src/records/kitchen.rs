//! The kitchen and the baker's preferences, version 1.

use domain::decimal::plain;
use domain::kitchen::{
    FRIDGE_HOLDS, FURTHEST_OVEN, FineScales, Kitchen, MOST_FRIDGE_HOLDS, OvenKind, Scales,
};
use domain::thermal::kneading::KneadingMethod;
use domain::units::{Celsius, CelsiusDelta, Grams, Metres, Minutes, OutOfRange};

use crate::choice::choice;
use crate::read::{Kind, ReadError, Record, impossible};
use crate::table::shape;

shape! {
    /// The kitchen a bake happens in, as facts.
    pub struct KitchenFacts {
        air_c: f64,
        flour_c: Option<f64> = None,
        fridge_c: f64,
        fridge_holds: u32 = FRIDGE_HOLDS,
        kneading: KneadingMethod,
        oven: OvenKind,
        oven_off_k: Option<f64> = None,
        oven_heats_in_min: f64,
        scales_g: f64,
        fine_scales: Option<FineScalesRecord> = None,
        altitude_m: f64 = 0.0,
    }
}

shape! {
    /// Small scales.
    #[derive(Copy)]
    pub struct FineScalesRecord {
        step_g: f64,
        up_to_g: f64,
    }
}

shape! {
    /// When the baker sleeps, in minutes of the day.
    #[derive(Copy)]
    pub struct AsleepRecord {
        bed_min: u32,
        up_min: u32,
    }
}

/// How temperatures are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Degrees {
    /// °C.
    #[default]
    Celsius,
    /// °F.
    Fahrenheit,
}

choice! { Degrees as "temperature scale" {
    Celsius = "celsius", Fahrenheit = "fahrenheit",
} }

shape! {
    /// The kitchen with the baker's preferences: one record, kept under one key.
    /// The volume runs from 0 to 1. What is gathered are a bake's and a thing's name: "b1/milk".
    pub struct KitchenRecord {
        version: u32,
        facts: KitchenFacts,
        degrees: Degrees,
        alarm_volume: f64,
        alarm_vibrates: bool,
        alarm_flashes: bool,
        gathered: Vec<String> = Vec::new(),
        asleep: Option<AsleepRecord> = None,
    }
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
            gathered: Vec::new(),
            asleep: None,
        }
    }
}

impl From<&Kitchen> for KitchenFacts {
    fn from(kitchen: &Kitchen) -> Self {
        Self {
            air_c: kitchen.air.get(),
            flour_c: kitchen.flour.map(|flour| flour.get()),
            fridge_c: kitchen.fridge.get(),
            fridge_holds: kitchen.fridge_holds,
            kneading: kitchen.kneading,
            oven: kitchen.oven,
            oven_off_k: kitchen.oven_off.map(|off| off.get()),
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
                &format_args!("the oven heats in {} min", plain(heats_in, 2)),
            ));
        }
        let furthest = FURTHEST_OVEN.get();
        if let Some(off) = facts
            .oven_off_k
            .filter(|off| !(-furthest..=furthest).contains(off))
        {
            return Err(impossible(
                Kind::Kitchen,
                &format_args!("the oven is {} K off", plain(off, 2)),
            ));
        }
        if !(1..=MOST_FRIDGE_HOLDS).contains(&facts.fridge_holds) {
            return Err(impossible(
                Kind::Kitchen,
                &format_args!("the fridge holds {}", facts.fridge_holds),
            ));
        }
        Ok(Self {
            air: Celsius::new(facts.air_c).map_err(odd)?,
            flour: facts.flour_c.map(Celsius::new).transpose().map_err(odd)?,
            fridge: Celsius::new(facts.fridge_c).map_err(odd)?,
            fridge_holds: facts.fridge_holds,
            kneading: facts.kneading,
            oven: facts.oven,
            oven_off: facts.oven_off_k.map(CelsiusDelta::clamped),
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
            &format_args!("the scales show steps of {} g", plain(step_g, 4)),
        ));
    }
    Grams::new(step_g).map_err(odd)
}

fn odd(cause: OutOfRange) -> ReadError {
    impossible(Kind::Kitchen, &cause)
}
