//! From the model to the stored shape.

use domain::formula::manuscript as model;
use domain::units::{Celsius, Grams};

use super::{
    AssumedRecord, LineRecord, ManuscriptRecord, MassBasisRecord, WrittenComponentRecord,
    WrittenIngredientRecord, WrittenPiecesRecord,
};
use crate::formula::from_domain::step;

impl From<&model::Manuscript> for ManuscriptRecord {
    fn from(manuscript: &model::Manuscript) -> Self {
        let pieces = &manuscript.pieces;
        Self {
            version: 1,
            id: manuscript.id.0.clone(),
            name: manuscript.name.clone(),
            about: manuscript.about.clone(),
            pieces: WrittenPiecesRecord {
                count: pieces.count,
                mass_g: pieces.mass.map(Grams::get),
                noun: pieces.noun.clone(),
                plural: pieces.plural.clone(),
                form: pieces.form,
                form_is_assumed: pieces.form_is_assumed,
            },
            reference_c: manuscript.reference.map(Celsius::get),
            components: manuscript.components.iter().map(component).collect(),
            steps: manuscript.steps.iter().map(line).collect(),
            last_component: manuscript.last_component.0,
            last_step: manuscript.last_step.0,
        }
    }
}

fn component(component: &model::Component) -> WrittenComponentRecord {
    WrittenComponentRecord {
        id: component.id.0,
        kind: component.kind,
        kind_is_assumed: component.kind_is_assumed,
        name: component.name.clone(),
        target_c: component.target.map(Celsius::get),
        ingredients: component.ingredients.iter().map(ingredient).collect(),
    }
}

fn ingredient(part: &model::Ingredient) -> WrittenIngredientRecord {
    WrittenIngredientRecord {
        written: part.written.clone(),
        name: part.name.clone(),
        note: part.note.clone(),
        food: part.food.map(|food| food.key.to_owned()),
        food_is_assumed: part.food_is_assumed,
        mass_g: part.mass.map(Grams::get),
        basis: match &part.basis {
            model::MassBasis::Weighed => MassBasisRecord::Weighed,
            model::MassBasis::Middle => MassBasisRecord::Middle,
            model::MassBasis::Converted {
                rests_on,
                described,
            } => MassBasisRecord::Converted {
                rests_on: *rests_on,
                described: described.clone(),
            },
            model::MassBasis::Percentage(percent) => MassBasisRecord::Percentage {
                percent: percent.get(),
            },
        },
        kept: part.kept,
        tempered: part.tempered,
        as_liked: part.as_liked,
    }
}

fn line(line: &model::Line) -> LineRecord {
    let assumed = [
        (AssumedRecord::Whole, line.assumed.whole),
        (AssumedRecord::Kind, line.assumed.kind),
        (AssumedRecord::Component, line.assumed.component),
        (AssumedRecord::Time, line.assumed.time),
        (AssumedRecord::Heat, line.assumed.heat),
    ];
    LineRecord {
        step: step(&line.step),
        assumed: assumed
            .iter()
            .filter(|(_, is)| *is)
            .map(|(what, _)| *what)
            .collect(),
    }
}
