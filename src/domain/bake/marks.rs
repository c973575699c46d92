//! The marks that a step's checklist asks for.

use super::event::Mark;
use super::state::State;
use crate::formula::{Checklist, Scope, StepId};

/// The first mark of a step that isn't set, in the order of the work.
#[must_use]
pub fn next_mark(state: &State, step: StepId) -> Option<Mark> {
    let set = &state.progress(step).marks;
    let mut marks = marks_of(state, step).into_iter();
    marks.find(|mark| !set.contains(mark))
}

/// Every mark a step asks for, in the order of the work: all of one piece, then the next.
#[must_use]
pub fn marks_of(state: &State, step: StepId) -> Vec<Mark> {
    let Some(step) = state.formula.step(step) else {
        return Vec::new();
    };
    let lines = |count: usize| {
        let count = u16::try_from(count).unwrap_or(u16::MAX);
        (0..count).map(|item| Mark { item, piece: None }).collect()
    };
    let pieces = state.formula.pieces.count;
    match &step.checklist {
        None => Vec::new(),
        Some(Checklist::Ingredients) => {
            let component = state.formula.component_of(step);
            lines(component.map_or(0, |component| component.ingredients.len()))
        }
        Some(Checklist::AllIngredients) => {
            let components = state.formula.components.iter();
            lines(
                components
                    .map(|component| component.ingredients.len())
                    .sum(),
            )
        }
        Some(Checklist::PieceMasses) => (0..pieces)
            .map(|piece| Mark {
                item: 0,
                piece: Some(piece),
            })
            .collect(),
        Some(Checklist::Marks { scope, items }) => match scope {
            Scope::Batch => lines(items.len()),
            Scope::EachPiece => {
                let items = u16::try_from(items.len()).unwrap_or(u16::MAX);
                (0..pieces)
                    .flat_map(|piece| (0..items).map(move |item| (piece, item)))
                    .map(|(piece, item)| Mark {
                        item,
                        piece: Some(piece),
                    })
                    .collect()
            }
        },
    }
}
