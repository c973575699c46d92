//! From what a text says to steps that the app can guide.
//!
//! ```text
//! what is said -> each on its component (place) -> which rise is which (rises) -> what no text says but the app needs
//!   (needed) -> words, lengths and marks (write) -> what waits for what (weave)
//! ```
//!
//! Steps stand in lanes. Preferments, fillings, washes, and what goes on last are made in lanes of their own, each of
//! which ends before the step of the dough that takes it up; everything else is the dough's lane, in the order of the
//! text. What comes out is well formed whatever goes in: a step waits only for steps that stand before it.
//!
//! Left out: folds, which texts tell as steps of their own, and a second oven.

mod needed;
mod place;
mod rises;
pub(super) mod weave;
mod write;

use super::manuscript::{Assumed, Component, Line, Manuscript};
use super::palette::Preparing;
use super::{ComponentId, StepId, StepKind};
use crate::units::{Celsius, Minutes};

/// One step as a text has it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Said {
    /// What is written, letter for letter.
    pub text: String,
    /// What is done, where that is told.
    pub kind: Option<StepKind>,
    /// Which component it works on, where that is told.
    pub component: Option<ComponentId>,
    /// How long it takes, from the least to the most that is written.
    pub minutes: Option<(Minutes, Minutes)>,
    /// The oven's or the dough's temperature.
    pub heat: Option<SaidHeat>,
}

/// A temperature as a text has it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SaidHeat {
    /// What is written.
    pub written: Celsius,
    /// Whether that is for an oven with a fan.
    pub fan: bool,
    /// Whether its scale was inferred from the number.
    pub is_assumed: bool,
}

/// What came of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Composed {
    /// The steps, numbered from the one behind the manuscript's last.
    pub steps: Vec<Line>,
    /// The temperature that a text gives for its first rise, for which the times of all rises are then reckoned.
    pub reference: Option<Celsius>,
}

/// A step on its way.
#[derive(Debug, Clone, PartialEq)]
struct Task {
    kind: StepKind,
    component: ComponentId,
    preparing: Option<Preparing>,
    // Whether it only has to be waited for, where its kind doesn't say.
    waits: bool,
    said: Said,
    assumed: Assumed,
}

impl Task {
    /// One that no text has.
    fn added(kind: StepKind, component: ComponentId) -> Self {
        Self {
            kind,
            component,
            preparing: None,
            waits: false,
            said: Said::default(),
            assumed: Assumed {
                whole: true,
                kind: true,
                component: true,
                time: true,
                heat: true,
            },
        }
    }
}

/// Steps for a manuscript's components from what a text says of them; the usual ones where it says nothing.
///
/// What no text says is [`Assumed`]; an instruction is cut from the text at a clause, and the whole text is then kept
/// letter for letter in the detail. Nothing comes of a manuscript without a dough.
#[must_use]
pub fn compose(manuscript: &Manuscript, said: &[Said]) -> Composed {
    let Some(dough) = place::dough(&manuscript.components) else {
        return Composed {
            steps: Vec::new(),
            reference: None,
        };
    };
    let components: &[Component] = &manuscript.components;
    let mut tasks = place::place(components, dough, said);
    rises::tell(&mut tasks, components);
    let tasks = needed::complete(manuscript, dough, tasks);
    let reference = write::reference(&tasks);
    let mut steps = write::write(manuscript, reference, &tasks);
    let mut last = manuscript.last_step.0;
    steps.truncate(usize::from(u16::MAX - last));
    for line in &mut steps {
        last += 1;
        line.step.id = StepId(last);
    }
    weave::weave(&mut steps, components);
    Composed { steps, reference }
}

#[cfg(test)]
mod tests;
