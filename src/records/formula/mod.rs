//! A formula as it is stored and exported, version 1.

mod from_domain;
mod to_domain;

use domain::formula as model;
use domain::thermal::vessel::Cooling;
use serde::{Deserialize, Serialize};

use crate::choice;
use crate::read::{Kind, Record};

/// A formula.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[allow(
    missing_docs,
    reason = "the fields carry their meaning and unit in their names"
)]
pub struct FormulaRecord {
    pub version: u32,
    pub id: String,
    pub name: String,
    #[serde(default)]
    pub about: String,
    pub pieces: PiecesRecord,
    pub reference_c: f64,
    pub components: Vec<ComponentRecord>,
    pub steps: Vec<StepRecord>,
}

/// What the dough is divided into.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "as above")]
pub struct PiecesRecord {
    pub count: u16,
    pub mass_g: f64,
    pub noun: String,
    pub plural: String,
}

/// A component.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "as above")]
pub struct ComponentRecord {
    pub id: u16,
    #[serde(with = "choice::component_kind")]
    pub kind: model::ComponentKind,
    pub name: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub target_c: Option<f64>,
    pub ingredients: Vec<IngredientRecord>,
}

/// An ingredient.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "as above")]
pub struct IngredientRecord {
    pub food: String,
    pub name: String,
    pub mass_g: f64,
    #[serde(with = "choice::kept")]
    pub kept: model::Kept,
    #[serde(default, skip_serializing_if = "is_false")]
    pub tempered: bool,
}

/// A step.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "as above")]
pub struct StepRecord {
    pub id: u16,
    pub component: u16,
    #[serde(with = "choice::step_kind")]
    pub kind: model::StepKind,
    pub title: String,
    pub instruction: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub detail: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub cue: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub why: String,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub cautions: Vec<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub needs: Vec<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub after: Vec<LinkRecord>,
    pub length: LengthRecord,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub checklist: Option<ChecklistRecord>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ahead_of: Option<u16>,
}

/// What has to end first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "as above")]
pub struct LinkRecord {
    pub step: u16,
    #[serde(default)]
    pub least_min: f64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub greatest_min: Option<f64>,
}

/// A window of minutes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[allow(missing_docs, reason = "as above")]
pub struct WindowRecord {
    pub low_min: f64,
    pub likely_min: f64,
    pub high_min: f64,
}

/// How long a step takes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
#[allow(missing_docs, reason = "as above")]
pub enum LengthRecord {
    Hands {
        #[serde(flatten)]
        window: WindowRecord,
    },
    Wait {
        #[serde(flatten)]
        window: WindowRecord,
    },
    Ferment {
        #[serde(flatten)]
        window: WindowRecord,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        folds_min: Vec<f64>,
        #[serde(with = "choice::held")]
        held: model::Held,
        #[serde(default, skip_serializing_if = "is_false")]
        from_fridge: bool,
    },
    Chill {
        from_c: f64,
        to_c: f64,
        depth_mm: f64,
        #[serde(with = "choice::cooling")]
        cooling: Cooling,
    },
    Cool {
        to_c: f64,
    },
    Bake {
        oven_c: f64,
        #[serde(flatten)]
        window: WindowRecord,
        core_c: f64,
        piece_g: f64,
    },
    OvenHeats {
        oven_c: f64,
    },
}

/// The marks a step asks for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
#[allow(missing_docs, reason = "as above")]
pub enum ChecklistRecord {
    Ingredients,
    AllIngredients,
    PieceMasses,
    Marks {
        #[serde(with = "choice::scope")]
        scope: model::Scope,
        items: Vec<String>,
    },
}

fn is_false(value: &bool) -> bool {
    !value
}

impl Record for FormulaRecord {
    const KIND: Kind = Kind::Formula;
}
