//! Whether the parts of a formula fit together.

use std::fmt;

use super::{Checklist, ComponentId, ComponentKind, Draft, Length, StepId};
use crate::sorted::Set;

/// Why a draft is no formula.
#[derive(Debug, Clone, PartialEq)]
pub enum FormulaError {
    /// It makes no pieces, or pieces of no mass.
    NoPieces,
    /// It has no final dough, or several.
    NotOneDough(usize),
    /// Its dough has no flour, so nothing can be a percentage of it.
    NoFlour,
    /// A component number stands twice.
    ComponentTwice(ComponentId),
    /// A step number stands twice.
    StepTwice(StepId),
    /// It has no steps.
    NoSteps,
    /// A step belongs to a component that isn't there.
    UnknownComponent(StepId, ComponentId),
    /// A step waits for one that isn't there.
    UnknownStep(StepId, StepId),
    /// A step waits, perhaps through others, for itself.
    Circle(StepId),
    /// The greatest time of a link is below its least.
    LinkReversed(StepId, StepId),
    /// An instruction is too long to be read from across the kitchen.
    LongInstruction(StepId, usize),
    /// A step kind needs another kind of length.
    WrongLength(StepId),
    /// A checklist without a line.
    EmptyChecklist(StepId),
}

impl fmt::Display for FormulaError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoPieces => write!(f, "it makes no pieces; say how many and how heavy"),
            Self::NotOneDough(count) => {
                write!(f, "it has {count} final doughs; it needs exactly one")
            }
            Self::NoFlour => write!(f, "its dough has no flour to reckon percentages from"),
            Self::ComponentTwice(ComponentId(id)) => write!(f, "component {id} stands twice"),
            Self::StepTwice(StepId(id)) => write!(f, "step {id} stands twice"),
            Self::NoSteps => write!(f, "it has no steps"),
            Self::UnknownComponent(StepId(step), ComponentId(id)) => {
                write!(f, "step {step} works on component {id}, which isn't there")
            }
            Self::UnknownStep(StepId(step), StepId(other)) => {
                write!(f, "step {step} waits for step {other}, which isn't there")
            }
            Self::Circle(StepId(step)) => write!(f, "step {step} ends up waiting for itself"),
            Self::LinkReversed(StepId(step), StepId(other)) => write!(
                f,
                "step {step} may start no later after step {other} than it may start at all"
            ),
            Self::LongInstruction(StepId(step), words) => {
                write!(
                    f,
                    "the instruction of step {step} has {words} words, more than 12"
                )
            }
            Self::WrongLength(StepId(step)) => {
                write!(f, "step {step} has a length that doesn't suit what it does")
            }
            Self::EmptyChecklist(StepId(step)) => {
                write!(f, "the checklist of step {step} has no line")
            }
        }
    }
}

impl std::error::Error for FormulaError {}

pub(super) fn check(draft: &Draft) -> Result<(), FormulaError> {
    if draft.pieces.count == 0 || draft.pieces.mass.get() <= 0.0 {
        return Err(FormulaError::NoPieces);
    }
    check_components(draft)?;
    check_steps(draft)?;
    draft.in_order().map_err(FormulaError::Circle)?;
    Ok(())
}

fn check_components(draft: &Draft) -> Result<(), FormulaError> {
    let doughs = draft
        .components
        .iter()
        .filter(|component| component.kind == ComponentKind::Dough)
        .count();
    if doughs != 1 {
        return Err(FormulaError::NotOneDough(doughs));
    }
    if draft.flour_mass().get() <= 0.0 {
        return Err(FormulaError::NoFlour);
    }
    let mut seen = Set::new();
    for component in &draft.components {
        if !seen.insert(component.id) {
            return Err(FormulaError::ComponentTwice(component.id));
        }
    }
    Ok(())
}

fn check_steps(draft: &Draft) -> Result<(), FormulaError> {
    if draft.steps.is_empty() {
        return Err(FormulaError::NoSteps);
    }
    let mut seen = Set::new();
    for step in &draft.steps {
        if !seen.insert(step.id) {
            return Err(FormulaError::StepTwice(step.id));
        }
        if draft.component(step.component).is_none() {
            return Err(FormulaError::UnknownComponent(step.id, step.component));
        }
        let words = step.instruction.split_whitespace().count();
        if words > super::Step::MOST_WORDS {
            return Err(FormulaError::LongInstruction(step.id, words));
        }
        if let Some(Checklist::Marks { items, .. }) = &step.checklist
            && items.is_empty()
        {
            return Err(FormulaError::EmptyChecklist(step.id));
        }
        // Turning the oven on is work; only the heating that follows it goes on by itself.
        if step.ahead_of.is_some() && !matches!(step.length, Length::Hands(_)) {
            return Err(FormulaError::WrongLength(step.id));
        }
        let others = step.after.iter().map(|link| link.step).chain(step.ahead_of);
        for other in others {
            if draft.step(other).is_none() {
                return Err(FormulaError::UnknownStep(step.id, other));
            }
        }
        for link in &step.after {
            if link.greatest.is_some_and(|greatest| greatest < link.least) {
                return Err(FormulaError::LinkReversed(step.id, link.step));
            }
        }
    }
    Ok(())
}

impl Draft {
    /// Its steps, each behind all that it waits for; or one that waits, perhaps through others, for itself.
    pub(crate) fn in_order(&self) -> Result<Vec<StepId>, StepId> {
        let mut left: Vec<_> = self.steps.iter().collect();
        let mut placed = Vec::with_capacity(left.len());
        while let Some(first) = left.first() {
            let (first, before) = (first.id, left.len());
            left.retain(|step| {
                let free = step.after.iter().all(|link| placed.contains(&link.step));
                if free {
                    placed.push(step.id);
                }
                !free
            });
            if left.len() == before {
                return Err(first);
            }
        }
        Ok(placed)
    }
}
