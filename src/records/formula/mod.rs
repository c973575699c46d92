//! A formula as it is stored and exported, version 1.

pub(crate) mod from_domain;
pub(crate) mod to_domain;

use domain::formula as model;
use domain::thermal::oven::BakeForm;
use domain::thermal::vessel::Cooling;

use crate::choice::choice;
use crate::read::{Kind, Record};
use crate::table::shape;

shape! {
    /// A formula.
    pub struct FormulaRecord {
        version: u32,
        id: String,
        name: String,
        about: String = String::new(),
        pieces: PiecesRecord,
        reference_c: f64,
        components: Vec<ComponentRecord>,
        steps: Vec<StepRecord>,
    }
}

shape! {
    /// What the dough is divided into.
    pub struct PiecesRecord {
        count: u16,
        mass_g: f64,
        noun: String,
        plural: String,
        form: BakeForm = BakeForm::Round,
    }
}

shape! {
    /// A component.
    pub struct ComponentRecord {
        id: u16,
        kind: model::ComponentKind,
        name: String,
        target_c: Option<f64> = None,
        ingredients: Vec<IngredientRecord>,
    }
}

shape! {
    /// An ingredient.
    pub struct IngredientRecord {
        food: String,
        name: String,
        mass_g: f64,
        kept: model::Kept,
        tempered: bool = false,
    }
}

shape! {
    /// A step.
    pub struct StepRecord {
        id: u16,
        component: u16,
        kind: model::StepKind,
        title: String,
        instruction: String,
        detail: String = String::new(),
        cue: String = String::new(),
        why: String = String::new(),
        cautions: Vec<model::Caution> = Vec::new(),
        needs: Vec<Need> = Vec::new(),
        after: Vec<LinkRecord> = Vec::new(),
        length: LengthRecord,
        checklist: Option<ChecklistRecord> = None,
        ahead_of: Option<u16> = None,
    }
}

/// One thing a step needs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs, reason = "the names say it all")]
pub enum Need {
    Hands,
    Hob,
    Oven,
    Fridge,
}

choice! { Need as "thing a step needs" {
    Hands = "hands", Hob = "hob", Oven = "oven", Fridge = "fridge",
} }

shape! {
    /// What has to end first.
    pub struct LinkRecord {
        step: u16,
        least_min: f64 = 0.0,
        greatest_min: Option<f64> = None,
    }
}

shape! {
    /// A window of minutes.
    #[derive(Copy)]
    pub struct WindowRecord {
        low: f64,
        likely: f64,
        high: f64,
    }
}

shape! {
    /// How long a step takes.
    pub enum LengthRecord as "length of a step" {
        Hands = "hands" { minutes: WindowRecord },
        Wait = "wait" { minutes: WindowRecord },
        Ferment = "ferment" {
            minutes: WindowRecord,
            folds_min: Vec<f64> = Vec::new(),
            held: model::Held,
            from_fridge: bool = false,
        },
        Chill = "chill" {
            from_c: f64,
            to_c: f64,
            depth_mm: f64,
            cooling: Cooling,
        },
        Cool = "cool" { to_c: f64 },
        Bake = "bake" {
            oven_c: f64,
            minutes: WindowRecord,
            core_c: f64,
            piece_g: f64,
            form: Option<BakeForm> = None,
            load_g: Option<f64> = None,
        },
        OvenHeats = "oven-heats" { oven_c: f64 },
    }
}

shape! {
    /// The marks a step asks for.
    pub enum ChecklistRecord as "checklist" {
        Ingredients = "ingredients",
        AllIngredients = "all-ingredients",
        PieceMasses = "piece-masses",
        Marks = "marks" {
            scope: model::Scope,
            items: Vec<String>,
        },
    }
}

impl Record for FormulaRecord {
    const KIND: Kind = Kind::Formula;
}
