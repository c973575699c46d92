//! From a manuscript to a formula and back.

use super::{
    Assumed, Component, Ingredient, Line, Manuscript, MassBasis, Open, Pieces, USUAL_REFERENCE,
};
use crate::formula::{self as model, Draft, Formula, Length, StepId};
use crate::units::{Grams, grams};

impl Manuscript {
    /// The formula that it has become.
    ///
    /// Of count and mass of the pieces one is reckoned from the other and the dough where it is missing. What has no
    /// mass because it is as liked isn't in it.
    ///
    /// # Errors
    /// All that is open and essential.
    pub fn formula(&self) -> Result<Formula, Vec<Open>> {
        let mut open = self.open();
        open.retain(Open::is_essential);
        if !open.is_empty() {
            return Err(open);
        }
        Formula::new(self.draft()).map_err(|cause| vec![Open::Broken { cause }])
    }

    /// All that is known, with its steps.
    pub(super) fn draft(&self) -> Draft {
        let mut draft = self.draft_of(self.steps.iter().map(|line| line.step.clone()).collect());
        let of_its_own = draft.oven_piece();
        for step in &mut draft.steps {
            if let Length::Bake { piece, .. } = &mut step.length
                && piece.get() <= 0.0
            {
                *piece = of_its_own;
            }
        }
        draft
    }

    pub(super) fn draft_of(&self, steps: Vec<model::Step>) -> Draft {
        let reference = self.reference.unwrap_or(USUAL_REFERENCE);
        let components = self.components.iter().map(|component| {
            let ingredients = component.ingredients.iter();
            let ingredients: Vec<_> = ingredients.filter_map(Ingredient::known).collect();
            let is_tempered = component.is_dough() && ingredients.iter().any(|part| part.tempered);
            model::Component {
                id: component.id,
                kind: component.kind,
                name: component.name.clone(),
                target: component.target.or(is_tempered.then_some(reference)),
                ingredients,
            }
        });
        let mut draft = Draft {
            id: self.id.clone(),
            name: self.name.clone(),
            about: self.about.clone(),
            pieces: model::Pieces {
                count: self.pieces.count.unwrap_or(0),
                mass: self.pieces.mass.unwrap_or(grams(0.0)),
                noun: first_said([&self.pieces.noun, &self.pieces.plural], "piece"),
                plural: first_said([&self.pieces.plural, &self.pieces.noun], "pieces"),
                form: self.pieces.form,
            },
            reference,
            components: components.collect(),
            steps,
        };
        complete_pieces(&self.pieces, &mut draft);
        draft
    }
}

/// What pieces are called: the one by the other where only that is said, which is right for one of them.
fn first_said(words: [&String; 2], else_called: &str) -> String {
    let said = words.into_iter().find(|words| !words.trim().is_empty());
    said.map_or_else(|| else_called.to_owned(), String::clone)
}

/// Reckons what of the pieces is missing from the dough: `mass = dough / count`.
fn complete_pieces(written: &Pieces, draft: &mut Draft) {
    let dough = draft.dough_mass();
    match (written.count, written.mass) {
        (Some(count), None) if count > 0 => {
            draft.pieces.mass = dough * (1.0 / f64::from(count));
        }
        // What is left over makes the pieces a little heavier than said, but no piece of its own.
        (None, Some(mass)) if mass.get() > 0.0 => {
            let count = (dough / mass).round().clamp(0.0, f64::from(u16::MAX));
            draft.pieces.count = count as u16;
        }
        _ => {}
    }
}

impl Ingredient {
    fn known(&self) -> Option<model::Ingredient> {
        let mass: Option<Grams> = self.mass;
        Some(model::Ingredient {
            food: self.food?,
            name: self.name.clone(),
            mass: mass?,
            kept: self.kept,
            tempered: self.tempered,
        })
    }
}

impl From<&Formula> for Manuscript {
    /// A formula to be changed. Nothing of it is assumed.
    fn from(formula: &Formula) -> Self {
        let pieces = &formula.pieces;
        let greatest_component = formula.components.iter().map(|one| one.id).max();
        let greatest_step = formula.steps.iter().map(|step| step.id).max();
        Self {
            id: formula.id.clone(),
            name: formula.name.clone(),
            about: formula.about.clone(),
            pieces: Pieces {
                count: Some(pieces.count),
                mass: Some(pieces.mass),
                noun: pieces.noun.clone(),
                plural: pieces.plural.clone(),
                form: pieces.form,
                form_is_assumed: false,
            },
            reference: Some(formula.reference),
            components: formula.components.iter().map(component).collect(),
            steps: in_order(formula),
            last_component: greatest_component.unwrap_or(model::ComponentId(0)),
            last_step: greatest_step.unwrap_or(StepId(0)),
        }
    }
}

/// Its steps as they stand, or each behind all that it waits for where they don't stand so.
fn in_order(formula: &Formula) -> Vec<Line> {
    let line = |step: &model::Step| Line {
        step: step.clone(),
        assumed: Assumed::default(),
    };
    let mut seen = crate::sorted::Set::new();
    let stands_so = formula.steps.iter().all(|step| {
        let waited_for = step.after.iter().all(|link| seen.contains(&link.step));
        seen.insert(step.id);
        waited_for
    });
    match formula.in_order() {
        Ok(order) if !stands_so => {
            let steps = order.iter().filter_map(|&id| formula.step(id));
            steps.map(line).collect()
        }
        _ => formula.steps.iter().map(line).collect(),
    }
}

fn component(written: &model::Component) -> Component {
    let ingredients = written.ingredients.iter().map(|part| Ingredient {
        food: Some(part.food),
        mass: Some(part.mass),
        basis: MassBasis::Weighed,
        kept: part.kept,
        tempered: part.tempered,
        ..Ingredient::named(part.name.clone())
    });
    Component {
        ingredients: ingredients.collect(),
        target: written.target,
        ..Component::blank(written.id, written.kind, written.name.clone())
    }
}
