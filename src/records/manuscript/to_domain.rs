//! From the stored shape to the model, checking everything that no edit could have done.

use domain::formula::manuscript::{self as model, Manuscript};
use domain::formula::{ComponentId, FormulaId, StepId};
use domain::units::{BakersPercent, Celsius, Grams, OutOfRange};

use super::{
    AssumedRecord, LineRecord, ManuscriptRecord, MassBasisRecord, WrittenComponentRecord,
    WrittenIngredientRecord,
};
use crate::formula::to_domain::step;
use crate::read::{Kind, ReadError, impossible};

impl TryFrom<ManuscriptRecord> for Manuscript {
    type Error = ReadError;

    fn try_from(record: ManuscriptRecord) -> Result<Self, ReadError> {
        let pieces = model::Pieces {
            count: record.pieces.count,
            mass: grams(record.pieces.mass_g)?,
            noun: record.pieces.noun,
            plural: record.pieces.plural,
            form: record.pieces.form,
            form_is_assumed: record.pieces.form_is_assumed,
        };
        let components = record.components.into_iter().map(component);
        let manuscript = Self {
            id: FormulaId(record.id),
            name: record.name,
            about: record.about,
            pieces,
            reference: celsius(record.reference_c)?,
            components: components.collect::<Result<_, _>>()?,
            steps: record
                .steps
                .into_iter()
                .map(line)
                .collect::<Result<_, _>>()?,
            last_component: ComponentId(record.last_component),
            last_step: StepId(record.last_step),
        };
        check(&manuscript)?;
        Ok(manuscript)
    }
}

/// Numbers are given once, and what a step waits for stands before it.
fn check(manuscript: &Manuscript) -> Result<(), ReadError> {
    let no = |cause: &dyn std::fmt::Display| Err(impossible(Kind::Manuscript, cause));
    for (place, component) in manuscript.components.iter().enumerate() {
        let id = component.id;
        let before = &manuscript.components[..place];
        if before.iter().any(|other| other.id == id) {
            return no(&format_args!("component {} stands twice", id.0));
        }
        if id > manuscript.last_component {
            return no(&format_args!("component {} was never given", id.0));
        }
    }
    for (place, line) in manuscript.steps.iter().enumerate() {
        let step = &line.step;
        let before = &manuscript.steps[..place];
        let stands_before = |id: StepId| before.iter().any(|other| other.step.id == id);
        if stands_before(step.id) {
            return no(&format_args!("step {} stands twice", step.id.0));
        }
        if step.id > manuscript.last_step {
            return no(&format_args!("step {} was never given", step.id.0));
        }
        if manuscript.component(step.component).is_none() {
            return no(&format_args!(
                "step {} works on component {}, which isn't there",
                step.id.0, step.component.0
            ));
        }
        for link in &step.after {
            if !stands_before(link.step) {
                return no(&format_args!(
                    "step {} waits for step {}, which doesn't stand before it",
                    step.id.0, link.step.0
                ));
            }
        }
        let ahead = step.ahead_of;
        if ahead.is_some_and(|ahead| manuscript.line(ahead).is_none()) {
            return no(&format_args!(
                "step {} is early for one that isn't there",
                step.id.0
            ));
        }
    }
    Ok(())
}

fn component(record: WrittenComponentRecord) -> Result<model::Component, ReadError> {
    let ingredients = record.ingredients.into_iter().map(ingredient);
    Ok(model::Component {
        id: ComponentId(record.id),
        kind: record.kind,
        kind_is_assumed: record.kind_is_assumed,
        name: record.name,
        ingredients: ingredients.collect::<Result<_, _>>()?,
        target: celsius(record.target_c)?,
    })
}

fn ingredient(record: WrittenIngredientRecord) -> Result<model::Ingredient, ReadError> {
    let known = |key: &String| {
        domain::food::food(key).ok_or_else(|| {
            impossible(
                Kind::Manuscript,
                &format_args!("no food is called \"{key}\""),
            )
        })
    };
    Ok(model::Ingredient {
        written: record.written,
        name: record.name,
        note: record.note,
        food: record.food.as_ref().map(known).transpose()?,
        food_is_assumed: record.food_is_assumed,
        mass: grams(record.mass_g)?,
        basis: match record.basis {
            MassBasisRecord::Weighed => model::MassBasis::Weighed,
            MassBasisRecord::Middle => model::MassBasis::Middle,
            MassBasisRecord::Converted {
                rests_on,
                described,
            } => model::MassBasis::Converted {
                rests_on,
                described,
            },
            MassBasisRecord::Percentage { percent } => {
                model::MassBasis::Percentage(BakersPercent::new(percent).map_err(odd)?)
            }
        },
        kept: record.kept,
        tempered: record.tempered,
        as_liked: record.as_liked,
    })
}

fn line(record: LineRecord) -> Result<model::Line, ReadError> {
    let assumed = |what| record.assumed.contains(&what);
    Ok(model::Line {
        assumed: model::Assumed {
            whole: assumed(AssumedRecord::Whole),
            kind: assumed(AssumedRecord::Kind),
            component: assumed(AssumedRecord::Component),
            time: assumed(AssumedRecord::Time),
            heat: assumed(AssumedRecord::Heat),
        },
        // What is wrong with a step is the same wherever it stands.
        step: step(record.step).map_err(|error| match error {
            ReadError::Impossible { cause, .. } => impossible(Kind::Manuscript, &cause),
            other => other,
        })?,
    })
}

fn grams(value: Option<f64>) -> Result<Option<Grams>, ReadError> {
    value.map(Grams::new).transpose().map_err(odd)
}

fn celsius(value: Option<f64>) -> Result<Option<Celsius>, ReadError> {
    value.map(Celsius::new).transpose().map_err(odd)
}

fn odd(cause: OutOfRange) -> ReadError {
    impossible(Kind::Manuscript, &cause)
}
