//! A formula that its baker is still writing, as it is stored and exported, version 1.

mod from_domain;
mod to_domain;

use domain::formula as model;
use domain::formula::manuscript::RestsOn;
use domain::thermal::oven::BakeForm;

use crate::choice::choice;
use crate::formula::StepRecord;
use crate::read::{Kind, Record};
use crate::table::shape;

shape! {
    /// A manuscript.
    pub struct ManuscriptRecord {
        version: u32,
        id: String,
        name: String = String::new(),
        about: String = String::new(),
        pieces: WrittenPiecesRecord,
        reference_c: Option<f64> = None,
        components: Vec<WrittenComponentRecord>,
        steps: Vec<LineRecord> = Vec::new(),
        last_component: u16,
        last_step: u16,
    }
}

// Its form is always written, for no object may be empty.
shape! {
    /// What the dough is divided into, as far as that is said.
    pub struct WrittenPiecesRecord {
        count: Option<u16> = None,
        mass_g: Option<f64> = None,
        noun: String = String::new(),
        plural: String = String::new(),
        form: BakeForm,
        form_is_assumed: bool = false,
    }
}

shape! {
    /// A component.
    pub struct WrittenComponentRecord {
        id: u16,
        kind: model::ComponentKind,
        kind_is_assumed: bool = false,
        name: String = String::new(),
        target_c: Option<f64> = None,
        ingredients: Vec<WrittenIngredientRecord> = Vec::new(),
    }
}

shape! {
    /// An ingredient.
    pub struct WrittenIngredientRecord {
        written: String = String::new(),
        name: String,
        note: String = String::new(),
        food: Option<String> = None,
        food_is_assumed: bool = false,
        mass_g: Option<f64> = None,
        basis: MassBasisRecord = MassBasisRecord::Weighed,
        kept: model::Kept,
        tempered: bool = false,
        as_liked: bool = false,
    }
}

shape! {
    /// Where a mass is from.
    pub enum MassBasisRecord as "source of a mass" {
        Weighed = "weighed",
        Middle = "middle",
        Converted = "converted" {
            rests_on: RestsOn,
            described: String = String::new(),
        },
        Percentage = "percentage" { percent: f64 },
    }
}

choice! { RestsOn as "ground of a conversion" {
    Published = "published", Scaled = "scaled", Trade = "trade", Density = "density",
    Likened = "likened", Assumed = "assumed",
} }

shape! {
    /// A step, and what of it was assumed.
    pub struct LineRecord {
        step: StepRecord,
        assumed: Vec<AssumedRecord> = Vec::new(),
    }
}

/// One thing of a step that nobody said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs, reason = "the names say it all")]
pub enum AssumedRecord {
    Whole,
    Kind,
    Component,
    Time,
    Heat,
}

choice! { AssumedRecord as "thing that was assumed" {
    Whole = "whole", Kind = "kind", Component = "component", Time = "time", Heat = "heat",
} }

impl Record for ManuscriptRecord {
    const KIND: Kind = Kind::Manuscript;
}

#[cfg(test)]
mod tests;

/// What a manuscript is called, of whatever version it is; nothing where the text is none.
#[must_use]
pub fn name(text: &str) -> Option<String> {
    let json = crate::read::parse(text).ok()?;
    json.get("name")?.as_str().map(str::to_owned)
}
