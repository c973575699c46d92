//! Question about formulas that go out to other programs.

use checks::starter;
use domain::formula::{Formula, Length, Size};
use domain::units::Grams;
use records::interchange::page;
use serde::Deserialize;
use serde_json::{Value, json};

#[derive(Deserialize)]
pub(crate) struct Recipe {
    starter: String,
    count: u16,
    mass_g: f64,
    name: String,
    ingredient: String,
}

impl Recipe {
    pub(crate) fn answer(&self) -> Value {
        let pieces = Size::Pieces {
            count: self.count,
            mass: Grams::clamped(self.mass_g),
        };
        let Ok(scaled) = starter(&self.starter).scaled(pieces) else {
            return Value::Null;
        };
        let mut draft = scaled.into_draft();
        draft.name.clone_from(&self.name);
        if let Some(part) = draft
            .components
            .iter_mut()
            .flat_map(|one| &mut one.ingredients)
            .next()
        {
            part.name.clone_from(&self.ingredient);
        }
        let Ok(formula) = Formula::new(draft) else {
            return Value::Null;
        };
        let parts = formula.components.iter().flat_map(|one| &one.ingredients);
        let parts: Vec<Value> = parts
            .map(|part| json!([part.name, part.mass.get()]))
            .collect();
        let steps = formula.steps.iter().map(|step| {
            let minutes = match &step.length {
                Length::Hands(range) | Length::Wait(range) | Length::Bake { range, .. } => {
                    Some(range.likely())
                }
                Length::Ferment {
                    reference_minutes, ..
                } => Some(reference_minutes.likely()),
                _ => None,
            };
            json!([
                step.title,
                step.instruction,
                minutes.map(|minutes| minutes.get())
            ])
        });
        json!({ "page": page(&formula), "parts": parts, "steps": steps.collect::<Vec<_>>() })
    }
}
